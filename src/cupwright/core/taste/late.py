"""Late notes: what a phone's file brings to a table. Before the reveal they are notes like all others.

After the reveal they are kept and shown, marked, and left out of everything that is counted, scaled or
matched: whoever wrote them may have known what stood where, and the time a device gives proves nothing,
since a clock can be set. When a note came in is what the diary says of it.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace

from cupwright.core.flow import Step, require
from cupwright.core.plan.table import Table
from cupwright.core.taste.checking import checked_note
from cupwright.core.taste.merge import answers, merge
from cupwright.core.taste.note import Note
from cupwright.core.taste.notes_file import SavedNotes
from cupwright.errors import NotFound, Refused

# What the diary calls it; the detail's "notes" are the ids.
TAKEN_LATE = "late notes taken"


@dataclass(frozen=True, slots=True)
class RefusedNote:
    """A note of a file that cannot stand at the table; `number` counts the file's notes from 1."""

    number: int
    message: str


@dataclass(frozen=True, slots=True)
class Sifted:
    """The notes of a file: those that fit the table, each once, and those that do not."""

    notes: tuple[Note, ...]
    refused: tuple[RefusedNote, ...]


@dataclass(frozen=True, slots=True)
class LateCount:
    """How many answers came late, and of how many tasters. Only what would hold now is counted."""

    answers: int = 0
    tasters: int = 0


def sifted(saved: SavedNotes, table: Table) -> Sifted:
    """Which notes of a phone's file can stand at the table; one that cannot does not hold up the rest.

    Raises
    ------
    WrongStep
        If the table is a draft: nobody sat there.
    NotFound
        If the file's seat is not of this table.
    """
    require(table.step, Step.POUR, Step.TASTE, Step.REVEAL, to_do="take in a phone's file")
    if saved.seat_id not in {seat.id for seat in table.seats}:
        raise NotFound(
            f"The file's seat ('{saved.seat_name}') is not a seat of the table '{table.plan.name}'.",
            todo="Look for the data in which that taster sat down.",
        )
    # The form of a note is the same whether or not the table still takes notes by itself.
    taking = replace(table, step=Step.TASTE)
    kept: list[Note] = []
    refused: list[RefusedNote] = []
    for number, note in enumerate(saved.notes, start=1):
        try:
            kept.append(checked_note(note, taking))
        except (NotFound, Refused) as refusal:
            refused.append(RefusedNote(number, refusal.sentence()))
    return Sifted(merge(kept, ()), tuple(refused))


def in_time(notes: Iterable[Note], late: Collection[str]) -> tuple[Note, ...]:
    """The notes without the late ones, whose ids are `late`: a late correction takes nothing back."""
    return tuple(note for note in notes if note.id not in late)


def late_answers(notes: Iterable[Note], late: Collection[str]) -> tuple[Note, ...]:
    """The late notes that would hold if they counted; one that took an answer back is not shown."""
    return tuple(note for note in answers(notes).values() if note.id in late)


def late_count(notes: Iterable[Note], late: Collection[str]) -> LateCount:
    """How much is left out."""
    held = late_answers(notes, late)
    return LateCount(len(held), len({note.seat for note in held}))
