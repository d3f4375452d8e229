"""The wire, outward, to a taster: every field an answer carries is listed here.

Before the reveal nothing here says anything of the coffees: no id, no name, no grams, no order of theirs.
"""

from typing import Annotated

from pydantic import Field

from cupwright.core.flow import Step
from cupwright.core.plan.table import Blinding, Table
from cupwright.core.pour.run_sheet import run_sheet as cues_of
from cupwright.core.taste.note import Note, Value
from cupwright.web.shown import (
    BowlShown,
    ClockShown,
    CueShown,
    SheetShown,
    Shown,
    bowls_shown,
    cues_shown,
    sheet_shown,
)


class SeatShown(Shown):
    """A taster's own seat."""

    id: str
    name: str
    order: list[str]


class SeatTable(Shown):
    """A table as a taster sees it."""

    id: str
    name: str
    step: Step
    blinding: Blinding
    places: list[str]
    bowls: list[BowlShown]
    sheet: SheetShown
    commitment: str
    clock: ClockShown
    cues: list[CueShown]


class StampShown(Shown):
    """The Lamport stamp of a note."""

    counter: int
    device: str


class NoteShown(Shown):
    """A note as its own seat gets it back."""

    id: str
    place: str
    part: Annotated[str, Field(serialization_alias="pass")]
    field: str
    value: Value
    stamp: StampShown
    written_at: int


class SeatView(Shown):
    """All a phone needs."""

    now_ms: int
    table: SeatTable
    seat: SeatShown
    notes: list[NoteShown]
    sequence: int


class TakenShown(Shown):
    """A seat just taken. The token is shown this once."""

    token: str
    seat: SeatShown
    table: SeatTable


class KeptShown(Shown):
    """Which notes are safe."""

    kept: list[str]
    sequence: int


def seat_table(table: Table) -> SeatTable:
    """A table for a taster."""
    return SeatTable(
        id=table.id,
        name=table.plan.name,
        step=table.step,
        blinding=table.plan.blinding,
        places=list(table.places),
        bowls=bowls_shown(table),
        sheet=sheet_shown(table.sheet),
        commitment=table.commitment,
        clock=ClockShown.model_validate(table.clock),
        cues=cues_shown(table, cues_of(len(table.bowls), table.clock)),
    )


def note_shown(note: Note) -> NoteShown:
    """A note without its seat: it is the reader's own."""
    return NoteShown.model_validate(note)
