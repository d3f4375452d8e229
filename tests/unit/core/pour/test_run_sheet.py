"""The run sheet: pure, ordered, and honest about two hands."""

from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.pour.clock import Clock
from cupwright.core.pour.run_sheet import Cue, CueKind, Timing, feasible, run_sheet

marks = st.lists(
    st.tuples(st.integers(0, 70), st.integers(0, 2_000_000)), max_size=20, unique_by=lambda m: m[0]
)
clocks = st.builds(lambda start, pours: Clock(start, tuple(pours)), st.integers(0, 2_000_000), marks)


def of_kind(cues: tuple[Cue, ...], kind: CueKind) -> list[Cue]:
    return [cue for cue in cues if cue.kind is kind]


@given(bowls=st.integers(0, 60), clock=clocks)
def test_every_bowl_has_one_cue_of_each_kind_and_time_only_goes_on(bowls: int, clock: Clock):
    cues = run_sheet(bowls, clock)

    assert sorted((cue.kind, cue.bowl) for cue in cues) == sorted(
        (kind, bowl) for kind in CueKind for bowl in range(bowls)
    )
    assert [cue.due for cue in cues] == sorted(cue.due for cue in cues)


@given(bowls=st.integers(1, 60), clock=clocks)
def test_breaks_come_in_the_order_of_the_pours(bowls: int, clock: Clock):
    cues = run_sheet(bowls, clock)

    assert [c.bowl for c in of_kind(cues, CueKind.BREAK)] == [c.bowl for c in of_kind(cues, CueKind.POUR)]


@given(bowls=st.integers(1, 60), clock=clocks)
def test_every_break_is_due_four_minutes_after_its_own_pour_within_three_to_five(bowls: int, clock: Clock):
    cues = run_sheet(bowls, clock)
    poured = {cue.bowl: cue.due for cue in of_kind(cues, CueKind.POUR)}

    for cue in of_kind(cues, CueKind.BREAK):
        since = [at - poured[cue.bowl] for at in (cue.earliest, cue.due, cue.latest)]
        assert since == [180_000, 240_000, 300_000]


@given(bowls=st.integers(1, 60), clock=clocks)
def test_a_marked_pour_stands_whatever_the_plan_said(bowls: int, clock: Clock):
    poured = {cue.bowl: cue.due for cue in of_kind(run_sheet(bowls, clock), CueKind.POUR)}

    assert all(poured[bowl] == at for bowl, at in clock.pours if bowl < bowls)


@given(bowls=st.integers(1, 60), clock=clocks, later=st.integers(0, 10**12))
def test_starting_later_moves_everything_by_as_much(bowls: int, clock: Clock, later: int):
    # given the same sitting on another day
    start = clock.started_at or 0
    other = Clock(start + later, tuple((bowl, at + later) for bowl, at in clock.pours))

    # then
    assert [cue.due + later for cue in run_sheet(bowls, clock)] == [
        cue.due for cue in run_sheet(bowls, other)
    ]


@given(bowls=st.integers(1, 60), clock=clocks)
def test_marking_what_was_planned_changes_nothing(bowls: int, clock: Clock):
    # given a pour marked at exactly its planned moment
    before = run_sheet(bowls, clock)
    first = before[0]

    # then reloading and recomputing give the same sheet
    assert run_sheet(bowls, clock.poured(first.bowl, first.due)) == before


def test_six_bowls_are_kept_by_one_pair_of_hands():
    assert feasible(6) == ()


def test_from_the_seventh_bowl_breaks_and_skims_fall_together():
    (warning,) = feasible(7)

    assert "From bowl 7 on" in warning
    assert feasible(12) == feasible(7)


def test_thirteen_bowls_make_the_first_break_wait_for_the_last_pour():
    (warning,) = feasible(13)

    assert "13 bowls poured 20 s apart" in warning
    assert "first break is due at 4:00" in warning


def test_sixteen_bowls_cannot_be_kept_by_one_person():
    assert "break every bowl late" in feasible(15)[0]
    (warning,) = feasible(16)
    assert "One person cannot keep this" in warning
    assert "flights of 12 bowls" in warning


def test_a_quicker_hand_can_pour_more():
    assert feasible(12, Timing(pour_every_s=10)) == ()
    assert "One person" not in feasible(24, Timing(pour_every_s=10))[0]
