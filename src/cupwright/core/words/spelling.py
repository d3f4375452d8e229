"""Which words of the lexicon a written word may stand for: as it is, inflected, or mistyped.

Endings are taken off only to find a word the lexicon holds, so a wrong cut finds nothing. A typing error is
mended only within a distance that grows with length, and never in the first letter; words under seven letters
are mended only for letters swapped or doubled, so that "pearl" never becomes "pear".
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from rapidfuzz import process
from rapidfuzz.distance import OSA

EXACT, INFLECTED, DERIVED, ONE_SLIP, TWO_SLIPS = 1.0, 0.95, 0.9, 0.8, 0.6

_SHORTEST_STEM = 3
_SHORTEST_SLIP, _FROM_ONE_CHANGED, _FROM_TWO_CHANGED, _LONGEST = 4, 7, 11, 30
_HISSING = ("s", "x", "z", "ch", "sh", "o")


@dataclass(frozen=True, slots=True)
class Candidate:
    """A word of the lexicon that a written word may stand for, and how surely.

    `alone`: only as a phrase of one word. "with creamy" must not be read as "with cream".
    """

    word: str
    certainty: float
    alone: bool = False


def inflected_from(word: str, known: Collection[str]) -> list[Candidate]:
    """The known words that `word` may be a form of, itself first.

    Number and comparison (berries, juicier) are taken off first; then the endings that make a quality of a
    thing (nutty, lemonish, tealike, saltiness), so that nuttiest is found under nut.
    """
    found: dict[str, Candidate] = {}
    plain = [word, *_without(word, _NUMBER_AND_COMPARISON)]
    for stem in plain:
        if stem in known:
            found[stem] = Candidate(stem, EXACT if stem == word else INFLECTED)
    for stem in (shorter for longer in plain for shorter in _without(longer, _QUALITY)):
        for thing in (stem, *_without(stem, _NUMBER_AND_COMPARISON), *_without(stem, _QUALITY)):
            if thing in known and thing not in found:
                found[thing] = Candidate(thing, DERIVED, alone=True)
    return list(found.values())


def mistyped_from(word: str, known: Mapping[str, Sequence[str]]) -> Candidate | None:
    """The known word that `word` is most likely a slip of; None if there is none.

    `known` holds the candidates by first letter. Distance counts letters put in, left out, changed, and
    neighbours swapped (optimal string alignment).
    """
    if not _SHORTEST_SLIP <= len(word) <= _LONGEST:
        return None
    others = known.get(word[0], ())
    small_slips = [other for other in others if _doubled_or_swapped(word, other)]
    if small_slips:
        return Candidate(min(small_slips, key=lambda other: (OSA.distance(word, other), other)), ONE_SLIP)
    if len(word) < _FROM_ONE_CHANGED:
        return None
    allowed = 1 if len(word) < _FROM_TWO_CHANGED else 2
    near = process.extractOne(word, others, scorer=OSA.distance, score_cutoff=allowed)
    if near is None or len(near[0]) < _FROM_ONE_CHANGED - 1:
        return None
    return Candidate(near[0], ONE_SLIP if near[1] <= 1 else TWO_SLIPS)


# An ending, and what may have stood in its place.
_NUMBER_AND_COMPARISON = (
    ("'s", ("",)),
    ("s'", ("s", "")),
    ("ies", ("y", "ie")),
    ("es", ("",)),
    ("s", ("",)),
    ("ier", ("y",)),
    ("iest", ("y",)),
    ("er", ("", "e")),
    ("est", ("", "e")),
)
_QUALITY = (
    ("iness", ("y",)),
    ("yness", ("y",)),
    ("ness", ("",)),
    ("ish", ("", "e")),
    ("like", ("",)),
    ("ey", ("", "e")),
    ("y", ("", "e")),
)
_DOUBLING = ("er", "est", "y", "ish")


def _without(word: str, endings: Sequence[tuple[str, Sequence[str]]]) -> Iterator[str]:
    for ending, replacements in endings:
        stem = word[: -len(ending)]
        if not word.endswith(ending) or len(stem) < _SHORTEST_STEM or not _may_end(stem, ending):
            continue
        yield from (stem + replacement for replacement in replacements)
        if ending in _DOUBLING and stem[-1] == stem[-2]:
            yield stem[:-1]  # nutty -> nut, thinner -> thin


def _may_end(stem: str, ending: str) -> bool:
    """No plural of "ss" (glass), and "es" only after a hissing sound or o (peaches, tomatoes)."""
    if ending == "es":
        return stem.endswith(_HISSING)
    return not (ending == "s" and stem.endswith("s"))


def _doubled_or_swapped(word: str, other: str) -> bool:
    if other == word or len(other) < _SHORTEST_SLIP:
        return False
    return _undoubled(other) == _undoubled(word) or _swapped(word, other)


def _undoubled(word: str) -> str:
    """The word with each run of a letter written once: sweeeet, swet -> swet."""
    return "".join(letter for index, letter in enumerate(word) if index == 0 or word[index - 1] != letter)


def _swapped(word: str, other: str) -> bool:
    """Whether two neighbouring letters are all that differs."""
    if len(word) != len(other) or sorted(word) != sorted(other):
        return False
    wrong = [index for index, letter in enumerate(word) if letter != other[index]]
    return len(wrong) == 2 and wrong[1] == wrong[0] + 1
