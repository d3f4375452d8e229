"""The wire, outward, to a taster: every field an answer carries is listed here.

Before the reveal nothing here says anything of the coffees: no id, no name, no grams, no order of theirs.
"""

from typing import Annotated, Any

from pydantic import Field

from cupwright.core.flow import Step
from cupwright.core.plan.table import Blinding, Table
from cupwright.core.pour.table_sheet import cues_of
from cupwright.core.taste.note import Note, Value
from cupwright.core.words.own_words import Addition, OwnConcept
from cupwright.steps.words import SeatWords
from cupwright.web.shape import Shown
from cupwright.web.shown import (
    BowlShown,
    ClockShown,
    CueShown,
    bowls_shown,
    cues_shown,
)
from cupwright.web.shown_sheets import SheetShown, sheet_shown


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
    flights: list[list[str]]
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


class OwnWordRead(Shown):
    """An own word to read with: a concept or, without a label, forms of another concept."""

    concept: str
    label: str
    parents: list[str]
    forms: list[str]


class CorrectionShown(Shown):
    """What words of the taster mean, as their device kept it."""

    id: str
    surface: str
    concept: str | None
    stamp: StampShown
    written_at: int


class SeatWordsShown(Shown):
    """What a phone reads its taster's notes with, beside the lexicon."""

    own: list[OwnWordRead]
    corrections: list[CorrectionShown]


class SeatView(Shown):
    """All a phone needs. `words` come with a whole view only."""

    now_ms: int
    table: SeatTable
    seat: SeatShown
    notes: list[NoteShown]
    sequence: int
    words: SeatWordsShown | None


class TakenShown(Shown):
    """A seat just taken. The token is shown this once."""

    token: str
    seat: SeatShown
    table: SeatTable


class KeptCorrectionsShown(Shown):
    """Which corrections are safe."""

    kept: list[str]


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
        flights=[list(flight) for flight in table.flights],
        bowls=bowls_shown(table),
        sheet=sheet_shown(table.sheet),
        commitment=table.commitment,
        clock=ClockShown.model_validate(table.clock),
        cues=cues_shown(table, cues_of(table)),
    )


def note_shown(note: Note) -> NoteShown:
    """A note without its seat: it is the reader's own."""
    return NoteShown.model_validate(note)


def seat_words_shown(words: SeatWords) -> SeatWordsShown:
    """Own words and corrections for a taster's device."""
    return SeatWordsShown(
        own=[OwnWordRead.model_validate(own_word_fields(one)) for one in words.own],
        corrections=[CorrectionShown.model_validate(one) for one in words.corrections],
    )


def own_word_fields(addition: Addition) -> dict[str, Any]:
    """Either kind of own word in the one shape it has on the wire."""
    if isinstance(addition, OwnConcept):
        return {
            "concept": addition.id,
            "label": addition.label,
            "parents": list(addition.parents),
            "forms": list(addition.forms),
        }
    return {"concept": addition.concept, "label": "", "parents": [], "forms": [addition.form]}
