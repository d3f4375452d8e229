"""Rest since the roast, as far as a date tells."""

from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.protocol import Band
from cupwright.core.plan.rest import rest_deviations, rested, window_in_words

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)
DAY = Band(8, 24, "ours")
WEEKS = Band(96, 1008, "ours")


def roasted(days_ago: int, name: str = "Lot") -> Coffee:
    return Coffee("c", name, roast_date=NOON.date() - timedelta(days=days_ago))


@pytest.mark.parametrize(("days", "hours"), [(0, (0, 12)), (1, (12, 36)), (2, (36, 60)), (-1, (-36, -12))])
def test_a_date_leaves_a_day_of_doubt(days: int, hours: tuple[float, float]) -> None:
    assert rested(roasted(days), NOON) == hours


def test_without_a_date_nothing_is_known() -> None:
    assert rested(Coffee("c", "Lot"), NOON) is None
    assert [one.size for one in rest_deviations(DAY, [Coffee("c", "Lot")], NOON)] == [None]


@pytest.mark.parametrize("days", [0, 1])
def test_where_a_part_of_the_day_would_do_nobody_can_tell(days: int) -> None:
    (found,) = rest_deviations(DAY, [roasted(days)], NOON)

    assert not found.known
    assert "only the day is known" in found.sentence


def test_too_long_is_told_by_the_least_that_it_can_be() -> None:
    (found,) = rest_deviations(DAY, [roasted(3)], NOON)

    # by hand: roasted on the 22nd, so at noon of the 25th at least 60 h, 36 more than 24
    assert found.size == 36
    assert found.sentence == (
        "Lot, roasted on 2026-11-22, has rested at least 36 h more than the 8 to 24 h asked for."
    )


def test_too_short_is_told_likewise() -> None:
    (found,) = rest_deviations(WEEKS, [roasted(1)], NOON)

    # by hand: at most 36 h of the 96 asked for
    assert found.size == -60
    assert "has rested at least 60 h less than the 4 to 42 days asked for" in found.sentence


def test_coffee_from_the_future_is_a_slip_of_the_pen() -> None:
    (found,) = rest_deviations(DAY, [roasted(-1)], NOON)

    assert found.known
    assert "is said to be roasted on 2026-11-26, which is yet to come" in found.sentence


def test_within_the_window_there_is_nothing_to_say() -> None:
    assert rest_deviations(WEEKS, [roasted(10)], NOON) == ()
    assert rest_deviations(None, [roasted(10)], NOON) == ()


def test_those_of_which_nobody_can_tell_are_named_together() -> None:
    coffees = [Coffee("a", "A"), Coffee("b", "B"), Coffee("c", "C")]

    (found,) = rest_deviations(DAY, coffees, NOON)

    assert found.sentence.startswith("A, B and C: it is not known when")


@pytest.mark.parametrize(
    ("band", "words"),
    [
        (DAY, "8 to 24 h"),
        (WEEKS, "4 to 42 days"),
        (Band(96, None, ""), "at least 4 days"),
        (Band(None, 24, ""), "at most 24 h"),
    ],
)
def test_a_window_is_told_in_hours_or_in_days(band: Band, words: str) -> None:
    assert window_in_words(band) == words


@given(days=st.integers(4, 400), more=st.integers(1, 50))
def test_every_further_day_adds_a_day_to_the_size(days: int, more: int) -> None:
    (here,), (further,) = (rest_deviations(DAY, [roasted(each)], NOON) for each in (days, days + more))

    assert here.size is not None
    assert further.size is not None
    assert further.size - here.size == 24 * more


@given(minutes=st.integers(0, 5_000_000), hour=st.integers(0, 23))
def test_the_true_rest_lies_between_the_two(minutes: int, hour: int) -> None:
    roast = datetime(2020, 1, 1, hour, tzinfo=UTC)
    at = datetime(2020, 1, 2, tzinfo=UTC) + timedelta(minutes=minutes)

    bounds = rested(Coffee("c", "Lot", roast_date=date(2020, 1, 1)), at)

    assert bounds is not None
    assert bounds[0] <= (at - roast) / timedelta(hours=1) <= bounds[1]
