"""The first taste of a table that wants it cooler than its protocol does."""

import random
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from cupwright.core.plan.planning import laid
from cupwright.core.plan.protocol_file import builtin_protocol
from cupwright.core.plan.table import Plan, Table
from cupwright.core.pour.clock import Clock
from cupwright.core.pour.cooling_fit import fitted
from cupwright.core.pour.cup_temperature import expected_of_plan
from cupwright.core.pour.first_taste import MOST_PUT_OFF_S, put_off_s
from cupwright.core.pour.laid import PAUSE_S
from cupwright.core.pour.order_of_work import order_of_work
from cupwright.core.pour.recipe import recipe
from cupwright.core.pour.table_sheet import cues_of, schedule_of, timing_of
from cupwright.core.pour.timing import CueKind
from cupwright.core.taste.sheet_file import builtin_sheet

CUPPING, HOME, BREW = (builtin_protocol(name) for name in ("cupping", "home", "brew"))
PLAN = Plan(name="A table", coffees=("a", "b", "c"))
HANDS = (CueKind.POUR, CueKind.BREAK, CueKind.SKIM)


def table_of(plan: Plan) -> Table:
    made = datetime(2026, 1, 1, tzinfo=UTC)
    return laid(
        plan, builtin_sheet("open"), table_id="t", created=made, rng=random.Random(1), ids=lambda: "seat"
    )


def moments(table: Table, *kinds: CueKind) -> dict[tuple[CueKind, int], int]:
    cues = cues_of(replace(table, clock=Clock(started_at=0)))
    return {(cue.kind, cue.bowl): cue.due for cue in cues if cue.kind in kinds}


@pytest.mark.parametrize("protocol", [CUPPING, HOME, BREW], ids=["cupping", "home", "brew"])
def test_a_plan_as_hot_as_its_protocol_keeps_the_protocols_time(protocol):
    assert put_off_s(PLAN, protocol) == 0
    assert put_off_s(replace(PLAN, taste_from_c=75.0), protocol) == 0


@pytest.mark.parametrize("wish_c", [65.0, 57.8, 50.0])
def test_when_called_a_bowl_is_expected_to_be_as_cool_as_the_plan_wants_it(wish_c: float):
    plan = replace(PLAN, taste_from_c=wish_c)
    cooling = expected_of_plan(plan, CUPPING)

    called = CUPPING.taste.from_s + put_off_s(plan, CUPPING)

    assert cooling.at(called).celsius <= wish_c
    assert cooling.at(called - 90).celsius > wish_c


def test_a_protocol_without_a_temperature_is_put_off_to_that_of_the_plan():
    plan = replace(PLAN, protocol="brew", taste_from_c=60.0)
    called = BREW.taste.from_s + put_off_s(plan, BREW)

    assert expected_of_plan(plan, BREW).at(called).celsius == pytest.approx(60.0, abs=0.5)


def test_a_bowl_that_never_cools_so_far_is_called_for_after_two_hours():
    assert put_off_s(replace(PLAN, taste_from_c=40.0, room_c=45.0), CUPPING) == MOST_PUT_OFF_S == 7200


def test_hands_keep_the_protocols_times_and_everybody_is_called_later():
    usual, cooler = table_of(PLAN), table_of(replace(PLAN, taste_from_c=57.8))
    later = timing_of(cooler).put_off_s * 1000

    assert later >= 5 * 60_000
    assert moments(cooler, *HANDS) == moments(usual, *HANDS)
    assert moments(cooler, CueKind.TASTE) == {
        act: due + later for act, due in moments(usual, CueKind.TASTE).items()
    }


def test_the_next_flight_waits_until_the_one_before_it_was_tasted():
    cooler = table_of(replace(PLAN, flight=2, taste_from_c=57.8))
    first, second = schedule_of(cooler).flights
    last_pour = max(moments(cooler, CueKind.POUR)[CueKind.POUR, bowl] for bowl in range(first.after)) // 1000

    assert second.start_s == last_pour + timing_of(cooler).first_taste_s[1] + PAUSE_S


