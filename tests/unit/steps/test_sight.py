"""What the steps show is what the one table of sight allows, act by act and step by step."""

from collections.abc import Callable

import pytest
from tests.fakes.tools import bench
from tests.unit.steps.laying import drafted, sealed, tasting

from cupwright.core.flow import Step
from cupwright.core.plan.table import Table
from cupwright.core.reveal.sight import Role, Thing, may_see
from cupwright.errors import WrongStep
from cupwright.steps.analyse import analysis
from cupwright.steps.plan import get_table
from cupwright.steps.ports import Tools
from cupwright.steps.pour import pour_list, pour_list_paper
from cupwright.steps.report import report
from cupwright.steps.reveal import comparison, open_key, opened
from cupwright.steps.taste import notes_of_seat, progress_of

Act = Callable[[Tools, Table], object]

ACTS: dict[str, tuple[Act, Role, set[Thing]]] = {
    "pour list": (lambda tools, table: pour_list(tools, table.id), Role.POURER, {Thing.IDENTITIES}),
    "pour list on paper": (
        lambda tools, table: pour_list_paper(tools, table.id),
        Role.POURER,
        {Thing.IDENTITIES},
    ),
    "own notes": (
        lambda tools, table: notes_of_seat(tools, table.id, table.seats[0].id),
        Role.TASTER,
        {Thing.OWN_NOTES},
    ),
    "progress": (lambda tools, table: progress_of(tools, table.id), Role.DESK, {Thing.PROGRESS}),
    "comparison at the desk": (
        lambda tools, table: comparison(tools, table.id),
        Role.DESK,
        {Thing.IDENTITIES, Thing.OTHERS_NOTES, Thing.PUBLISHED_NOTES},
    ),
    "a taster's comparison": (
        lambda tools, table: comparison(tools, table.id, table.seats[0].id),
        Role.TASTER,
        {Thing.IDENTITIES, Thing.OTHERS_NOTES, Thing.PUBLISHED_NOTES},
    ),
    "key at the desk": (lambda tools, table: opened(tools, table.id), Role.DESK, {Thing.KEY}),
    "a taster's key": (
        lambda tools, table: opened(tools, table.id, table.seats[0].id),
        Role.TASTER,
        {Thing.KEY, Thing.COMMITMENT},
    ),
    "analysis": (lambda tools, table: analysis(tools, table.id), Role.DESK, {Thing.ANALYSIS}),
    "report": (lambda tools, table: report(tools, table.id), Role.DESK, {Thing.ANALYSIS, Thing.IDENTITIES}),
}


def revealed(tools: Tools) -> Table:
    return open_key(tools, tasting(tools).id)


LAID = {Step.PLAN: drafted, Step.POUR: sealed, Step.TASTE: tasting, Step.REVEAL: revealed}


@pytest.mark.parametrize("step", Step)
@pytest.mark.parametrize("name", ACTS)
def test_an_act_shows_its_things_at_the_steps_of_the_table_and_at_no_other(name: str, step: Step) -> None:
    act, role, things = ACTS[name]
    tools = bench().tools
    table = LAID[step](tools)

    if all(may_see(role, thing, step) for thing in things):
        act(tools, table)
        return

    with pytest.raises(WrongStep, match=f"The {role} may not see"):
        act(tools, table)
    assert get_table(tools, table.id) == table
