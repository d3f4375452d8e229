"""Season: all opened tables together, on columns that are kept beside the store."""

from collections.abc import Hashable
from hashlib import blake2b
from typing import Any

from cupwright.core.analyse.overview import overview
from cupwright.core.analyse.season_columns import SeasonColumns, TableScores, season_columns
from cupwright.core.analyse.table_scores import TOTAL, scale_ends, table_scores
from cupwright.core.analyse.totals import totals
from cupwright.core.flow import Step
from cupwright.core.plan.table import Table
from cupwright.core.report.document import Document
from cupwright.core.report.season_report import season_report
from cupwright.core.taste.sheet import Kind
from cupwright.errors import TooFewObservations
from cupwright.steps.analyse import answers_of
from cupwright.steps.ports import Tools, Work

# Changes when columns are made in another way.
_MADE = "1"
# What a number does not need; reading words is most of the work.
_WORDS = (Kind.WORDS, Kind.TEXT, Kind.COLOUR)


def season(tools: Tools) -> SeasonColumns:
    """The scores of all opened tables. Raises TooFewObservations if there are none."""
    with tools.store.reading() as work:
        opened = [table for table in reversed(work.tables.all()) if table.step is Step.REVEAL]
        state = _state(work, opened)
        found = tools.columns.read(state)
        if found is None:
            found = season_columns([_scored(work, table) for table in opened])
            tools.columns.keep(state, found)
    if not len(found.scores):
        raise TooFewObservations(
            "No opened table has a score.", todo="Open a table with a scale on its sheet."
        )
    return found


def season_document(tools: Tools) -> Document:
    """The season in sentences, pictures and numbers."""
    return season_report(season(tools))


def season_as_data(tools: Tools) -> dict[str, Any]:
    """The same in the form of the report's data, with the means of the overview."""
    columns = season(tools)
    return tools.render.data(season_report(columns)) | {"overview": overview(columns.scores).rows()}


def _state(work: Work, opened: list[Table]) -> str:
    """Changes with all that the columns are made of: the tables, what happened there, the coffees' names."""
    digest = blake2b(_MADE.encode(), digest_size=16)
    for table in opened:
        events = work.events.of(table.id)
        last = events[-1].digest if events else ""
        digest.update(f"{table.id}\n{table.plan.name}\n{last}\n".encode())
    for coffee in work.coffees.all():
        digest.update(f"{coffee.id}\n{coffee.name}\n".encode())
    return digest.hexdigest()


def _scored(work: Work, table: Table) -> TableScores:
    answers = answers_of(work, table.id, without=_WORDS)
    scores = table_scores(answers, totals(table, answers))
    # What a sheet adds up to is in points of its own.
    scales: dict[str, Hashable] = {**scale_ends(answers), TOTAL: f"{table.sheet.name} {table.sheet.version}"}
    return TableScores(table.plan.name, f"{table.sheet.title}, version {table.sheet.version}", scores, scales)
