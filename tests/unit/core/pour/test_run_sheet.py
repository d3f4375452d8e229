"""The run sheet: pure, ordered, and laid anew within the tolerance when somebody falls behind."""

from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.pour.clock import Clock
from cupwright.core.pour.hands import Hands
from cupwright.core.pour.laid import Schedule
from cupwright.core.pour.run_sheet import ASIDE, Cue, run_sheet, unkept, unkept_in_words
from cupwright.core.pour.schedule import schedule
from cupwright.core.pour.timing import CueKind

S = 1000
QUICK = settings(max_examples=60, deadline=None)
moments = st.integers(0, 700_000)
marks = st.lists(st.tuples(st.integers(0, 10), moments), max_size=6, unique_by=lambda mark: mark[0])
acts = st.sampled_from(["break", "skim"])
dones = st.lists(
    st.tuples(acts, st.integers(0, 10), moments), max_size=6, unique_by=lambda mark: (mark[0], mark[1])
)
clocks = st.builds(lambda pours, done: Clock(0, tuple(pours), tuple(done)), marks, dones)


@cache
def laid(bowls: int, people: int = 1) -> Schedule:
    return schedule(bowls, Hands(people))


plans = st.builds(laid, st.integers(0, 9), st.integers(1, 2))


def of_kind(cues: tuple[Cue, ...], kind: CueKind) -> list[Cue]:
    return [cue for cue in cues if cue.kind is kind]


