"""The comparison: per coffee, everybody's words beside the roaster's published ones."""

from collections import Counter
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Blinding, Seat, Table
from cupwright.core.pour.cooling_fit import Estimate
from cupwright.core.pour.cup_temperature import CupTemperatures
from cupwright.core.reveal.fits import TasterFit, taster_fits
from cupwright.core.reveal.match import Matched, match
from cupwright.core.taste.late import in_time, late_answers
from cupwright.core.taste.merge import answers
from cupwright.core.taste.note import Note
from cupwright.core.taste.sheet import Kind
from cupwright.core.words.corrections import NO_CORRECTIONS, NOBODYS, Corrections
from cupwright.core.words.lexicon import Lexicon
from cupwright.core.words.reading import Reading, read_note


@dataclass(frozen=True, slots=True)
class Written:
    """One answer word for word, where it was given, how it was read, and how warm the cup then was.

    `cup_c` is None for a dry cup, and where no clock was started.
    """

    place: str
    part: str
    field: str
    text: str
    reading: Reading
    cup_c: Estimate | None = None


@dataclass(frozen=True, slots=True)
class TasterWords:
    """What one taster wrote of one coffee, and how that compares.

    `published` compares with the roaster's words (None if none of them could be read), `others` with the
    other tasters' (None without any): a word counts as shared or near if any of them used it, and as missed
    only if at least half of the others who wrote of this coffee did. The score counts all their words.
    `late` reached the table after its key was opened: shown, and neither read into `concepts` nor compared.
    """

    seat: str
    name: str
    written: tuple[Written, ...]
    concepts: frozenset[str]
    published: Matched | None
    others: Matched | None
    late: tuple[Written, ...] = ()


@dataclass(frozen=True, slots=True)
class CoffeeComparison:
    """One coffee, where it stood, its published words as read, and each taster's."""

    coffee: Coffee
    places: tuple[str, ...]
    published: Reading
    tasters: tuple[TasterWords, ...]


@dataclass(frozen=True, slots=True)
class Comparison:
    """All coffees of a table, in the order of its places, and the lexicon by which all was read.

    `fits` say whether each taster's notes pick out the coffees; there are none if the table was not blind.
    """

    table_id: str
    coffees: tuple[CoffeeComparison, ...]
    fits: tuple[TasterFit, ...]
    lexicon: Lexicon


def compare(
    table: Table,
    notes: Iterable[Note],
    place_coffee: Mapping[str, str],
    coffees: Mapping[str, Coffee],
    lexicon: Lexicon,
    *,
    first: str | None = None,
    late: Collection[str] = (),
    corrections: Mapping[str, Corrections] = NOBODYS,
) -> Comparison:
    """Everybody's words side by side.

    Parameters
    ----------
    place_coffee : mapping
        Place -> coffee id, for every place.
    coffees : mapping
        Coffee id -> coffee.
    first : str, optional
        Id of the seat whose words come first, for a taster's own view.
    late : collection of str
        Ids of the notes that came after the key was opened.
    corrections : mapping
        Seat -> what that taster said that words mean. The published words are read without any.
    """
    notes = tuple(notes)
    said = _Said(
        _written(table, in_time(notes, late), place_coffee, lexicon, corrections),
        _written(table, late_answers(notes, late), place_coffee, lexicon, corrections),
    )
    seats = sorted(table.seats, key=lambda seat: seat.id != first)
    order = dict.fromkeys(place_coffee[place] for place in table.places)
    compared = []
    for coffee_id in order:
        places = tuple(place for place in table.places if place_coffee[place] == coffee_id)
        compared.append(_coffee_comparison(coffees[coffee_id], places, seats, said, lexicon))
    blind = table.plan.blinding is not Blinding.OPEN
    fits = _fits(tuple(compared), table, lexicon) if blind else ()
    return Comparison(table.id, tuple(compared), fits, lexicon)


def _fits(compared: tuple[CoffeeComparison, ...], table: Table, lexicon: Lexicon) -> tuple[TasterFit, ...]:
    said: dict[str, dict[str, frozenset[str]]] = {
        seat.id: {one.coffee.id: frozenset() for one in compared} for seat in table.seats
    }
    for one in compared:
        for taster in one.tasters:
            said[taster.seat][one.coffee.id] = taster.concepts
    return taster_fits(said, {one.coffee.id: one.published.concepts for one in compared}, lexicon)


@dataclass(frozen=True, slots=True)
class _Said:
    """(coffee id, seat id) -> answers in words: those in time, and those that came late."""

    in_time: Mapping[tuple[str, str], list[Written]]
    late: Mapping[tuple[str, str], list[Written]]


def _written(
    table: Table,
    notes: Iterable[Note],
    place_coffee: Mapping[str, str],
    lexicon: Lexicon,
    corrections: Mapping[str, Corrections],
) -> dict[tuple[str, str], list[Written]]:
    """(coffee id, seat id) -> answers in words, in the order of the sheet."""
    asked = [(part.id, f.id) for part in table.sheet.passes for f in part.fields if f.kind is Kind.WORDS]
    found: dict[tuple[str, str], list[Written]] = {}
    standing = tuple(answers(notes).values())
    warmth = CupTemperatures(table).at([(note.place, note.tasted_at) for note in standing])
    for note, cup_c in zip(standing, warmth, strict=True):
        # What was written of the whole table is about no coffee of it.
        about = note.place in place_coffee and (note.part, note.field) in asked
        if about and isinstance(note.value, str) and note.value.strip():
            own = corrections.get(note.seat, NO_CORRECTIONS)
            reading = read_note(note.value, lexicon, field=note.part, corrections=own)
            one = Written(note.place, note.part, note.field, note.value, reading, cup_c)
            found.setdefault((place_coffee[note.place], note.seat), []).append(one)
    for several in found.values():
        several.sort(key=lambda one: (table.places.index(one.place), asked.index((one.part, one.field))))
    return found


def _coffee_comparison(
    coffee: Coffee, places: tuple[str, ...], seats: Iterable[Seat], said: _Said, lexicon: Lexicon
) -> CoffeeComparison:
    published = read_note(coffee.published_notes, lexicon)
    wrote = [(seat, said.in_time.get((coffee.id, seat.id), [])) for seat in seats]
    used = Counter(concept for _, several in wrote for concept in _concepts(several))
    others = sum(bool(several) for _, several in wrote) - 1
    tasters = tuple(
        TasterWords(
            seat.id,
            seat.name,
            tuple(several),
            _concepts(several),
            _against_published(several, published, lexicon),
            _against_others(_concepts(several), used, others, lexicon) if several else None,
            tuple(late),
        )
        for seat, several in wrote
        if (late := said.late.get((coffee.id, seat.id), [])) or several
    )
    return CoffeeComparison(coffee, places, published, tasters)


def _concepts(several: Iterable[Written]) -> frozenset[str]:
    return frozenset[str]().union(*(one.reading.concepts for one in several))


def _against_published(several: list[Written], published: Reading, lexicon: Lexicon) -> Matched | None:
    if not several or not published.concepts:
        return None
    return match(_concepts(several), published.concepts, lexicon)


def _against_others(
    mine: frozenset[str], used: Counter[str], others: int, lexicon: Lexicon
) -> Matched | None:
    """`used` counts the tasters a concept was used by, the one compared included."""
    if others < 1:
        return None
    theirs = {concept: count - (concept in mine) for concept, count in used.items()}
    matched = match(mine, {concept for concept, count in theirs.items() if count > 0}, lexicon)
    return replace(matched, missed=type(matched.missed)(c for c in matched.missed if 2 * theirs[c] >= others))
