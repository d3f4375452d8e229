"""Kinship of phrases: "quince jelly" names two concepts, each held against those of "poached quince"."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cupwright.core.words.kinship import kin_of
from cupwright.core.words.lexicon import Lexicon

if TYPE_CHECKING:
    from cupwright.core.words.kinship_parts import Floats


@dataclass(frozen=True, slots=True)
class PhraseKin:
    """How near two phrases are, from 0 to 1, and for each of their concepts the nearest of the other phrase.

    `nearest` holds (concept, its nearest, their kinship): first those of the one phrase, then of the other.
    """

    kinship: float
    nearest: tuple[tuple[str, str, float], ...]


def phrase_kinship(one: Sequence[str], other: Sequence[str], lexicon: Lexicon) -> PhraseKin:
    """How near each concept of two phrases comes to its nearest of the other phrase, on average.

    Parameters
    ----------
    one, other : sequences of concept ids, each once, at least one
        What the phrases name.

    Returns
    -------
    PhraseKin
        Kinship in [0, 1], symmetric, 1 only if both name the same; of single concepts their kinship. Both
        phrases count alike, however many concepts each names.

    Raises
    ------
    KeyError
        If a concept is not in the lexicon.

    Notes
    -----
    Error: an ordering, like kinship. A phrase that names more is not held to be less near for it than by the
    share of what it names besides.
    Source: average of best matches [AzuajeWangBodenreider2005], from memory.
    """
    kin = kin_of(lexicon)
    near = kin.kinship[[kin.row[a] for a in one]][:, [kin.row[b] for b in other]]
    across, down = near.argmax(axis=1), near.argmax(axis=0)
    nearest = [
        (a, other[at], float(near[row, at])) for row, (a, at) in enumerate(zip(one, across, strict=True))
    ]
    nearest += [
        (b, one[at], float(near[at, row])) for row, (b, at) in enumerate(zip(other, down, strict=True))
    ]
    return PhraseKin(_mean_of_best(near.max(axis=1), near.max(axis=0)), tuple(nearest))


def nearest_to_phrase(
    phrase: Sequence[str], lexicon: Lexicon, *, count: int = 10
) -> tuple[tuple[str, float], ...]:
    """The concepts nearest to a phrase, nearest first; none that it names, none with kinship 0.

    Raises
    ------
    KeyError
        If a concept is not in the lexicon.
    """
    kin = kin_of(lexicon)
    near = kin.kinship[[kin.row[concept] for concept in phrase]]
    means = (near.mean(axis=0) + near.max(axis=0)) / 2
    others = [(c, float(means[at])) for c, at in kin.row.items() if c not in phrase and means[at] > 0]
    return tuple(sorted(others, key=lambda pair: (-pair[1], pair[0]))[:count])


def _mean_of_best(across: "Floats", down: "Floats") -> float:
    return float(across.mean() + down.mean()) / 2
