"""The clock: a schedule for any hands, what was done, and a start that is taken back."""

from typing import Annotated

from fastapi import APIRouter, Path

from cupwright.core.pour.hands import Hands
from cupwright.steps import clock as steps
from cupwright.web.here import ToolsNow
from cupwright.web.routes.plan import shown
from cupwright.web.routes.pour import run_sheet
from cupwright.web.shown import TableShown
from cupwright.web.shown_clock import RunSheetShown, ScheduleAnswer
from cupwright.web.who import DeskOnly
from cupwright.web.wire import Id
from cupwright.web.wire_clock import MarkIn, ScheduleIn

Kind = Annotated[str, Path(max_length=20)]
Bowl = Annotated[int, Path(ge=0, le=10**6)]

router = APIRouter(prefix="/api/schedule", tags=["pour"], dependencies=[DeskOnly])
of_table = APIRouter(prefix="/api/tables/{table_id}", tags=["pour"], dependencies=[DeskOnly])


@router.post("")
def schedule(tools: ToolsNow, body: ScheduleIn) -> ScheduleAnswer:
    """Who pours, breaks and skims which bowl when; refused with how many bowls these hands can keep."""
    hands = Hands(body.people, body.pour_s, body.break_s, body.skim_s)
    return ScheduleAnswer.model_validate(steps.laid_out(tools, hands, body.flights, body.protocol))


@of_table.post("/marks")
def mark_act(tools: ToolsNow, table_id: Id, body: MarkIn) -> RunSheetShown:
    """A pour, break or skim was done now, or at `at`; or the bowl was set aside ("aside")."""
    steps.mark_act(tools, table_id, body.kind, body.bowl, body.at)
    return run_sheet(tools, table_id)


@of_table.delete("/marks/{kind}/{bowl}")
def take_back_mark(tools: ToolsNow, table_id: Id, kind: Kind, bowl: Bowl) -> RunSheetShown:
    """That was marked by mistake."""
    steps.take_back_mark(tools, table_id, kind, bowl)
    return run_sheet(tools, table_id)


@of_table.delete("/clock")
def take_back_start(tools: ToolsNow, table_id: Id) -> TableShown:
    """The clock was started by mistake; possible while nothing else is marked."""
    return shown(tools, steps.take_back_start(tools, table_id))
