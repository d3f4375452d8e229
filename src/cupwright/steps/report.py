"""Report: a revealed table as one document, for screen, paper and data."""

import json
from datetime import UTC, date, datetime

from cupwright.core.flow import Step
from cupwright.core.plan.table import Table
from cupwright.core.report.document import Document, Figure
from cupwright.core.report.record_section import Record
from cupwright.core.report.table_report import table_report
from cupwright.core.reveal.diary import BEGINNING, POUR_LIST_SEEN
from cupwright.core.reveal.seal import verify
from cupwright.errors import NotFound, Refused
from cupwright.steps.analyse import answers_of, coloured_cups_of
from cupwright.steps.plan import coffees_of
from cupwright.steps.ports import Tools, Work
from cupwright.steps.reveal import open_identities

FORMATS = ("html", "pdf", "json")


def report(tools: Tools, table_id: str) -> Document:
    """The report of a revealed table. Raises WrongStep before the reveal, SealBroken for a changed key."""
    with tools.store.reading() as work:
        answers = answers_of(work, table_id)
        table = work.tables.get(table_id)
        coffees = list(coffees_of(work, table).values())
        places, cups = open_identities(work, table), coloured_cups_of(work)
        record = _record(work, table)
    return table_report(table, coffees, places, answers, cups=cups, record=record)


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


def _record(work: Work, table: Table) -> Record:
    key, events = work.keys.get(table.id), work.events.of(table.id)
    verify(key, table.commitment)
    looks = [one for one in events if one.kind == POUR_LIST_SEEN and one.detail["step"] != Step.REVEAL]
    return Record(_day(table), key, len(looks), len(events), events[-1].digest if events else BEGINNING)


def _day(table: Table) -> date:
    """The day on which the first bowl was poured (else the table planned), where this machine stands."""
    started = table.clock.started_at
    moment = table.created if started is None else datetime.fromtimestamp(started / 1000, UTC)
    return moment.astimezone().date()
