"""Pour: the pour list and who looked, paper, and the clock."""

import pytest
from tests.fakes.tools import bench
from tests.unit.steps.laying import drafted, sealed, shuffled, tasting

from cupwright.core.flow import Step
from cupwright.core.plan.table import Blinding
from cupwright.core.pour.run_sheet import CueKind
from cupwright.errors import NotFound, Refused, WrongStep
from cupwright.steps.diary import diary
from cupwright.steps.plan import get_table
from cupwright.steps.pour import (
    cooling,
    drop_reading,
    labels,
    mark_pour,
    note_reading,
    now_ms,
    paper_sheet,
    pour_list,
    pour_list_paper,
    run_sheet,
    start_clock,
)


def test_the_pour_list_pairs_codes_and_coffees_as_sealed_and_each_look_is_written_down() -> None:
    on = bench()
    table = sealed(on.tools, bowls_per_sample=3)

    lines = pour_list(on.tools, table.id)
    pour_list(on.tools, table.id)

    with on.tools.store.reading() as work:
        assert {line.code: line.coffee.id for line in lines} == work.keys.get(table.id).coffee_of()
    assert [line.coffee.name for line in lines] == ["Lot 1", "Lot 2", "Lot 3"]
    assert {line.bowls for line in lines} == {3}
    assert [event.kind for event in diary(on.tools, table.id)].count("pour list seen") == 2
    assert (table.id, "pour list seen") in on.news


def test_a_draft_has_no_pour_list_and_no_labels() -> None:
    tools = bench().tools
    table = drafted(tools)

    for act in (pour_list, pour_list_paper, labels):
        with pytest.raises(WrongStep):
            act(tools, table.id)

    assert [event.kind for event in diary(tools, table.id)] == ["planned"]


def test_there_is_a_label_for_every_bowl() -> None:
    tools = bench().tools
    by_sample = sealed(tools, bowls_per_sample=2)

    assert labels(tools, by_sample.id).decode().split()[1:] == [c for c in by_sample.codes for _ in range(2)]


def test_after_a_shuffle_every_label_is_its_own() -> None:
    tools = bench().tools
    table = sealed(tools, blinding=Blinding.SHUFFLE, bowls_per_sample=2)

    assert labels(tools, table.id).decode().split()[1:] == list(table.codes)
    assert len(set(table.codes)) == 6


@pytest.mark.parametrize("print_it", [paper_sheet, labels, pour_list_paper])
def test_paper_comes_in_two_sizes(print_it) -> None:
    on = bench()
    table = sealed(on.tools)

    assert print_it(on.tools, table.id).startswith(b"a4 ")
    assert print_it(on.tools, table.id, "letter").startswith(b"letter ")
    news = list(on.news)
    with pytest.raises(Refused, match="a3"):
        print_it(on.tools, table.id, "a3")
    assert on.news == news


def test_the_pour_list_on_paper_says_the_same_and_printing_it_is_written_down() -> None:
    on = bench()
    table = sealed(on.tools)

    printed = pour_list_paper(on.tools, table.id)

    said = [f"{line.code}:{line.coffee.name}" for line in pour_list(on.tools, table.id)]
    assert printed.decode() == " ".join(["a4", *said])
    assert [event.kind for event in diary(on.tools, table.id)].count("pour list seen") == 2


def test_the_clock_starts_once_and_opens_the_tasting() -> None:
    on = bench()
    table = sealed(on.tools)
    assert run_sheet(on.tools, table.id) == ()

    started = start_clock(on.tools, table.id)

    assert started.step is Step.TASTE
    assert started.clock.started_at == now_ms(on.tools) == 1_795_608_000_123
    cues = run_sheet(on.tools, table.id)
    assert (cues[0].kind, cues[0].due) == (CueKind.POUR, now_ms(on.tools))
    with pytest.raises(WrongStep):
        start_clock(on.tools, table.id)


def test_the_clock_of_a_draft_cannot_be_started() -> None:
    tools = bench().tools
    with pytest.raises(WrongStep):
        start_clock(tools, drafted(tools).id)


def test_a_marked_pour_moves_the_cues_of_its_bowl() -> None:
    on = bench()
    table = tasting(on.tools)
    on.clock.forward(seconds=33)

    marked = mark_pour(on.tools, table.id, 1)

    assert marked.clock.pours == ((1, now_ms(on.tools)),)
    (pour,) = [c for c in run_sheet(on.tools, table.id) if (c.kind, c.bowl) == (CueKind.POUR, 1)]
    assert pour.due == now_ms(on.tools)
    assert get_table(on.tools, table.id).clock == marked.clock


