"""Reveal: open the key, and see everybody's words side by side."""

from fastapi import APIRouter

from cupwright.steps.plan import get_table
from cupwright.steps.ports import Tools
from cupwright.web.here import ToolsNow
from cupwright.web.revealed import ComparisonShown
from cupwright.web.routes.plan import shown
from cupwright.web.shown import TableShown
from cupwright.web.who import DeskOnly, Sitting
from cupwright.web.wire import Id, RevealIn

desk = APIRouter(prefix="/api/tables/{table_id}", tags=["reveal"], dependencies=[DeskOnly])
taster = APIRouter(prefix="/api/seat", tags=["seat"])


@desk.post("/reveal")
def open_key(tools: ToolsNow, table_id: Id, body: RevealIn) -> TableShown:
    """Check the key against its commitment and close the table for good."""
    # The step loads the numerical libraries, which take longer than the whole rest of the server.
    from cupwright.steps.reveal import open_key as open_now

    return shown(tools, open_now(tools, table_id, body.placings))


@desk.get("/reveal")
def comparison(tools: ToolsNow, table_id: Id) -> ComparisonShown:
    """Per coffee the published words and each taster's."""
    return _compared(tools, table_id, None)


@taster.get("/reveal")
def my_comparison(tools: ToolsNow, sitting: Sitting) -> ComparisonShown:
    """The same with this seat's words first."""
    return _compared(tools, sitting.table.id, sitting.seat.id)


def _compared(tools: Tools, table_id: str, seat_id: str | None) -> ComparisonShown:
    from cupwright.steps import reveal as steps
    from cupwright.steps.sheets import totals_of_table
    from cupwright.web.revealed import comparison_shown

    compared = steps.comparison(tools, table_id, seat_id)
    totals = totals_of_table(tools, table_id)
    names = {seat.id: seat.name for seat in get_table(tools, table_id).seats}
    return comparison_shown(compared, steps.opened(tools, table_id, seat_id), totals, names, seat_id)
