"""Plan: draft a table, change it, see what it needs, seal it."""

from typing import Annotated

from fastapi import APIRouter, Query

from cupwright.core.plan.table import Table
from cupwright.steps import plan as steps
from cupwright.steps.ports import Tools
from cupwright.steps.taste import taken_seats
from cupwright.web.here import ToolsNow
from cupwright.web.shown import (
    BriefShown,
    TableLine,
    TableShown,
    table_line,
    table_shown,
)
from cupwright.web.shown_outlook import OutlookShown
from cupwright.web.who import DeskOnly
from cupwright.web.wire import Id, Name, PlanIn

router = APIRouter(prefix="/api", tags=["plan"], dependencies=[DeskOnly])


@router.get("/tables")
def list_tables(tools: ToolsNow) -> list[TableLine]:
    """Every table, the newest first."""
    return [table_line(table) for table in steps.list_tables(tools)]


@router.post("/tables", status_code=201)
def plan_table(tools: ToolsNow, body: PlanIn) -> TableShown:
    """Draft a table."""
    return shown(tools, steps.plan_table(tools, body.plan()))


@router.post("/tables/preview")
def preview_brief(tools: ToolsNow, body: PlanIn) -> BriefShown:
    """What a plan would need; nothing is kept."""
    return BriefShown.model_validate(steps.preview_brief(tools, body.plan()))


@router.post("/tables/preview/outlook")
def preview_outlook(tools: ToolsNow, body: PlanIn) -> OutlookShown:
    """How a plan would run, and what one bowl or one taster more would change; nothing is kept."""
    return OutlookShown.model_validate(steps.preview_outlook(tools, body.plan()))


@router.get("/tables/{table_id}")
def get_table(tools: ToolsNow, table_id: Id) -> TableShown:
    """One table."""
    return shown(tools, steps.get_table(tools, table_id))


@router.put("/tables/{table_id}")
def replan_table(tools: ToolsNow, table_id: Id, body: PlanIn) -> TableShown:
    """Draft it anew; only while it is a draft."""
    return shown(tools, steps.replan_table(tools, table_id, body.plan()))


@router.delete("/tables/{table_id}", status_code=204)
def delete_table(tools: ToolsNow, table_id: Id, name: Annotated[Name, Query()] = "") -> None:
    """Put a table out of sight; one that was sealed only if its name is repeated."""
    steps.delete_table(tools, table_id, confirm_name=name)


@router.get("/tables/{table_id}/brief")
def brief(tools: ToolsNow, table_id: Id) -> BriefShown:
    """What a table needs and the order of work."""
    return BriefShown.model_validate(steps.brief(tools, table_id))


@router.post("/tables/{table_id}/seal")
def seal_table(tools: ToolsNow, table_id: Id) -> TableShown:
    """Lay the coffees under the codes, seal the key, let tasters in."""
    return shown(tools, steps.seal_table(tools, table_id))


def shown(tools: Tools, table: Table) -> TableShown:
    """A table for the desk, with who sits where."""
    return table_shown(table, taken_seats(tools, table.id))
