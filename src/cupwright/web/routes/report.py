"""Report: a revealed table as one document for screen, paper and data, and its diary."""

from fastapi import APIRouter, Response

from cupwright.steps.diary import diary
from cupwright.steps.plan import get_table
from cupwright.steps.ports import Tools
from cupwright.web.files import as_file
from cupwright.web.here import ToolsNow
from cupwright.web.shown import EventShown
from cupwright.web.who import DeskOnly
from cupwright.web.wire import Id

router = APIRouter(prefix="/api/tables/{table_id}", tags=["report"], dependencies=[DeskOnly])


@router.get("/report.html", response_class=Response)
def report_html(tools: ToolsNow, table_id: Id) -> Response:
    """The report as a page that stands alone."""
    return _report(tools, table_id, "html")


@router.get("/report.pdf", response_class=Response)
def report_pdf(tools: ToolsNow, table_id: Id) -> Response:
    """The report on paper."""
    return _report(tools, table_id, "pdf")


@router.get("/report.json", response_class=Response)
def report_json(tools: ToolsNow, table_id: Id) -> Response:
    """The report as data."""
    return _report(tools, table_id, "json")


@router.get("/figures/{name}.svg", response_class=Response)
def figure_svg(tools: ToolsNow, table_id: Id, name: Id) -> Response:
    """One picture of the report."""
    from cupwright.steps.report import figure_svg as drawn

    return Response(drawn(tools, table_id, name), media_type="image/svg+xml")


@router.get("/events")
def events(tools: ToolsNow, table_id: Id) -> list[EventShown]:
    """The table's diary, checked line by line."""
    return [EventShown.model_validate(event) for event in diary(tools, table_id)]


def _report(tools: Tools, table_id: str, form: str) -> Response:
    # Loaded when the first report is asked for: charts and numbers take longer than the rest of the server.
    from cupwright.steps.report import report_as

    data = report_as(tools, table_id, form)
    return as_file(data, form, f"report {get_table(tools, table_id).plan.name}")
