"""Words: own words and corrections, and the lexicon by which everything here is read."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from cupwright.core.flow import Step
from cupwright.core.plan.names import folded
from cupwright.core.plan.table import Table
from cupwright.core.reveal.diary import KEY_OPENED
from cupwright.core.taste.correction import Correction, checked_correction, standing_corrections
from cupwright.core.taste.joining import Seated
from cupwright.core.words.corrections import Corrections, corrections
from cupwright.core.words.extending import SetAside, extended, fitting
from cupwright.core.words.lexicon import Lexicon, load_lexicon
from cupwright.core.words.own_words import (
    MOST_OWN_WORDS,
    Addition,
    OwnConcept,
    own_words_file,
    parse_own_words,
)
from cupwright.errors import Clash, NotFound, TooLarge
from cupwright.steps.ports import KeptWord, Tools, Work

if TYPE_CHECKING:
    from cupwright.core.words.map_of_words import WordMap

MOST_CORRECTIONS_AT_ONCE = 1000
KIN_ON_A_MAP = 24


@dataclass(frozen=True, slots=True)
class OwnWordView:
    """An own word as it is kept. `why_not` says why it is not read by; "" if it is."""

    kept: KeptWord
    why_not: str


@dataclass(frozen=True, slots=True)
class ImportedWords:
    """What came of a file of own words: what is new, and how many were here already."""

    added: tuple[KeptWord, ...]
    known: int


@dataclass(frozen=True, slots=True)
class SeatWords:
    """What a taster's device reads with, beside the lexicon."""

    own: tuple[Addition, ...]
    corrections: tuple[Correction, ...]


def lexicon(tools: Tools) -> Lexicon:
    """The lexicon with this installation's own words."""
    with tools.store.reading() as work:
        return lexicon_of(work)


def lexicon_of(work: Work) -> Lexicon:
    """The same inside a transaction."""
    return _fitted(_additions(work))[0]


def map_of_words(tools: Tools, around: str = "") -> tuple[Lexicon, "WordMap"]:
    """The map of all words or, small and truer, of one word and its nearest kin. Raises NotFound."""
    words = lexicon(tools)
    if around and around not in words:
        raise NotFound(f"The lexicon has no concept '{around}'.", todo="Look it up by name.")
    return words, _mapped(words, around)


def list_own_words(tools: Tools) -> tuple[OwnWordView, ...]:
    """Every own word in the order in which they came; those that no longer fit say why."""
    with tools.store.reading() as work:
        kept = work.own_words.all()
    why = {one.addition: one.why for one in _fitted(tuple(word.addition for word in kept))[1]}
    return tuple(OwnWordView(word, why.get(word.addition, "")) for word in kept)


def add_own_word(tools: Tools, addition: Addition) -> KeptWord:
    """Add a concept or a form. Raises Clash if it is owned, Refused if what it hangs under is missing."""
    with tools.store.work() as work:
        (kept,) = _added(tools, work, [addition])
    return kept


def remove_own_word(tools: Tools, word_id: str) -> None:
    """Forget an own word. Raises NotFound, or Clash while another own word needs it."""
    with tools.store.work() as work:
        before = work.own_words.all()
        after = tuple(word.addition for word in before if word.id != word_id)
        work.own_words.remove(word_id)
        broken = {one.addition for one in _fitted(after)[1]}
        broken -= {one.addition for one in _fitted(tuple(word.addition for word in before))[1]}
        for one in after:
            if one in broken:
                raise _needed_by(one)


def export_own_words(tools: Tools) -> str:
    """The text of a file with all own words."""
    with tools.store.reading() as work:
        return own_words_file(_additions(work))


def import_own_words(tools: Tools, text: str, file: str) -> ImportedWords:
    """Add a file's own words, all of them or none; those that are here already are passed over."""
    read = parse_own_words(text, file=file)
    with tools.store.work() as work:
        here = set(_additions(work))
        new = [one for one in dict.fromkeys(read) if one not in here]
        return ImportedWords(_added(tools, work, new), len(read) - len(new))


