"""The questions at a revealed table: for the desk all of them, for a taster the own scores."""

from typing import Any

from cupwright.core.analyse.answers import Answers
from cupwright.core.analyse.totals import totals
from cupwright.core.plan.table import Table
from cupwright.core.report.document import Document
from cupwright.core.report.table_questions import bowls_of, own_question, table_questions
from cupwright.steps.analyse import answers_of
from cupwright.steps.ports import Tools


def questions_as_data(tools: Tools, table_id: str) -> dict[str, Any]:
    """Every question as blocks, in the form of the report's data. Raises WrongStep before the reveal."""
    table, answers = _opened(tools, table_id)
    blocks = table_questions(answers, totals(table, answers), bowls=bowls_of(table))
    return tools.render.data(Document(table.plan.name, "Questions", blocks=blocks))


def own_as_data(tools: Tools, table_id: str, seat: str) -> dict[str, Any]:
    """What the table says of one taster, for that taster alone. Raises WrongStep before the reveal."""
    table, answers = _opened(tools, table_id)
    blocks = own_question(answers, seat, totals(table, answers))
    return tools.render.data(Document(table.plan.name, "Your own tasting", blocks=blocks))


def _opened(tools: Tools, table_id: str) -> tuple[Table, Answers]:
    with tools.store.reading() as work:
        return work.tables.get(table_id), answers_of(work, table_id)
