"""Progress: how far each seat has come in each pass, without a word of what it wrote."""

from collections.abc import Iterable
from dataclasses import dataclass

from cupwright.core.plan.table import Seat, Table
from cupwright.core.taste.merge import answers
from cupwright.core.taste.note import Note
from cupwright.core.taste.sheet import WHOLE_TABLE, Over, Pass


@dataclass(frozen=True, slots=True)
class PassProgress:
    """Of `all` places of the seat, `done` have at least one answer in the pass `part`."""

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
    def passed(part: Pass) -> PassProgress:
        places = (WHOLE_TABLE,) if part.over is Over.TABLE else seat.order
        done = sum((seat.id, part.id, place) in answered for place in places)
        return PassProgress(part.id, done, len(places))

    return SeatProgress(seat.id, seat.name, tuple(passed(part) for part in table.sheet.passes))