def write_corrections(tools: Tools, seated: Seated, said: Sequence[Correction]) -> tuple[str, ...]:
    """Keep what the taster of a seat says that words mean, all or none; the ids that are safe."""
    if len(said) > MOST_CORRECTIONS_AT_ONCE:
        raise TooLarge(
            f"{len(said)} corrections came at once.", todo=f"Send {MOST_CORRECTIONS_AT_ONCE} at most."
        )
    taster = folded(seated.seat.name)
    checked = [checked_correction(replace(one, taster=taster)) for one in said]
    with tools.store.work() as work:
        return work.corrections.add(checked, tools.now())


def words_of_seat(tools: Tools, seated: Seated) -> SeatWords:
    """What the device of a seat needs to read its taster's notes by itself."""
    with tools.store.reading() as work:
        aside = {one.addition for one in _fitted(_additions(work))[1]}
        own = tuple(one for one in _additions(work) if one not in aside)
        return SeatWords(own, work.corrections.of([folded(seated.seat.name)]))


def words_of_taster(tools: Tools, name: str) -> tuple[Lexicon, Corrections]:
    """The lexicon of this installation, and what a taster of that name has said that words mean.

    Raises
    ------
    NotFound
        If no table here has had a taster of that name.
    """
    with tools.store.reading() as work:
        words = lexicon_of(work)
        said = work.corrections.of([folded(name)])
        if not said and not _has_sat(work, name):
            raise NotFound(f"No taster here is called '{name}'.", todo="Look at the names on the tables.")
        return words, corrections(standing_corrections(said), words)


def _has_sat(work: Work, name: str) -> bool:
    return any(folded(seat.name) == folded(name) for table in work.tables.all() for seat in table.seats)


def corrections_at(work: Work, table: Table) -> dict[str, Corrections]:
    """Seat id -> what that taster's words mean at a table, for those who said so.

    Once the key is open, later corrections count from the next table on: knowing what stood where, it is too
    easy to mean something else.
    """
    opened = [event.at for event in work.events.of(table.id) if event.kind == KEY_OPENED]
    until = opened[0] if opened and table.step is Step.REVEAL else None
    said: dict[str, list[Correction]] = {}
    for one in work.corrections.of((folded(seat.name) for seat in table.seats), until=until):
        said.setdefault(one.taster, []).append(one)
    words = lexicon_of(work)
    held = {
        seat.id: corrections(standing_corrections(said.get(folded(seat.name), ())), words)
        for seat in table.seats
    }
    return {seat_id: own for seat_id, own in held.items() if own}


def _additions(work: Work) -> tuple[Addition, ...]:
    return tuple(word.addition for word in work.own_words.all())


@lru_cache(maxsize=64)
def _mapped(words: Lexicon, around: str) -> "WordMap":
    """Kept: whoever looks around comes back."""
    if not around:
        from cupwright.core.words.ready_map import ready_map

        return ready_map(words)
    from cupwright.core.words.kinship import nearest_kin
    from cupwright.core.words.map_of_words import word_map

    return word_map(words, [around, *(kin for kin, _ in nearest_kin(around, words, count=KIN_ON_A_MAP))])


@lru_cache(maxsize=4)
def _fitted(additions: tuple[Addition, ...]) -> tuple[Lexicon, tuple[SetAside, ...]]:
    """Kept by content: compiling a lexicon's index takes longer than reading a table's notes."""
    return fitting(load_lexicon(), additions) if additions else (load_lexicon(), ())


def _added(tools: Tools, work: Work, additions: Sequence[Addition]) -> tuple[KeptWord, ...]:
    here = _additions(work)
    if len(here) + len(additions) > MOST_OWN_WORDS:
        raise TooLarge(
            f"There would be {len(here) + len(additions)} own words.", todo=f"Keep {MOST_OWN_WORDS} at most."
        )
    extended(_fitted(here)[0], additions)
    kept = tuple(KeptWord(tools.new_id(), one, tools.now()) for one in additions)
    work.own_words.add(kept)
    return kept


def _needed_by(addition: Addition) -> Clash:
    if isinstance(addition, OwnConcept):
        return Clash(f"The own word '{addition.label}' hangs under this one.", todo="Remove that one first.")
    return Clash(
        f"'{addition.form}' was added as a way to write this one.", todo="Remove that own word first."
    )
