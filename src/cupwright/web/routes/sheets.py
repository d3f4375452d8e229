"""Sheets: those there are, users' own, and what a revealed table's add up to."""

from fastapi import APIRouter

from cupwright.steps import sheets as steps
from cupwright.web.here import ToolsNow
from cupwright.web.shown_sheets import (
    OwnSheetShown,
    SheetShown,
    TotalShown,
    own_sheet_shown,
    sheet_shown,
    total_shown,
)
from cupwright.web.who import DeskOnly
from cupwright.web.wire import Id
from cupwright.web.wire_sheets import SheetTextIn

router = APIRouter(prefix="/api", tags=["taste"], dependencies=[DeskOnly])


@router.get("/sheets")
def list_sheets(tools: ToolsNow) -> list[SheetShown]:
    """The sheets that come with the program, then users' own."""
    return [sheet_shown(sheet) for sheet in steps.list_sheets(tools)]


@router.post("/sheets", status_code=201)
def keep_sheet(tools: ToolsNow, body: SheetTextIn) -> SheetShown:
    """Keep a sheet of one's own, or its next version, from the text of its file."""
    return sheet_shown(steps.keep_sheet(tools, body.text))


@router.post("/sheets/check")
def check_sheet(body: SheetTextIn) -> SheetShown:
    """Read a sheet without keeping it; a complaint names the line."""
    return sheet_shown(steps.checked_sheet(body.text))


@router.get("/own-sheets")
def own_sheets(tools: ToolsNow) -> list[OwnSheetShown]:
    """Users' own sheets as they were written."""
    return [own_sheet_shown(form) for form in steps.own_sheets(tools)]


@router.delete("/own-sheets/{name}", status_code=204)
def remove_sheet(tools: ToolsNow, name: Id) -> None:
    """Put an own sheet out of sight; tables that were planned with it keep it."""
    steps.remove_sheet(tools, name)


@router.get("/tables/{table_id}/points")
def points_of_table(tools: ToolsNow, table_id: Id) -> list[TotalShown]:
    """What everybody's sheets add up to, line by line, once the key is open."""
    return [total_shown(total) for total in steps.points_of_table(tools, table_id)]
