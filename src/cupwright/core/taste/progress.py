"""Progress: how far each seat has come in each pass, without a word of what it wrote."""

from collections.abc import Iterable
from dataclasses import dataclass

from cupwright.core.plan.table import Seat, Table
from cupwright.core.taste.merge import answers
from cupwright.core.taste.note import Note


@dataclass(frozen=True, slots=True)
class PassProgress:
    """Of `all` places, `done` have at least one answer in the pass `part`."""

    part: str
    done: int
    all: int


@dataclass(frozen=True, slots=True)
class SeatProgress:
    """One seat's way through the passes, in the order of the sheet."""

    seat: str
    name: str
    passes: tuple[PassProgress, ...]


def progress(table: Table, notes: Iterable[Note]) -> tuple[SeatProgress, ...]:
    """Every seat's progress, in the order of the seats.

    A place counts as done with one answer of the pass, since nothing on a sheet is required; an answer
    taken back does not count.
    """
    answered = {(note.seat, note.part, note.place) for note in answers(notes).values()}
    return tuple(_of_seat(seat, table, answered) for seat in table.seats)


def _of_seat(seat: Seat, table: Table, answered: set[tuple[str, str, str]]) -> SeatProgress:
    places = table.places
    passes = tuple(
        PassProgress(part.id, sum((seat.id, part.id, place) in answered for place in places), len(places))
        for part in table.sheet.passes
    )
    return SeatProgress(seat.id, seat.name, passes)
