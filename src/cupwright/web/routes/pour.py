"""Pour: the pourer's list, labels and sheets on paper, the clock, and how tasters find the table."""

from typing import Annotated

from fastapi import APIRouter, Query, Request, Response

from cupwright.steps import pour as steps
from cupwright.steps.plan import get_table
from cupwright.web.addresses import web_address
from cupwright.web.files import pdf
from cupwright.web.here import Here, HereNow, ToolsNow
from cupwright.web.qr import qr_svg
from cupwright.web.routes.plan import shown
from cupwright.web.shown import JoinShown, PourLineShown, TableShown
from cupwright.web.shown_clock import RunSheetShown, run_sheet_shown
from cupwright.web.shown_cooling import CoolingShown, cooling_shown
from cupwright.web.who import DeskOnly
from cupwright.web.wire import FAR_AHEAD_MS, Id, Name, PourIn, ReadingIn

Size = Annotated[str, Query(max_length=20)]
SeatName = Annotated[Name, Query()]
Whole = Annotated[int, Query(ge=0, le=FAR_AHEAD_MS)]

router = APIRouter(prefix="/api/tables/{table_id}", tags=["pour"], dependencies=[DeskOnly])


@router.get("/pour-list")
def pour_list(tools: ToolsNow, table_id: Id) -> list[PourLineShown]:
    """Which coffee goes under which code; that somebody looked is written into the diary."""
    return [PourLineShown.model_validate(line) for line in steps.pour_list(tools, table_id)]


@router.get("/pour-list.pdf", response_class=Response)
def pour_list_paper(tools: ToolsNow, table_id: Id, size: Size = "a4") -> Response:
    """The same on "a4" or "letter", with the doses; printing it is written into the diary too."""
    return pdf(steps.pour_list_paper(tools, table_id, size), "pour list")


@router.get("/labels.pdf", response_class=Response)
def labels(tools: ToolsNow, table_id: Id, size: Size = "a4") -> Response:
    """The labels of the bowls, on "a4" or "letter"."""
    return pdf(steps.labels(tools, table_id, size), "labels")


@router.get("/paper.pdf", response_class=Response)
def paper_sheet(tools: ToolsNow, table_id: Id, size: Size = "a4", seat: SeatName = "") -> Response:
    """The sheet to fill in by hand, on "a4" or "letter"; for one `seat` by its name or id, or for all."""
    return pdf(steps.paper_sheet(tools, table_id, size, seat), "sheet")


@router.post("/clock")
def start_clock(tools: ToolsNow, table_id: Id) -> TableShown:
    """The first pour begins now."""
    return shown(tools, steps.start_clock(tools, table_id))


@router.post("/pours")
def mark_pour(tools: ToolsNow, table_id: Id, body: PourIn) -> RunSheetShown:
    """A bowl was really poured now, or at `at`."""
    steps.mark_pour(tools, table_id, body.bowl, body.at)
    return run_sheet(tools, table_id)


@router.get("/cooling")
def cooling(tools: ToolsNow, table_id: Id) -> CoolingShown:
    """How the bowls cool, by the readings of a thermometer if there are any."""
    return cooling_shown(steps.cooling(tools, table_id))


@router.post("/readings")
def note_reading(tools: ToolsNow, table_id: Id, body: ReadingIn) -> CoolingShown:
    """A thermometer in a bowl shows so many °C now, or did at `at`; the curve is fitted anew."""
    steps.note_reading(tools, table_id, body.bowl, body.celsius, body.at)
    return cooling(tools, table_id)


@router.delete("/readings")
def drop_reading(tools: ToolsNow, table_id: Id, bowl: Whole, at: Whole) -> CoolingShown:
    """A reading was taken by mistake."""
    steps.drop_reading(tools, table_id, bowl, at)
    return cooling(tools, table_id)


@router.get("/run-sheet")
def run_sheet(tools: ToolsNow, table_id: Id) -> RunSheetShown:
    """What to do with each bowl at which moment."""
    return run_sheet_shown(get_table(tools, table_id), steps.now_ms(tools))


@router.get("/join")
def join_address(here: HereNow, request: Request, table_id: Id) -> JoinShown:
    """The code that tasters type, the address they open, and that address as a QR code."""
    code = get_table(here.tools, table_id).join_code
    addresses = _addresses(here, request)
    url = f"{addresses[0]}/#/join/{code}"
    return JoinShown(code=code, url=url, qr_svg=qr_svg(url), addresses=addresses)


def _addresses(here: Here, request: Request) -> list[str]:
    """Where phones find this machine; without a network, where the desk's own browser found it."""
    found = here.settings.addresses() if here.settings.lan else ()
    port = here.settings.port
    return [web_address(address, port) for address in found] or [f"http://{request.headers['host']}"]
