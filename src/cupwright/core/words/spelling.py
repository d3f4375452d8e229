"""Which words of the lexicon a written word may stand for: as it is, inflected, or mistyped.

Endings are taken off only to find a word the lexicon holds, so a wrong cut finds nothing. A typing error is
mended only within a distance that grows with length, and never in the first letter; words under seven letters
are mended only for letters swapped or doubled, so that "pearl" never becomes "pear".
"""

from collections import defaultdict
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from rapidfuzz import process
from rapidfuzz.distance import OSA

from cupwright.core.words.lexicon import Endings

EXACT, INFLECTED, DERIVED, ONE_SLIP, TWO_SLIPS = 1.0, 0.95, 0.9, 0.8, 0.6

_SHORTEST_STEM = 3
_SHORTEST_SLIP, _FROM_ONE_CHANGED, _FROM_TWO_CHANGED, _LONGEST = 4, 7, 11, 30

Replaced = Sequence[tuple[str, Sequence[str]]]


@dataclass(frozen=True, slots=True)
class Candidate:
    """A word of the lexicon that a written word may stand for, and how surely.

    `alone`: only as a phrase of one word. "with creamy" must not be read as "with cream". `compares`: the
    ending that compares (er, est), if one was taken off.
    """

    word: str
    certainty: float
    alone: bool = False
    compares: str = ""


def inflected_from(word: str, known: Collection[str], endings: Endings) -> list[Candidate]:
    """The known words that `word` may be a form of, itself first.

    Number and comparison (berries, juicier) are taken off first; then the endings that make a quality of a
    thing (nutty, lemonish, tealike, saltiness), so that nuttiest is found under nut.
    """
    found: dict[str, Candidate] = {}
    plain = [(word, ""), *_without(word, endings.number, endings)]
    for stem, ending in plain:
        if stem in known and stem not in found:
            compares = ending if ending in endings.comparing else ""
            found[stem] = Candidate(stem, EXACT if stem == word else INFLECTED, compares=compares)
    for longer, ending in plain:
        compares = ending if ending in endings.comparing else ""
        for stem, _ in _without(longer, endings.quality, endings):
            for thing in _things(stem, endings):
                if thing in known and thing not in found:
                    found[thing] = Candidate(thing, DERIVED, alone=True, compares=compares)
    return list(found.values())


def _things(stem: str, endings: Endings) -> Iterator[str]:
    """What a quality may have been made of: its stem, or that without one more ending."""
    yield stem
    for more in (endings.number, endings.quality):
        yield from (shorter for shorter, _ in _without(stem, more, endings))


class Mender:
    """Finds the word that a mistyped one was meant to be.

    Distance counts letters put in, left out, changed, and neighbours swapped (optimal string alignment).
    """

    def __init__(self, words: Collection[str]) -> None:
        self._by_first_letter: dict[str, list[str]] = defaultdict(list)
        self._by_small_slip: dict[str, list[str]] = defaultdict(list)
        for word in sorted(words):
            self._by_first_letter[word[:1]].append(word)
            for key in _small_slips(word):
                self._by_small_slip[key].append(word)

    def meant(self, word: str) -> Candidate | None:
        """The word that `word` is most likely a slip of, or None. Only words of a to z are mended."""
        if not _SHORTEST_SLIP <= len(word) <= _LONGEST or not (word.isascii() and word.isalpha()):
            return None
        slips = {other for key in _small_slips(word) for other in self._by_small_slip.get(key, ())} - {word}
        if slips:
            return Candidate(min(slips, key=lambda other: (OSA.distance(word, other), other)), ONE_SLIP)
        if len(word) < _FROM_ONE_CHANGED:
            return None
        allowed = 1 if len(word) < _FROM_TWO_CHANGED else 2
        others = self._by_first_letter.get(word[0], ())
        near = process.extractOne(word, others, scorer=OSA.distance, score_cutoff=allowed)
        if near is None or len(near[0]) < _FROM_ONE_CHANGED - 1:
            return None
        return Candidate(near[0], ONE_SLIP if near[1] <= 1 else TWO_SLIPS)


def _small_slips(word: str) -> Iterator[str]:
    """Keys that two words share if they differ only in doubled letters or in two swapped neighbours."""
    if len(word) < _SHORTEST_SLIP:
        return
    yield "doubled " + "".join(letter for letter, _ in groupby(word))
    for at in range(1, len(word) - 1):
        pair = "".join(sorted(word[at : at + 2]))
        yield f"swapped {word[:at]}{pair}{word[at + 2 :]} {at}"


def _without(word: str, replaced: Replaced, endings: Endings) -> Iterator[tuple[str, str]]:
    """What may have stood before an ending was put on, with the ending."""
    for ending, replacements in replaced:
        stem = word[: -len(ending)]
        if not word.endswith(ending) or len(stem) < _SHORTEST_STEM or not _may_end(stem, ending, endings):
            continue
        for replacement in replacements:
            yield stem + replacement, ending
        if ending in endings.doubling and stem[-1] == stem[-2]:
            yield stem[:-1], ending  # nutty -> nut, thinner -> thin


def _may_end(stem: str, ending: str, endings: Endings) -> bool:
    """No plural of "ss" (glass), and "es" only after a hissing sound or o (peaches, tomatoes)."""
    if ending == "es" and endings.hissing:
        return stem.endswith(endings.hissing)
    return not (ending == "s" and stem.endswith("s"))
