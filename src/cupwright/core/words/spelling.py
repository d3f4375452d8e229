"""Which words of the lexicon a written word may stand for: as it is, inflected, or mistyped.

Inflections are tried only against words the lexicon holds, so a wrong cut finds nothing. A typing error
is mended only within a distance that grows with length, and never in the first letter: "pear" never becomes
"pearl", because words under six letters are mended only for letters swapped or doubled.
"""

from collections.abc import Collection, Iterator

from rapidfuzz import process
from rapidfuzz.distance import OSA

EXACT, INFLECTED, ONE_SLIP, TWO_SLIPS = 1.0, 0.95, 0.8, 0.6

_SHORTEST_STEM = 3
_SHORTEST_SLIP, _LONG_ENOUGH_FOR_ONE, _LONG_ENOUGH_FOR_TWO, _LONGEST = 4, 6, 9, 30
_DEPTH = 2


def inflected_from(word: str, known: Collection[str]) -> list[str]:
    """The known words that `word` may be a form of, itself first.

    Endings: plural, -y, -ish, -like, -ness, -er, -est, -ly. Two may be stacked: nuttiest -> nutty -> nut.
    """
    found: dict[str, None] = {}
    layer = [word]
    for _ in range(_DEPTH + 1):
        found.update(dict.fromkeys(stem for stem in layer if stem in known))
        layer = [shorter for stem in layer for shorter in _without_ending(stem)]
    return list(found)


def mistyped_from(word: str, known: dict[str, list[str]]) -> tuple[str, float] | None:
    """The known word that `word` is most likely a slip of, with how sure that is; None if there is none.

    `known` holds the candidates by first letter. Distance counts letters put in, left out, changed, and
    neighbours swapped (optimal string alignment).
    """
    if not _SHORTEST_SLIP <= len(word) <= _LONGEST:
        return None
    plain = _undoubled(word)
    for other in known.get(word[0], ()):
        if (
            other != word
            and len(other) >= _SHORTEST_SLIP
            and (_undoubled(other) == plain or _swapped(word, other))
        ):
            return other, ONE_SLIP
    if len(word) < _LONG_ENOUGH_FOR_ONE:
        return None
    allowed = 1 if len(word) < _LONG_ENOUGH_FOR_TWO else 2
    near = process.extractOne(word, known.get(word[0], ()), scorer=OSA.distance, score_cutoff=allowed)
    if near is None or len(near[0]) < _LONG_ENOUGH_FOR_ONE - 1:
        return None
    return near[0], ONE_SLIP if near[1] <= 1 else TWO_SLIPS


def _without_ending(word: str) -> Iterator[str]:
    for ending, replacements in _ENDINGS:
        if word.endswith(ending):
            stem = word[: -len(ending)]
            if len(stem) >= _SHORTEST_STEM:
                yield from (stem + replacement for replacement in replacements)
                if ending[0] in "aeiouy" and stem[-1] == stem[-2]:
                    yield stem[:-1]  # nutty -> nut, thinner -> thin


# An ending and what may have stood in its place. "ss" is no plural.
_ENDINGS = (
    ("'s", ("",)),
    ("s'", ("",)),
    ("ies", ("y", "ie")),
    ("es", ("",)),
    ("s", ("",)),
    ("ily", ("y",)),
    ("ly", ("", "le")),
    ("iness", ("y",)),
    ("ness", ("",)),
    ("ier", ("y",)),
    ("iest", ("y",)),
    ("er", ("", "e")),
    ("est", ("", "e")),
    ("ish", ("", "e")),
    ("like", ("",)),
    ("ey", ("", "e")),
    ("y", ("", "e")),
)


def _undoubled(word: str) -> str:
    """The word with each run of a letter written once: sweeeet, swet -> swet."""
    return "".join(letter for index, letter in enumerate(word) if index == 0 or word[index - 1] != letter)


def _swapped(word: str, other: str) -> bool:
    """Whether two neighbouring letters are all that differs."""
    if len(word) != len(other):
        return False
    wrong = [index for index, letter in enumerate(word) if letter != other[index]]
    return (
        len(wrong) == 2
        and wrong[1] == wrong[0] + 1
        and word[wrong[0]] == other[wrong[1]]
        and word[wrong[1]] == other[wrong[0]]
    )
