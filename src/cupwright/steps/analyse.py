"""Analyse: gather a revealed table's answers so that they can be counted."""

from collections.abc import Collection

from cupwright.core.analyse.answers import Answers, gather
from cupwright.core.analyse.coloured_cups import coloured_cups
from cupwright.core.analyse.table_records import pooled_by_attribute, records_of_taster
from cupwright.core.analyse.taster_record import PooledRecord
from cupwright.core.flow import Step
from cupwright.core.plan.names import folded
from cupwright.core.plan.table import Table
from cupwright.core.reveal.sight import Role, Thing, require_sight
from cupwright.core.taste.sheet import Kind
from cupwright.core.words.colour_words import ColouredCup
from cupwright.steps.plan import coffees_of
from cupwright.steps.ports import Tools, Work
from cupwright.steps.reveal import late_notes, open_identities
from cupwright.steps.words import corrections_at, lexicon_of

# What went together years ago need not be read again for every report.
MOST_TABLES = 200


def analysis(tools: Tools, table_id: str) -> Answers:
    """Everything that was answered at a revealed table, by coffee. Raises WrongStep."""
    with tools.store.reading() as work:
        return answers_of(work, table_id)


def answers_of(work: Work, table_id: str, without: Collection[Kind] = ()) -> Answers:
    """The same inside a transaction, without the answers of some kinds."""
    table = work.tables.get(table_id)
    require_sight(Role.DESK, table.step, Thing.ANALYSIS)
    left = {(part.id, f.id) for part in table.sheet.passes for f in part.fields if f.kind in without}
    notes = [one.note for one in work.notes.of(table_id) if (one.note.part, one.note.field) not in left]
    coffees = list(coffees_of(work, table).values())
    places, late = open_identities(work, table), late_notes(work, table_id)
    own = corrections_at(work, table)
    return gather(table, notes, places, coffees, lexicon_of(work), late=late, corrections=own)


def performance_of(tools: Tools, taster: str) -> tuple[PooledRecord, ...]:
    """How the taster called so did over the newest opened tables, one record an attribute."""
    with tools.store.reading() as work:
        opened = [
            table for table in work.tables.all() if table.step is Step.REVEAL and _sat_at(table, taster)
        ]
        kept = (
            record
            for table in opened[:MOST_TABLES]
            for record in records_of_taster(answers_of(work, table.id), table.id, taster)
        )
        return pooled_by_attribute(kept)


def _sat_at(table: Table, taster: str) -> bool:
    return any(folded(seat.name) == folded(taster) for seat in table.seats)


def coloured_cups_of(work: Work) -> tuple[ColouredCup, ...]:
    """The coloured cups of the newest opened tables at which colours were asked for."""
    opened = [table for table in work.tables.all() if table.step is Step.REVEAL and _asks_colours(table)]
    answers = (answers_of(work, table.id) for table in opened[:MOST_TABLES])
    return tuple(cup for one in answers for cup in coloured_cups(one))


def _asks_colours(table: Table) -> bool:
    return any(field.kind is Kind.COLOUR for part in table.sheet.passes for field in part.fields)