def due(cues: tuple[Cue, ...], kind: CueKind) -> dict[int, int]:
    return {cue.bowl: cue.due // S for cue in of_kind(cues, kind)}


@QUICK
@given(plan=plans, clock=clocks)
def test_every_bowl_has_one_cue_of_each_kind_and_time_only_goes_on(plan: Schedule, clock: Clock):
    cues = run_sheet(plan, clock)

    bowls = len(plan.steep_s)
    assert sorted((cue.kind, cue.bowl) for cue in cues) == sorted(
        (kind, bowl) for kind in CueKind for bowl in range(bowls)
    )
    assert [cue.due for cue in cues] == sorted(cue.due for cue in cues)


@QUICK
@given(plan=plans)
def test_without_marks_the_sheet_is_the_schedule(plan: Schedule):
    cues = run_sheet(plan, Clock(5_000))

    planned = {(act.kind, act.bowl): (act.start_s, act.end_s, act.person) for act in plan.acts}
    told = {
        (cue.kind, cue.bowl): (cue.due // S - 5, cue.ends // S - 5, cue.person)
        for cue in cues
        if cue.kind is not CueKind.TASTE
    }
    assert told == planned
    assert unkept(cues) == ()


@QUICK
@given(plan=plans, clock=clocks, later=st.integers(0, 10**12))
def test_starting_later_moves_everything_by_as_much(plan: Schedule, clock: Clock, later: int):
    other = Clock(
        later,
        tuple((bowl, at + later) for bowl, at in clock.pours),
        tuple((kind, bowl, at + later) for kind, bowl, at in clock.done),
    )

    moved = [
        replace(
            c, due=c.due + later, earliest=c.earliest + later, latest=c.latest + later, ends=c.ends + later
        )
        for c in run_sheet(plan, clock)
    ]
    assert list(run_sheet(plan, other)) == moved


@QUICK
@given(plan=plans, pours=marks)
def test_nobody_is_told_to_do_two_things_at_once(plan: Schedule, pours: list[tuple[int, int]]):
    """Pours may overlap, since their marks say what happened; what is still to be done may not."""
    cues = run_sheet(plan, Clock(0, tuple(pours)))

    for person in range(plan.people):
        own = [cue for cue in cues if cue.person == person]
        pairs = [(one, other) for one, other in pairwise(own) if {one.kind, other.kind} != {CueKind.POUR}]
        assert all(one.ends <= other.due for one, other in pairs)


@QUICK
@given(plan=plans, clock=clocks)
def test_no_bowl_is_broken_too_early_or_skimmed_before_its_break(plan: Schedule, clock: Clock):
    cues = run_sheet(plan, clock)

    ends = {cue.bowl: cue.ends for cue in of_kind(cues, CueKind.BREAK)}
    assert all(cue.due >= cue.earliest for cue in of_kind(cues, CueKind.BREAK) if not cue.done)
    assert all(cue.due >= ends[cue.bowl] for cue in of_kind(cues, CueKind.SKIM) if not cue.done)


@QUICK
@given(plan=plans, clock=clocks)
def test_a_mark_stands_whatever_the_plan_said(plan: Schedule, clock: Clock):
    cues = run_sheet(plan, clock)

    bowls = len(plan.steep_s)
    poured = {cue.bowl: cue.due for cue in of_kind(cues, CueKind.POUR)}
    ended = {(str(cue.kind), cue.bowl): cue.ends for cue in cues}
    assert all(poured[bowl] == at for bowl, at in clock.pours if bowl < bowls)
    assert all(ended[kind, bowl] == at for kind, bowl, at in clock.done if bowl < bowls)


@QUICK
@given(plan=plans, data=st.data())
def test_marking_what_was_planned_changes_no_time(plan: Schedule, data: st.DataObject):
    before = run_sheet(plan, Clock(0))
    acts = [cue for cue in before if cue.kind is not CueKind.TASTE]
    chosen = data.draw(st.lists(st.sampled_from(acts), unique=True) if acts else st.just([]))

    clock = Clock(0)
    for cue in chosen:
        pour = cue.kind is CueKind.POUR
        clock = clock.poured(cue.bowl, cue.due) if pour else clock.marked(str(cue.kind), cue.bowl, cue.ends)

    assert tuple(replace(cue, done=False) for cue in run_sheet(plan, clock)) == before


def test_a_late_pour_moves_its_own_bowl_and_the_same_persons_that_follow():
    cues = run_sheet(laid(4, 2), Clock(0, ((0, 30 * S),)))

    assert due(cues, CueKind.POUR) == {0: 30, 1: 0, 2: 45, 3: 15}


def test_bowls_poured_in_another_order_are_broken_in_that_order():
    cues = run_sheet(laid(2), Clock(0, ((0, 30 * S), (1, 10 * S))))

    assert [cue.bowl for cue in of_kind(cues, CueKind.BREAK)] == [1, 0]
    assert [cue.bowl for cue in of_kind(cues, CueKind.SKIM)] == [1, 0]


def test_a_late_break_moves_what_follows_and_the_rest_catches_up_within_the_tolerance():
    # given six bowls, 15 s apart, and the first broken at 4:40 instead of 4:10
    cues = run_sheet(laid(6), Clock(0, done=(("break", 0, 280 * S),)))

    # then the next ones follow without a pause until they are on time again
    assert due(cues, CueKind.BREAK) == {0: 270, 1: 280, 2: 290, 3: 300, 4: 310, 5: 320}
    assert unkept(cues) == ()


def test_others_break_early_within_the_tolerance_so_that_the_last_bowl_can_be_kept():
    # given one who pours twelve bowls; the schedule has no second to spare
    plan = laid(12)
    late = Clock(0, ((3, 60 * S),))

    cues = run_sheet(plan, late)

    steeps = {b: due(cues, CueKind.BREAK)[b] - due(cues, CueKind.POUR)[b] for b in range(12)}
    assert unkept(cues) == ()
    assert all(180 <= steep <= 300 for steep in steeps.values())


def test_whoever_is_far_behind_breaks_first_and_skims_when_all_is_broken():
    # given nine bowls whose skims come between the breaks, and a fourth break that ends 80 s late
    plan = laid(9)
    assert "skim break skim break" in " ".join(act.kind for act in plan.acts)

    cues = run_sheet(plan, Clock(0, done=(("break", 3, 365 * S),)))

    last_break = max(cue.due for cue in of_kind(cues, CueKind.BREAK))
    assert all(cue.due > last_break for cue in of_kind(cues, CueKind.SKIM) if cue.bowl > 0)
    assert not [cue for cue in unkept(cues) if cue.kind is CueKind.BREAK and not cue.done]


def test_a_bowl_that_cannot_be_kept_any_more_is_named_with_how_late_it_will_be():
    # given four bowls whose first break ended two minutes too late
    cues = run_sheet(laid(4), Clock(0, done=(("break", 0, 355 * S),)))

    late = unkept(cues)
    assert [(cue.kind, cue.bowl, cue.late_ms // S) for cue in late] == [
        (CueKind.BREAK, 0, 45),
        (CueKind.BREAK, 1, 40),
        (CueKind.BREAK, 2, 35),
        (CueKind.BREAK, 3, 30),
    ]
    assert unkept_in_words(late[1], "Bowl 7", 15 * S, 1) == (
        "Bowl 7 will be broken at 5:40, 40 s late: let a second person break, or set it aside."
    )
    assert "one more person" in unkept_in_words(late[1], "Bowl 7", 15 * S, 2)
    assert unkept_in_words(late[0], "Bowl 1", 0, 1) == (
        "Bowl 1 was broken at 5:45, 45 s late: set it aside, or taste it knowing that."
    )


def test_a_bowl_set_aside_asks_for_nothing_and_frees_hands():
    late = Clock(0, done=(("break", 0, 355 * S),))

    cues = run_sheet(laid(4), late.marked(ASIDE, 1, 356 * S))

    assert {cue.bowl for cue in cues} == {0, 2, 3}
    assert due(cues, CueKind.BREAK)[2] == 355


def test_the_first_pour_of_the_next_flight_starts_a_new_sequence():
    plan = schedule(4, Hands(), flights=(2, 2))
    planned = due(run_sheet(plan, Clock(0)), CueKind.POUR)
    assert planned == {0: 0, 1: 15, 2: 915, 3: 930}

    # when it is poured a minute before or an hour after
    for at in (855, 4515):
        cues = run_sheet(plan, Clock(0, ((2, at * S),)))

        assert due(cues, CueKind.POUR) == {0: 0, 1: 15, 2: at, 3: at + 15}
        assert due(cues, CueKind.BREAK)[3] == at + 15 + 240


def test_a_flight_that_runs_late_puts_the_next_one_off():
    plan = schedule(4, Hands(), flights=(2, 2))

    cues = run_sheet(plan, Clock(0, ((1, 75 * S),)))

    assert due(cues, CueKind.POUR)[2] == 915 + 60


@pytest.mark.parametrize("clock", [Clock(), Clock(None, ((0, 5),))])
def test_a_clock_that_was_not_started_asks_for_nothing(clock: Clock):
    assert run_sheet(laid(3), clock) == ()