def test_a_pour_of_no_bowl_or_at_no_possible_time_is_refused() -> None:
    on = bench()
    table = tasting(on.tools)
    now = now_ms(on.tools)

    for bowl, at in ((-1, now), (3, now), (0, now - 120_000), (0, now + 120_000)):
        with pytest.raises(Refused):
            mark_pour(on.tools, table.id, bowl, at)

    assert get_table(on.tools, table.id).clock.pours == ()


def test_pours_are_marked_while_tasting_only() -> None:
    tools = bench().tools
    with pytest.raises(WrongStep):
        mark_pour(tools, sealed(tools).id, 0)


def test_after_a_shuffle_every_bowl_has_its_own_cues() -> None:
    tools = bench().tools

    cues = run_sheet(tools, shuffled(tools).id)

    assert {cue.bowl for cue in cues} == set(range(6))


def test_a_reading_is_kept_with_the_clock_and_the_curve_goes_by_it() -> None:
    on = bench()
    table = tasting(on.tools)
    before = cooling(on.tools, table.id)
    on.clock.forward(minutes=10)

    noted = note_reading(on.tools, table.id, 1, 66.0)

    after = cooling(on.tools, table.id)
    assert noted.clock.readings == ((1, now_ms(on.tools), 66.0),)
    assert get_table(on.tools, table.id).clock.readings == noted.clock.readings
    assert [(one.bowl, one.celsius) for one in after.readings] == [(1, 66.0)]
    assert abs(after.celsius[10] - 66) < abs(before.celsius[10] - 66) / 2
    assert after.high[10] - after.low[10] < before.high[10] - before.low[10]
    assert (table.id, "clock") in on.news


def test_a_reading_moves_the_call_to_taste_on_every_screen_and_no_act_of_a_hand() -> None:
    on = bench()
    table = tasting(on.tools)
    before = run_sheet(on.tools, table.id)
    on.clock.forward(minutes=7)

    note_reading(on.tools, table.id, 0, 80.0)

    after = run_sheet(on.tools, table.id)
    tastes = [[cue.due for cue in cues if cue.kind is CueKind.TASTE] for cues in (before, after)]
    assert all(later > sooner for sooner, later in zip(*tastes, strict=True))
    acts = [[cue for cue in cues if cue.kind is not CueKind.TASTE] for cues in (before, after)]
    assert acts[0] == acts[1]


@pytest.mark.parametrize(
    ("celsius", "says"),
    [(154.0, "boils at 100.0"), (101.0, "boils"), (-1.0, "ice"), (float("nan"), "finite")],
)
def test_a_temperature_that_cannot_be_is_refused(celsius: float, says: str) -> None:
    on = bench()
    table = tasting(on.tools)
    on.clock.forward(minutes=10)

    with pytest.raises(Refused, match=says):
        note_reading(on.tools, table.id, 0, celsius)

    assert get_table(on.tools, table.id).clock.readings == ()


def test_a_reading_before_its_pour_in_the_future_or_of_no_bowl_is_refused() -> None:
    on = bench()
    table = tasting(on.tools)
    now = now_ms(on.tools)

    with pytest.raises(Refused, match="before the pour"):
        note_reading(on.tools, table.id, 2, 80.0)
    with pytest.raises(Refused, match="future"):
        note_reading(on.tools, table.id, 0, 80.0, now + 60_000)
    with pytest.raises(NotFound, match="no bowl 9"):
        note_reading(on.tools, table.id, 8, 80.0)


def test_a_bowl_is_read_while_tasting_only() -> None:
    tools = bench().tools

    with pytest.raises(WrongStep):
        note_reading(tools, sealed(tools).id, 0, 80.0)


def test_a_reading_taken_by_mistake_can_be_taken_back() -> None:
    on = bench()
    table = tasting(on.tools)
    at = now_ms(on.tools)
    note_reading(on.tools, table.id, 0, 80.0)

    drop_reading(on.tools, table.id, 0, at)

    assert get_table(on.tools, table.id).clock.readings == ()
    with pytest.raises(NotFound):
        drop_reading(on.tools, table.id, 0, at)
