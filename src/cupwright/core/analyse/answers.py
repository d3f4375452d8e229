"""Answers: the notes of an opened table, sorted by taster, coffee and kind, ready to be counted.

After a shuffle several places may hold one coffee. Its scales are then averaged and its words united for
each taster; `given` and `written` keep the place, so nothing is lost for later.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Seat, Table
from cupwright.core.pour.cup_temperature import CupTemperatures
from cupwright.core.taste.late import LateCount, in_time, late_count
from cupwright.core.taste.merge import answers as standing_answers
from cupwright.core.taste.note import Note, Value
from cupwright.core.taste.sheet import WHOLE_TABLE, Field, Kind, Pass, Sheet
from cupwright.core.words.corrections import NO_CORRECTIONS, NOBODYS, Corrections
from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.reading import Reading, read_note
from cupwright.errors import NotFound, Refused

Floats = NDArray[np.float64]
SCALES = (Kind.LINE, Kind.POINTS)
TEXTS = (Kind.WORDS, Kind.TEXT)


@dataclass(frozen=True, slots=True)
class Written:
    """One answer in words, as written. `reading` is None where the sheet only keeps the text.

    `written_at` in ms since 1970. `tasted_at` likewise, None if nobody knows; how warm the cup then was,
    `Answers.cups` tells.
    """

    seat: str
    place: str
    coffee: str
    part: str
    field: str
    text: str
    reading: Reading | None
    written_at: int = 0
    tasted_at: int | None = None


@dataclass(frozen=True, slots=True)
class Given:
    """One answer that is not words: a number on a scale, a colour, a choice, ticks. Value as in `Note`."""

    seat: str
    place: str
    coffee: str
    part: str
    field: str
    kind: Kind
    value: Value
    written_at: int = 0
    tasted_at: int | None = None


@dataclass(frozen=True, slots=True)
class Scale:
    """All answers on one scale. `values` has shape (n_coffees, n_tasters); NaN where there is none.

    `ends` are those of the scale, or None where nobody knows how far it reaches (imported numbers).
    """

    part: Pass
    field: Field
    values: Floats
    ends: tuple[float, float] | None


@dataclass(frozen=True, slots=True)
class Answers:
    """What a table's tasters answered. Coffees and seats are the rows and columns of every array.

    `late` counts what is not among it, because it came after the key was opened.
    """

    sheet: Sheet
    coffees: tuple[Coffee, ...]
    seats: tuple[Seat, ...]
    places: tuple[tuple[str, ...], ...]  # per coffee
    written: tuple[Written, ...]
    given: tuple[Given, ...]
    scales: tuple[Scale, ...]
    lexicon: Lexicon
    late: LateCount
    corrected: int  # how many tasters' notes were read by corrections of their own
    compared: tuple[Given, ...]  # what was asked once, of the whole table; no coffee is theirs
    cups: CupTemperatures  # how warm each place was at each moment

    def of_kind(self, kind: Kind) -> tuple[Given, ...]:
        """The answers to fields of one kind."""
        return tuple(answer for answer in self.given if answer.kind is kind)

    @property
    def rows(self) -> dict[str, int]:
        """coffee id -> row."""
        return {coffee.id: row for row, coffee in enumerate(self.coffees)}

    @property
    def columns(self) -> dict[str, int]:
        """seat id -> column."""
        return {seat.id: column for column, seat in enumerate(self.seats)}


def gather(
    table: Table,
    notes: Iterable[Note],
    place_coffee: Mapping[str, str],
    coffees: Sequence[Coffee],
    lexicon: Lexicon,
    *,
    late: Collection[str] = (),
    corrections: Mapping[str, Corrections] = NOBODYS,
) -> Answers:
    """The standing answers of a table, with each place's coffee known.

    Parameters
    ----------
    notes : iterable of Note
        All notes of the table; corrections and deletions are applied here.
    place_coffee : mapping
        place -> coffee id, for every place of the table.
    coffees : sequence of Coffee
        The coffees of the table, in the order in which they are to be reported.
    late : collection of str
        Ids of the notes that came after the key was opened: counted as left out, and left out.
    corrections : mapping
        Seat -> what that taster said that words mean.

    Raises
    ------
    NotFound
        If a place's coffee is not among `coffees`, or a note names a seat, place or field of another table.
    Refused
        If an answer to a scale is not a number.
    """
    known = {coffee.id for coffee in coffees}
    for place, coffee in place_coffee.items():
        if coffee not in known:
            raise NotFound(f"The coffee at place {place} is not on the shelf.", todo="Restore it first.")
    notes = tuple(notes)
    standing = standing_answers(in_time(notes, late))
    served = set(place_coffee.values())
    kept = tuple(coffee for coffee in coffees if coffee.id in served)
    apart = [note for note in standing.values() if note.place != WHOLE_TABLE]
    written, given = _sorted_out(table, apart, place_coffee, lexicon, corrections)
    return Answers(
        sheet=table.sheet,
        coffees=kept,
        seats=table.seats,
        places=tuple(_places_of(coffee.id, table, place_coffee) for coffee in kept),
        written=written,
        given=given,
        scales=_scales(table, kept, given),
        lexicon=lexicon,
        late=late_count(notes, late),
        corrected=len(corrections),
        compared=_compared(table, standing.values()),
        cups=CupTemperatures(table),
    )


def _compared(table: Table, notes: Iterable[Note]) -> tuple[Given, ...]:
    seats = {seat.id for seat in table.seats}
    compared: list[Given] = []
    for note in (one for one in notes if one.place == WHOLE_TABLE):
        field = table.sheet.field(note.part, note.field)
        if field is None or note.seat not in seats:
            raise _stray(note)
        where = (note.seat, note.place, "", note.part, note.field)
        compared.append(Given(*where, field.kind, note.value, note.written_at))
    return tuple(compared)


def _places_of(coffee: str, table: Table, place_coffee: Mapping[str, str]) -> tuple[str, ...]:
    return tuple(place for place in table.places if place_coffee.get(place) == coffee)


def _sorted_out(
    table: Table,
    notes: Iterable[Note],
    place_coffee: Mapping[str, str],
    lexicon: Lexicon,
    corrections: Mapping[str, Corrections],
) -> tuple[tuple[Written, ...], tuple[Given, ...]]:
    kinds = {(part.id, field.id): field.kind for part in table.sheet.passes for field in part.fields}
    seats = {seat.id for seat in table.seats}
    readings: dict[tuple[str, str, Corrections], Reading] = {}
    written: list[Written] = []
    given: list[Given] = []
    for note in notes:
        kind = kinds.get((note.part, note.field))
        if kind is None or note.seat not in seats or note.place not in place_coffee:
            raise _stray(note)
        where = (note.seat, note.place, place_coffee[note.place], note.part, note.field)
        if kind not in TEXTS:
            given.append(Given(*where, kind, note.value, note.written_at, note.tasted_at))
        elif str(note.value).strip():
            text = str(note.value)
            # Many write the same few words: each text is read once.
            said = (text, note.part, corrections.get(note.seat, NO_CORRECTIONS))
            if kind is Kind.WORDS and said not in readings:
                readings[said] = read_note(text, lexicon, field=note.part, corrections=said[2])
            reading = readings[said] if kind is Kind.WORDS else None
            written.append(Written(*where, text, reading, note.written_at, note.tasted_at))
    return tuple(written), tuple(given)


def _stray(note: Note) -> NotFound:
    return NotFound(
        f"A note names seat {note.seat}, place {note.place} and field {note.part}/{note.field}, "
        "which this table does not have.",
        todo="Check that the notes belong to this table.",
    )


def _scales(table: Table, coffees: tuple[Coffee, ...], given: tuple[Given, ...]) -> tuple[Scale, ...]:
    rows = {coffee.id: row for row, coffee in enumerate(coffees)}
    columns = {seat.id: column for column, seat in enumerate(table.seats)}
    asked = [(part, field) for part in table.sheet.passes for field in part.fields if field.kind in SCALES]
    sums = {(part.id, field.id): np.zeros((len(rows), len(columns))) for part, field in asked}
    counts = {key: np.zeros_like(values) for key, values in sums.items()}
    for answer in given:
        if answer.kind in SCALES:
            cell = (rows[answer.coffee], columns[answer.seat])
            sums[answer.part, answer.field][cell] += _number(answer)
            counts[answer.part, answer.field][cell] += 1
    return tuple(
        Scale(
            part,
            field,
            _averages(sums[part.id, field.id], counts[part.id, field.id]),
            table.sheet.ends(field),
        )
        for part, field in asked
    )


def _averages(sums: Floats, counts: Floats) -> Floats:
    return np.divide(sums, counts, out=np.full_like(sums, np.nan), where=counts > 0)


def _number(answer: Given) -> float:
    try:
        number = float(answer.value)  # type: ignore[arg-type] # whatever is no number is refused below
    except (TypeError, ValueError):
        number = float("nan")
    if not np.isfinite(number):
        raise Refused(
            f"The answer {answer.value!r} on the scale {answer.part}/{answer.field} is not a number.",
            todo="Take it back or correct it.",
        )
    return number
