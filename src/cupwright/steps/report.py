"""Report: a revealed table as one document, for screen, paper and data."""

import json

from cupwright.core.report.document import Document, Figure
from cupwright.core.report.table_report import table_report
from cupwright.errors import NotFound, Refused
from cupwright.steps.analyse import answers_of, coloured_cups_of
from cupwright.steps.plan import coffees_of
from cupwright.steps.ports import Tools
from cupwright.steps.reveal import open_identities

FORMATS = ("html", "pdf", "json")


def report(tools: Tools, table_id: str) -> Document:
    """The report of a revealed table. Raises WrongStep before the reveal."""
    with tools.store.reading() as work:
        answers = answers_of(work, table_id)
        table = work.tables.get(table_id)
        coffees = list(coffees_of(work, table).values())
        places, cups = open_identities(work, table), coloured_cups_of(work)
    return table_report(table, coffees, places, answers, cups)


def report_as(tools: Tools, table_id: str, form: str) -> bytes:
    """The same as the bytes of a file; `form` is "html", "pdf" or "json"."""
    if form not in FORMATS:
        raise Refused(f"There is no report as '{form}'.", todo=f"Choose one of {', '.join(FORMATS)}.")
    document = report(tools, table_id)
    if form == "pdf":
        return tools.render.pdf(document)
    if form == "html":
        return tools.render.html(document).encode()
    return json.dumps(tools.render.data(document), ensure_ascii=False, indent=2, allow_nan=False).encode()


def figure_svg(tools: Tools, table_id: str, name: str) -> str:
    """One picture of the report. Raises NotFound."""
    figures = [block for block in report(tools, table_id).blocks if isinstance(block, Figure)]
    figure = next((figure for figure in figures if figure.name == name), None)
    if figure is None:
        raise NotFound(f"The report has no picture '{name}'.", todo="Reload the report.")
    return tools.render.figure_svg(figure)
