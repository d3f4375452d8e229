"""Reveal: open the key, and see everybody's words side by side."""

from fastapi import APIRouter

from cupwright.steps import reveal as steps
from cupwright.web.here import ToolsNow
from cupwright.web.revealed import ComparisonShown, comparison_shown
from cupwright.web.routes.plan import shown
from cupwright.web.shown import TableShown
from cupwright.web.who import DeskOnly, Sitting
from cupwright.web.wire import Id, RevealIn

desk = APIRouter(prefix="/api/tables/{table_id}", tags=["reveal"], dependencies=[DeskOnly])
taster = APIRouter(prefix="/api/seat", tags=["seat"])


@desk.post("/reveal")
def open_key(tools: ToolsNow, table_id: Id, body: RevealIn) -> TableShown:
    """Check the key against its commitment and close the table for good."""
    return shown(tools, steps.open_key(tools, table_id, body.placings))


@desk.get("/reveal")
def comparison(tools: ToolsNow, table_id: Id) -> ComparisonShown:
    """Per coffee the published words and each taster's."""
    return comparison_shown(steps.comparison(tools, table_id), steps.opened(tools, table_id))


@taster.get("/reveal")
def my_comparison(tools: ToolsNow, sitting: Sitting) -> ComparisonShown:
    """The same with this seat's words first."""
    table_id = sitting.table.id
    return comparison_shown(steps.comparison(tools, table_id, sitting.seat.id), steps.opened(tools, table_id))
