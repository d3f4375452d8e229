"""Act times: every way that is found is kept, and what is said to be least is the least there is."""

from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.unit.core.pour.every_way import can_be_kept

from cupwright.core.pour.act_by_act import WISHES, act_by_act
from cupwright.core.pour.act_times import act_times, can_keep, most_bowls
from cupwright.core.pour.programme import fractions_fit, programmed
from cupwright.core.pour.rhythm import PACES, proven, tried
from cupwright.core.pour.sweep import pours_come_first, sweep
from cupwright.core.pour.task import ActTimes, Task, most_at_work, side_by_side
from cupwright.core.pour.work import Work

USUAL = Task(1, 3, 2, 3, 36, 60, 96)
ENOUGH = 100_000

small = st.builds(
    lambda people, pour, crust, skim, more, width, after: Task(
        people, pour, crust, skim, pour + more, pour + more + width, pour + more + after
    ),
    *(st.integers(1, 2), st.integers(1, 3), st.integers(1, 3), st.integers(1, 3)),
    *(st.integers(0, 4), st.integers(0, 3), st.integers(2, 9)),
)
usual = st.builds(
    Task,
    st.integers(1, 6),
    st.integers(1, 6),
    st.integers(1, 4),
    st.integers(1, 5),
    *map(st.just, (36, 60, 96)),
)


def require_kept(times: ActTimes, bowls: int, task: Task) -> None:
    """Every rule, in the task's own steps."""
    assert len(times.pours) == len(times.breaks) == len(times.skims) == bowls
    assert times.pours[0] == 0
    assert all(list(begins) == sorted(begins) for begins in (times.pours, times.breaks, times.skims))
    for poured, broken, skimmed in zip(times.pours, times.breaks, times.skims, strict=True):
        assert task.earliest <= broken - poured <= task.latest
        assert broken + task.crust <= skimmed <= task.end - task.skim
    assert most_at_work(times, task) <= task.people


def kept_by_search(bowls: int, task: Task) -> bool:
    acts, steep = (task.pour, task.crust, task.skim), (task.earliest, task.latest)
    return can_be_kept(bowls, task.people, acts, steep, task.end)


@settings(max_examples=200, deadline=None)
@given(bowls=st.integers(1, 4), task=small)
def test_the_least_spread_is_the_least_that_a_search_of_every_order_finds(bowls: int, task: Task):
    found = act_times(bowls, task, task.latest, 1)

    assert (found is not None) is kept_by_search(bowls, task)
    if found is None:
        return
    require_kept(found, bowls, task)
    if found.least and found.spread:
        narrower = found.spread - 1
        for start in range(task.earliest, task.latest - narrower + 1):
            assert not kept_by_search(bowls, task.within(start, start + narrower))
    if found.least:
        # the wish is the longest steep there is, so nearer is later
        first = min(broken - poured for poured, broken in zip(found.pours, found.breaks, strict=True))
        for start in range(first + 1, task.latest - found.spread + 1):
            assert not kept_by_search(bowls, task.within(start, start + found.spread))


@settings(max_examples=200, deadline=None)
@given(bowls=st.integers(1, 4), task=small)
def test_a_sweep_that_finds_nothing_is_right(bowls: int, task: Task):
    for outcome in (sweep(bowls, task, Work(ENOUGH)), proven(bowls, task, Work(ENOUGH))):
        if outcome.settled:
            assert (outcome.times is not None) is kept_by_search(bowls, task)


@settings(max_examples=60, deadline=None)
@given(bowls=st.integers(1, 60), task=usual, start=st.integers(36, 60), width=st.integers(0, 3))
def test_whatever_is_found_is_kept_by_every_rule(bowls: int, task: Task, start: int, width: int):
    window = task.within(start, start + width)
    found = [act_by_act(bowls, window, Work(500), wishes) for wishes in WISHES]
    found.append(tried(bowls, window, Work(2000)).times)
    if pours_come_first(window):
        found += [sweep(bowls, window, Work(300), pace=pace).times for pace in PACES]

    for times in found:
        if times is not None:
            require_kept(times, bowls, window)


@settings(max_examples=15, deadline=None)
@given(bowls=st.integers(1, 30), task=usual, start=st.integers(36, 60))
def test_sweep_and_programme_agree_where_both_settle_an_even_steep(bowls: int, task: Task, start: int):
    window = task.within(start, start)
    swept, counted = tried(bowls, window, Work(2000)), programmed(bowls, window)
    assume(swept.settled and counted.settled)

    assert (swept.times is None) is (counted.times is None)
    assert swept.times is None or fractions_fit(bowls, window)


@pytest.mark.parametrize(
    ("bowls", "people", "spread", "steep"),
    [(9, 1, 0, 48), (10, 1, 0, 44), (12, 1, 2, 36), (20, 2, 0, 45), (24, 2, 2, 36), (44, 4, 0, 40)],
)
def test_spread_and_steep_are_what_programmes_of_every_window_found_unchanged(
    bowls: int, people: int, spread: int, steep: int
):
    found = act_times(bowls, replace(USUAL, people=people), 48, 1)

    assert found is not None
    steeps = [broken - poured for poured, broken in zip(found.pours, found.breaks, strict=True)]
    assert (found.spread, min(steeps)) == (spread, steep)


def test_pours_go_round_without_a_stop_where_hands_allow():
    found = act_times(8, USUAL, 48, 1)

    assert found is not None
    assert found.pours == (0, 3, 6, 9, 12, 15, 18, 21)
    assert found.least


def test_work_that_is_used_up_settles_nothing():
    outcome = sweep(10, USUAL.within(44, 44), Work(3))

    assert (outcome.times, outcome.settled) == (None, False)


def test_two_crews_side_by_side_keep_the_windows_of_both():
    one, other = (act_times(bowls, USUAL, 48, 1) for bowls in (9, 12))

    assert one is not None
    assert other is not None
    require_kept(side_by_side(one, other), 21, replace(USUAL, people=2))


def test_acts_under_way_are_counted_at_their_busiest_moment():
    assert most_at_work(ActTimes((0, 0, 3), (36, 37, 39), (40, 40, 42)), USUAL) == 3
    assert most_at_work(ActTimes((0,), (36,), (38,)), USUAL) == 1


@settings(max_examples=20, deadline=None)
@given(task=usual)
def test_one_bowl_more_than_the_most_is_beyond_the_programme_too(task: Task):
    most = most_bowls(task)

    assert can_keep(most, task)
    assert programmed(most + 1, task).times is None
