"""Word differences: for which words do the coffees differ, and between which two of them?"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cupwright.core.analyse.cochran import CochranQ, cochran_q
from cupwright.core.analyse.holm import holm
from cupwright.core.analyse.mcnemar import uneven_split
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.core.analyse.word_counts import LEAST_USES, WordUse
from cupwright.core.analyse.words_hold import use_of
from cupwright.errors import NoSpread, TooFewObservations

Bools = NDArray[np.bool_]

# Of more cells the large-sample value is as good, and shuffling every word takes long.
MOST_EXACT_CELLS = 400
RESAMPLES = 2000


@dataclass(frozen=True, slots=True)
class WordPair(Tabular):
    """Tasters who used a word for one of two coffees (rows `a`, `b`) only; `adjusted_p` over the word's
    pairs."""

    a: int
    b: int
    only_a: int
    only_b: int
    p: float
    adjusted_p: float


@dataclass(frozen=True, slots=True)
class WordDifference(Tabular):
    """Cochran's Q of one word, its p adjusted over all words, and all pairs of coffees."""

    concept: str
    label: str
    q: CochranQ
    adjusted_p: float
    pairs: tuple[WordPair, ...]

    def rows(self) -> list[Record]:
        """One row a pair."""
        return [{"concept": self.concept, **row} for pair in self.pairs for row in pair.rows()]


def word_differences(
    use: WordUse | ArrayLike, *, rng: np.random.Generator | None = None
) -> tuple[WordDifference, ...]:
    """Which words tell the coffees apart, by the tasters who wrote about all of them?

    Parameters
    ----------
    use : WordUse, or 0/1 array of shape (n_tasters, n_coffees, n_concepts)
    rng : numpy Generator
        None: a fixed seed.

    Returns
    -------
    tuple of WordDifference
        Words with three uses or more that some of these tasters used for some coffees only; the surest first.

    Raises
    ------
    TooFewObservations
        If fewer than two tasters wrote about all coffees, or there are fewer than two.

    Notes
    -----
    Error: `adjusted_p` keeps its promise over all words, the pairs' over the pairs of one word: read the
    pairs of a word whose own `adjusted_p` is small.
    Source: [Cochran1950]; [McNemar1947]; [Holm1979].
    """
    use = use if isinstance(use, WordUse) else use_of(use)
    coffees, used = _complete(use)
    found = [
        (word, q)
        for word in np.flatnonzero(used.sum(axis=(1, 2)) >= LEAST_USES).tolist()
        if (q := _q(used[word], rng)) is not None
    ]
    adjusted = holm([q.p for _, q in found])
    listed = [
        WordDifference(use.concepts[word], use.labels[word], q, float(p), _pairs(coffees, used[word]))
        for (word, q), p in zip(found, adjusted, strict=True)
    ]
    return tuple(sorted(listed, key=lambda one: (one.adjusted_p, one.q.p, one.label)))


def _complete(use: WordUse) -> tuple[list[int], Bools]:
    coffees = np.flatnonzero(use.wrote.any(axis=1))
    tasters = np.flatnonzero(use.wrote[coffees].all(axis=0))
    if len(coffees) < 2 or len(tasters) < 2:
        raise TooFewObservations(
            "Fewer than two tasters wrote about all coffees.", todo="Read who used which word instead."
        )
    return coffees.tolist(), use.used[:, coffees][:, :, tasters]


def _q(used: Bools, rng: np.random.Generator | None) -> CochranQ | None:
    try:
        return cochran_q(used, resamples=RESAMPLES if used.size <= MOST_EXACT_CELLS else 0, rng=rng)
    except NoSpread:
        return None


def _pairs(coffees: list[int], used: Bools) -> tuple[WordPair, ...]:
    yes = used.astype(np.int64)
    only = yes @ (1 - yes).T
    first, second = np.triu_indices(len(coffees), 1)
    only_a, only_b = only[first, second], only[second, first]
    p = uneven_split(only_a, only_b)
    columns = (first, second, only_a, only_b, p, holm(p))
    return tuple(
        WordPair(coffees[i], coffees[j], int(a), int(b), float(alone), float(adjusted))
        for i, j, a, b, alone, adjusted in zip(*columns, strict=True)
    )
