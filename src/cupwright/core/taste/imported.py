"""A table and its notes from a file that was read: not blind, and closed from the start."""

from collections import defaultdict
from collections.abc import Callable, Mapping
from datetime import datetime

from cupwright.core.flow import Step
from cupwright.core.plan.names import checked_name
from cupwright.core.plan.table import Blinding, Plan, Seat, Table
from cupwright.core.taste.note import Note
from cupwright.core.taste.note_rows import PASS, NotesFile
from cupwright.core.taste.stamp import Stamp

DEVICE = "import"


def imported_table(
    read: NotesFile,
    name: str,
    coffee_ids: Mapping[str, str],
    *,
    table_id: str,
    created: datetime,
    ids: Callable[[], str],
) -> Table:
    """The table of a file of notes, its key still to be sealed.

    Parameters
    ----------
    coffee_ids : mapping
        Name of a coffee in the file -> id on the shelf.
    ids : callable
        Makes the id of a seat.
    """
    places = {coffee: str(number) for number, coffee in enumerate(read.coffees, start=1)}
    orders: dict[str, list[str]] = defaultdict(list)
    for line in read.lines:
        orders[line.taster].append(places[line.coffee])
    plan = Plan(
        name=checked_name(name, of="The table"),
        coffees=tuple(coffee_ids[coffee] for coffee in read.coffees),
        tasters=read.tasters,
        blinding=Blinding.OPEN,
        sheet=read.sheet.name,
    )
    return Table(
        id=table_id,
        plan=plan,
        sheet=read.sheet,
        created=created,
        step=Step.REVEAL,
        codes=tuple(places.values()),
        seats=tuple(Seat(ids(), taster, tuple(orders[taster])) for taster in read.tasters),
    )


def imported_notes(read: NotesFile, table: Table, *, at_ms: int, ids: Callable[[], str]) -> list[Note]:
    """One note an answer, stamped in the order of the file."""
    places = dict(zip(read.coffees, table.codes, strict=True))
    seats = {seat.name: seat.id for seat in table.seats}
    answers = [(line, field, value) for line in read.lines for field, value in line.answers]
    return [
        Note(
            ids(), seats[line.taster], places[line.coffee], PASS, field, value, Stamp(counter, DEVICE), at_ms
        )
        for counter, (line, field, value) in enumerate(answers, start=1)
    ]
