"""Analyse: gather a revealed table's answers so that they can be counted."""

from cupwright.core.analyse.answers import Answers, gather
from cupwright.core.reveal.sight import Role, Thing, require_sight
from cupwright.steps.plan import coffees_of
from cupwright.steps.ports import Tools, Work
from cupwright.steps.reveal import late_notes, open_identities
from cupwright.steps.words import lexicon_of


def analysis(tools: Tools, table_id: str) -> Answers:
    """Everything that was answered at a revealed table, by coffee. Raises WrongStep."""
    with tools.store.reading() as work:
        return answers_of(work, table_id)


def answers_of(work: Work, table_id: str) -> Answers:
    """The same inside a transaction."""
    table = work.tables.get(table_id)
    require_sight(Role.DESK, table.step, Thing.ANALYSIS)
    notes = [numbered.note for numbered in work.notes.of(table_id)]
    coffees = list(coffees_of(work, table).values())
    places, late = open_identities(work, table), late_notes(work, table_id)
    return gather(table, notes, places, coffees, lexicon_of(work), late=late)
