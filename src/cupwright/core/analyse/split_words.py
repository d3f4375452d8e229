"""Split words: words that some tasters use for nearly every coffee and others hardly ever."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cupwright.core.analyse.cochran import cochran_q
from cupwright.core.analyse.holm import holm
from cupwright.core.analyse.level import checked_level
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.core.analyse.word_counts import LEAST_USES, WordUse
from cupwright.core.analyse.word_differences import MOST_EXACT_CELLS, RESAMPLES
from cupwright.core.analyse.words_hold import use_of
from cupwright.errors import NoSpread

Bools = NDArray[np.bool_]

# Used by about half of the tasters: no fewer than a quarter, no more than three. Our rule, no source.
HALF = (0.25, 0.75)


@dataclass(frozen=True, slots=True)
class SplitWord(Tabular):
    """A word with its `users` (columns of the tasters who use it for half of their coffees or more).

    `alike` is how much likelier two of one taster's coffees are to be answered alike than two tasters' (0: no
    more; 1: always); `p` the chance of so uneven a use without habits, `adjusted_p` over all words.
    """

    concept: str
    label: str
    users: tuple[int, ...]
    tasters: int
    alike: float
    p: float
    adjusted_p: float

    def rows(self) -> list[Record]:
        """One row, the users counted."""
        return [
            {
                "concept": self.concept,
                "label": self.label,
                "users": len(self.users),
                "tasters": self.tasters,
                "alike": self.alike,
                "p": self.p,
                "adjusted_p": self.adjusted_p,
            }
        ]


def split_words(
    use: WordUse | ArrayLike, *, level: float = 0.95, rng: np.random.Generator | None = None
) -> tuple[SplitWord, ...]:
    """Which words split the panel: about half of the tasters use them, whatever the coffee, and half do not?

    Parameters
    ----------
    use : WordUse, or 0/1 array of shape (n_tasters, n_coffees, n_concepts)
    level : float in (0, 1)
        If no taster has habits, any word is listed with chance 1 - level at most.
    rng : numpy Generator
        None: a fixed seed.

    Returns
    -------
    tuple of SplitWord
        Those used by about half, unevenly beyond chance over all words; empty with fewer than three tasters
        or two coffees. The surest first.

    Raises
    ------
    Refused
        If the level is not between 0 and 1.

    Notes
    -----
    Cochran's Q with tasters and coffees exchanged: without habits, the uses of a word for a coffee fall on
    any of the tasters equally often. `alike` is the intraclass correlation of the uses, (B - W)/(B + (k - 1)
    W), B and W the mean squares between and within tasters, k coffees.
    Error: only tasters who wrote about every coffee count. A split may be of words as well as of palates.
    Source: [Cochran1950]; [Fleiss2003] for the correlation of yes and no; [Holm1979].
    """
    use, level = use if isinstance(use, WordUse) else use_of(use), checked_level(level)
    coffees = np.flatnonzero(use.wrote.any(axis=1))
    tasters = np.flatnonzero(use.wrote[coffees].all(axis=0)) if len(coffees) else np.empty(0, dtype=int)
    if len(tasters) < 3 or len(coffees) < 2:
        return ()
    used = use.used[:, coffees][:, :, tasters]
    tried = [
        (word, p)
        for word in np.flatnonzero(used.sum(axis=(1, 2)) >= LEAST_USES).tolist()
        if (p := _p(used[word], rng)) is not None
    ]
    adjusted = holm([p for _, p in tried])
    found = [
        SplitWord(
            use.concepts[word],
            use.labels[word],
            tuple(tasters[users].tolist()),
            len(tasters),
            _alike(used[word]),
            p,
            float(over_all),
        )
        for (word, p), over_all in zip(tried, adjusted, strict=True)
        if over_all <= 1 - level and _about_half(users := _users(used[word]))
    ]
    return tuple(sorted(found, key=lambda one: (one.adjusted_p, one.p, one.label)))


def _p(used: Bools, rng: np.random.Generator | None) -> float | None:
    try:
        return cochran_q(used.T, resamples=RESAMPLES if used.size <= MOST_EXACT_CELLS else 0, rng=rng).p
    except NoSpread:
        return None


def _users(used: Bools) -> Bools:
    return np.asarray(2 * used.sum(axis=0) >= len(used))


def _about_half(users: Bools) -> bool:
    return bool(HALF[0] <= users.mean() <= HALF[1])


def _alike(used: Bools) -> float:
    k, n = used.shape
    shares = used.mean(axis=0)
    between = k * ((shares - shares.mean()) ** 2).sum() / (n - 1)
    within = k * (shares * (1 - shares)).sum() / (n * (k - 1))
    return float((between - within) / (between + (k - 1) * within))