def test_the_order_of_work_says_the_later_time():
    cooler = table_of(replace(PLAN, taste_from_c=57.8))
    tasks = {task.title: task for task in order_of_work(cooler, recipe(cooler.plan, 3))}
    minutes, seconds = divmod(480 + timing_of(cooler).put_off_s, 60)

    assert tasks["Taste"].detail.startswith(f"From {minutes}:{seconds:02d} to ")


def read(table: Table, *readings: tuple[int, int, float], pours: tuple[tuple[int, int], ...] = ()) -> Table:
    """A table whose clock was started at 0; readings are (bowl, ms, °C)."""
    return replace(table, clock=Clock(started_at=0, readings=readings, pours=pours))


def first_taste(table: Table, bowl: int = 0) -> int:
    """Seconds after the bowl's own pour, at which it is called."""
    due = {(cue.kind, cue.bowl): cue.due for cue in cues_of(table)}
    return (due[CueKind.TASTE, bowl] - due[CueKind.POUR, bowl]) // 1000


@pytest.mark.parametrize("off_k", [-4.0, 4.0])
def test_a_reading_moves_the_call_to_when_the_fitted_curve_is_cool_enough(off_k: float):
    table = table_of(replace(PLAN, taste_from_c=60.0))
    seen = expected_of_plan(table.plan, CUPPING).at(300).celsius + off_k

    moved = first_taste(read(table, (0, 300_000, seen)))

    curve = fitted(expected_of_plan(table.plan, CUPPING), [(300.0, seen)])
    assert curve.at(moved).celsius <= 60.0 < curve.at(moved - 60).celsius
    assert (moved > first_taste(read(table))) is (off_k > 0)


def test_a_bowl_read_hotter_than_its_protocol_holds_for_is_called_later():
    hot = read(table_of(PLAN), (0, 420_000, 80.0))

    assert first_taste(read(table_of(PLAN))) == 480
    assert first_taste(hot) > 480


def test_no_bowl_is_called_before_the_protocols_time():
    assert first_taste(read(table_of(PLAN), (0, 240_000, 62.0))) == 480


def test_readings_that_do_not_go_together_move_no_call():
    """A slip of the pen: 58 for 85 °C after three minutes, then a bowl as hot as it is expected to be."""
    table = read(table_of(PLAN), (0, 180_000, 58.0), (0, 420_000, 74.0), (1, 480_000, 73.0))

    assert first_taste(table) == 480


def test_a_reading_that_is_taken_back_moves_the_call_back():
    table = read(table_of(PLAN), (0, 420_000, 80.0))

    assert first_taste(replace(table, clock=table.clock.unread(0, 420_000))) == 480


def test_a_reading_moves_no_hands():
    plain, hot = (read(table_of(PLAN), *readings) for readings in ((), ((0, 420_000, 80.0),)))

    hands = [[cue for cue in cues_of(table) if cue.kind in HANDS] for table in (plain, hot)]

    assert hands[0] == hands[1]


def test_a_reading_of_a_flight_that_is_not_yet_begun_moves_no_call_that_its_pours_wait_for():
    table = table_of(replace(PLAN, flight=2, coffees=("a", "b", "c", "d")))
    later = {(cue.kind, cue.bowl): cue.due for cue in cues_of(read(table))}[CueKind.POUR, 2]
    reading = (2, later + 420_000, 80.0)

    assert cues_of(read(table, reading)) == cues_of(read(table))
    # a marked pour holds its flight in its place, so from then on the reading counts
    assert first_taste(read(table, reading, pours=((2, later),)), 2) > 480


def test_the_call_does_not_depend_on_the_order_in_which_bowls_were_read():
    one, other = (0, 300_000, 78.0), (1, 500_000, 72.0)

    assert cues_of(read(table_of(PLAN), one, other)) == cues_of(read(table_of(PLAN), other, one))
