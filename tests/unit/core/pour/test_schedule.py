"""The schedule: within every tolerance or refused, and exact about how many bowls can be kept."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.unit.core.pour.every_way import can_be_kept

from cupwright.core.pour.hands import Hands, seconds_of
from cupwright.core.pour.laid import Schedule
from cupwright.core.pour.schedule import keepable, largest, people_needed, schedule
from cupwright.core.pour.timing import STANDARD_TIMING, CueKind, Timing
from cupwright.errors import Refused

NOTHING_TO_BREAK = Timing(taste_from_s=120, acts=(CueKind.POUR, CueKind.TASTE))
QUICK = settings(max_examples=15, deadline=None)

hands = st.builds(
    Hands,
    people=st.integers(1, 3),
    pour_s=st.sampled_from([10, 15, 20, 30, 12.5]),
    break_s=st.sampled_from([5, 10, 20]),
    skim_s=st.sampled_from([10, 15, 25]),
)
timings = st.builds(
    lambda at, early, late, taste: Timing(
        break_at_s=at, break_earliest_s=at - early, break_latest_s=at + late, taste_from_s=at + taste
    ),
    st.sampled_from([180, 240]),
    st.sampled_from([0, 30, 60]),
    st.sampled_from([0, 30, 60]),
    st.sampled_from([120, 200, 240]),
)


def starts(laid: Schedule, kind: CueKind) -> dict[int, int]:
    return {act.bowl: act.start_s for act in laid.acts if act.kind is kind}


def require_kept(laid: Schedule, bowls: int, given_hands: Hands, timing: Timing) -> None:
    """Every rule of the schedule, checked act by act."""
    pours, breaks, skims = (starts(laid, kind) for kind in (CueKind.POUR, CueKind.BREAK, CueKind.SKIM))
    assert list(pours) == list(breaks) == sorted(skims) == list(range(bowls))
    seconds = seconds_of(given_hands, timing)
    assert all(act.end_s - act.start_s == seconds[act.kind] for act in laid.acts)
    for person in range(laid.people):
        own = [act for act in laid.acts if act.person == person]
        assert all(one.end_s <= other.start_s for one, other in pairwise(own))
    for flight in laid.flights:
        of_flight = range(flight.first, flight.after)
        first_taste = pours[flight.first] + timing.taste_from_s
        for bowl in of_flight:
            steep = breaks[bowl] - pours[bowl]
            assert timing.break_earliest_s <= steep <= timing.break_latest_s
            assert skims[bowl] >= breaks[bowl] + seconds[CueKind.BREAK]
            assert skims[bowl] + seconds[CueKind.SKIM] <= first_taste
        for one, other in pairwise(of_flight):
            assert pours[one] <= pours[other]
            assert breaks[one] <= breaks[other]


@QUICK
@given(bowls=st.integers(1, 40), given_hands=hands, timing=timings)
def test_every_schedule_lies_within_tolerance_or_is_refused(bowls: int, given_hands: Hands, timing: Timing):
    try:
        laid = schedule(bowls, given_hands, timing)
    except Refused:
        assert bowls > largest(given_hands, timing)
        return

    assert bowls <= largest(given_hands, timing)
    assert laid.people <= given_hands.people
    require_kept(laid, bowls, given_hands, timing)


@settings(max_examples=150, deadline=None)
@given(
    bowls=st.integers(1, 4),
    people=st.integers(1, 2),
    acts=st.tuples(st.integers(1, 3), st.integers(1, 3), st.integers(1, 3)),
    steep=st.tuples(st.integers(2, 5), st.integers(0, 3)),
    after=st.integers(2, 9),
)
def test_what_can_be_kept_is_what_a_search_of_every_order_finds(
    bowls: int, people: int, acts: tuple[int, int, int], steep: tuple[int, int], after: int
):
    # given a small flight, in seconds as short as they get
    earliest, width = steep
    assume(earliest >= acts[0])
    timing = Timing(
        break_at_s=earliest,
        break_earliest_s=earliest,
        break_latest_s=earliest + width,
        taste_from_s=earliest + after,
    )
    small = Hands(people, *acts)

    # then the programme and the search agree
    found = can_be_kept(bowls, people, acts, (earliest, earliest + width), earliest + after)
    assert (bowls <= largest(small, timing)) is found
    if found:
        require_kept(schedule(bowls, small, timing), bowls, small, timing)


@QUICK
@given(bowls=st.integers(1, 30), given_hands=hands)
def test_one_person_fewer_than_needed_cannot_keep_it(bowls: int, given_hands: Hands):
    needed = people_needed(bowls, given_hands)

    assert largest(replace(given_hands, people=needed)) >= bowls
    assert needed == 1 or largest(replace(given_hands, people=needed - 1)) < bowls


@pytest.mark.parametrize(("people", "most"), [(1, 12), (2, 24), (3, 36), (6, 72)])
def test_each_person_keeps_twelve_bowls_at_the_usual_pace(people: int, most: int):
    """40 s of hands a bowl, and nobody idle for the 480 s up to the first taste: 12 bowls is the bound."""
    assert largest(Hands(people)) == most
    assert schedule(most, Hands(people)).acts[-1].end_s == 480
    with pytest.raises(Refused):
        schedule(most + 1, Hands(people))


def test_a_refusal_says_how_many_bowls_and_how_many_people_in_one_sentence():
    with pytest.raises(Refused) as refused:
        schedule(20, Hands())

    assert refused.value.message == (
        "One person can keep 12 bowls of one flight within the protocol's times, and 20 bowls need 2 people."
    )
    assert refused.value.todo == "Let more people help, or pour in smaller flights."


def test_all_bowls_steep_alike_and_for_the_protocols_time_where_hands_allow():
    laid = schedule(9, Hands())

    assert laid.spread_s == 0
    assert set(laid.steep_s) == {240}


def test_where_they_do_not_the_even_steep_nearest_to_it_is_taken():
    assert set(schedule(10, Hands()).steep_s) == {220}


def test_an_even_steep_is_given_up_only_as_far_as_it_must_be():
    laid = schedule(12, Hands())

    assert laid.spread_s == 10
    assert max(laid.steep_s) - min(laid.steep_s) == 10


def test_hands_that_take_odd_seconds_are_used_to_the_second_where_full_steps_are_too_slow():
    # given 37 s a bowl: on steps of 5 s it would be 45 s, and 10 bowls
    odd = Hands(1, 13, 9, 15)

    assert largest(odd) == 12
    require_kept(schedule(12, odd), 12, odd, STANDARD_TIMING)


def test_flights_follow_each_other_with_a_pause_after_the_last_taste():
    laid = schedule(16, Hands(), flights=(8, 8))

    assert [(flight.first, flight.after) for flight in laid.flights] == [(0, 8), (8, 16)]
    last_taste = starts(laid, CueKind.POUR)[7] + STANDARD_TIMING.taste_to_s
    assert laid.flights[1].start_s == last_taste + 300
    require_kept(laid, 16, Hands(), STANDARD_TIMING)


def test_a_table_without_bowls_asks_for_nothing():
    assert schedule(0, Hands()).acts == ()


@pytest.mark.parametrize("flights", [(3, 4), (9,)])
def test_flights_that_do_not_make_the_bowls_are_refused(flights: tuple[int, ...]):
    with pytest.raises(Refused, match="do not make 8"):
        schedule(8, Hands(), flights=flights)


@pytest.mark.parametrize(("flights", "bowls"), [((8, 0), 0), ((10, -2), -2)])
def test_a_flight_without_bowls_is_refused_by_that_name(flights: tuple[int, ...], bowls: int):
    with pytest.raises(Refused, match=f"A flight cannot have {bowls} bowls"):
        schedule(8, Hands(), flights=flights)


def test_a_protocol_without_break_and_skim_has_none_of_those_acts():
    laid = schedule(5, Hands(2), NOTHING_TO_BREAK)

    assert {act.kind for act in laid.acts} == {CueKind.POUR}
    assert [act.start_s for act in laid.acts] == [0, 0, 15, 15, 30]
    assert largest(Hands(), NOTHING_TO_BREAK) == 40


def test_a_protocol_without_a_skim_leaves_more_time():
    assert largest(Hands(), replace(STANDARD_TIMING, acts=(CueKind.POUR, CueKind.BREAK, CueKind.TASTE))) > 12


def test_a_table_that_is_poured_all_the_same_goes_by_as_many_people_as_it_takes():
    assert keepable(20, Hands()).people == 2
    assert keepable(6, Hands()) == schedule(6, Hands())


def test_times_that_nobody_can_keep_are_refused_with_their_own_sentence():
    never = Timing(taste_from_s=200, break_earliest_s=190)

    assert largest(Hands(), never) == 0
    with pytest.raises(Refused, match="not one bowl"):
        keepable(1, Hands(), never)


@pytest.mark.parametrize("bad", [{"pour_s": 0}, {"break_s": -1}, {"skim_s": float("nan")}, {"pour_s": 601}])
def test_seconds_of_hands_that_cannot_be_are_refused(bad: dict[str, float]):
    with pytest.raises(Refused, match="more than 0 and at most 600"):
        schedule(1, replace(Hands(), **bad))


def test_nobody_pours_nothing():
    with pytest.raises(Refused, match="Nobody is there"):
        schedule(1, Hands(people=0))


def test_whoever_poured_a_bowl_breaks_it_too_where_that_is_free():
    laid = schedule(8, Hands(2))
    by = {(act.kind, act.bowl): act.person for act in laid.acts}

    assert all(by[CueKind.BREAK, bowl] == by[CueKind.POUR, bowl] for bowl in range(8))
