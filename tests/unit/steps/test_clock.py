"""The clock beyond its start: marks, a start taken back, schedules for any hands."""

import pytest
from tests.fakes.tools import bench
from tests.unit.steps.laying import sealed, tasting

from cupwright.core.flow import Step
from cupwright.core.pour.clock import Clock
from cupwright.core.pour.hands import Hands
from cupwright.core.pour.table_sheet import schedule_of
from cupwright.core.pour.timing import CueKind
from cupwright.errors import NotFound, Refused, TooLarge, WrongStep
from cupwright.steps.clock import laid_out, mark_act, take_back_mark, take_back_start
from cupwright.steps.diary import diary
from cupwright.steps.plan import get_table
from cupwright.steps.pour import note_reading, now_ms, run_sheet, start_clock


def test_an_act_is_marked_and_its_mark_taken_back() -> None:
    on = bench()
    table = tasting(on.tools)
    on.clock.forward(seconds=250)

    marked = mark_act(on.tools, table.id, "break", 0)

    assert marked.clock.done == (("break", 0, now_ms(on.tools)),)
    assert get_table(on.tools, table.id).clock == marked.clock
    (cue,) = [c for c in run_sheet(on.tools, table.id) if (c.kind, c.bowl) == (CueKind.BREAK, 0)]
    assert (cue.ends, cue.done) == (now_ms(on.tools), True)
    assert take_back_mark(on.tools, table.id, "break", 0).clock.done == ()
    assert on.news.count((table.id, "clock")) == 3


def test_a_pour_is_marked_and_taken_back_in_the_same_way() -> None:
    on = bench()
    table = tasting(on.tools)

    assert mark_act(on.tools, table.id, "pour", 1).clock.pours == ((1, now_ms(on.tools)),)
    assert take_back_mark(on.tools, table.id, "pour", 1).clock.pours == ()


def test_what_was_not_marked_cannot_be_taken_back() -> None:
    tools = bench().tools
    table = tasting(tools)

    with pytest.raises(NotFound):
        take_back_mark(tools, table.id, "skim", 0)


@pytest.mark.parametrize(("kind", "bowl"), [("stir", 0), ("taste", 0), ("break", 3), ("break", -1)])
def test_an_act_or_a_bowl_that_is_not_there_is_refused(kind: str, bowl: int) -> None:
    tools = bench().tools
    table = tasting(tools)

    with pytest.raises(Refused):
        mark_act(tools, table.id, kind, bowl)


def test_an_act_of_the_future_is_refused() -> None:
    tools = bench().tools
    table = tasting(tools)

    with pytest.raises(Refused, match="in the future"):
        mark_act(tools, table.id, "break", 0, now_ms(tools) + 120_000)


def test_brews_that_have_no_crust_take_no_mark_of_a_break() -> None:
    tools = bench().tools
    table = tasting(tools, protocol="brew")

    with pytest.raises(Refused, match="no act 'break'"):
        mark_act(tools, table.id, "break", 0)
    assert {cue.kind for cue in run_sheet(tools, table.id)} == {CueKind.POUR, CueKind.TASTE}


def test_a_start_by_mistake_is_taken_back_and_written_down() -> None:
    on = bench()
    table = tasting(on.tools)

    back = take_back_start(on.tools, table.id)

    assert (back.step, back.clock) == (Step.POUR, Clock())
    assert [event.kind for event in diary(on.tools, table.id)][-2:] == ["clock started", "clock taken back"]
    on.clock.forward(seconds=30)
    assert start_clock(on.tools, table.id).clock.started_at == now_ms(on.tools)


@pytest.mark.parametrize("kind", ["pour", "break", "aside"])
def test_a_start_stands_once_anything_is_marked(kind: str) -> None:
    tools = bench().tools
    table = tasting(tools)
    mark_act(tools, table.id, kind, 0)

    with pytest.raises(WrongStep, match="being poured"):
        take_back_start(tools, table.id)

    take_back_mark(tools, table.id, kind, 0)
    assert take_back_start(tools, table.id).step is Step.POUR


def test_a_reading_of_the_thermometer_is_a_mark_too() -> None:
    on = bench()
    table = tasting(on.tools)
    on.clock.forward(seconds=60)
    note_reading(on.tools, table.id, 0, 85.0)

    with pytest.raises(WrongStep):
        take_back_start(on.tools, table.id)


def test_a_clock_that_does_not_run_cannot_be_taken_back() -> None:
    tools = bench().tools
    with pytest.raises(WrongStep):
        take_back_start(tools, sealed(tools).id)


def test_the_plans_hands_and_flights_make_the_schedule_of_a_table() -> None:
    tools = bench().tools
    table = tasting(tools, pourers=2, pour_s=20, bowls_per_sample=2, flight=2)

    laid = schedule_of(table)

    assert [(flight.first, flight.after) for flight in laid.flights] == [(0, 2), (2, 6)]
    assert {act.end_s - act.start_s for act in laid.acts if act.kind is CueKind.POUR} == {20}


def test_any_hands_can_ask_what_they_can_keep() -> None:
    tools = bench().tools

    laid = laid_out(tools, Hands(2), (8, 8), "cupping")

    assert (laid.largest, len(laid.schedule.flights)) == (24, 2)
    with pytest.raises(Refused, match="One person can keep 12 bowls"):
        laid_out(tools, Hands(), (20,), "cupping")
    with pytest.raises(TooLarge):
        laid_out(tools, Hands(), (201,), "cupping")
    with pytest.raises(NotFound):
        laid_out(tools, Hands(), (2,), "never heard of")
