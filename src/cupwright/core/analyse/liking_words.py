"""Words that go with liking, or against it."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.holm import holm
from cupwright.core.analyse.penalty_lift import PenaltyLift, penalty_lift
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.core.analyse.word_counts import LEAST_USES, WordUse
from cupwright.errors import Refused

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class LikingWord(Tabular):
    """A word and the lift that goes with it; `adjusted_p` over all words, of the lift within tasters."""

    concept: str
    label: str
    lift: PenaltyLift
    adjusted_p: float

    def rows(self) -> list[Record]:
        """One row a reading of the lift."""
        return [{"concept": self.concept, "adjusted_p": self.adjusted_p, **row} for row in self.lift.rows()]


def words_with_liking(
    use: WordUse, liking: Floats, *, level: float = 0.95, step: float = 0.0
) -> tuple[LikingWord, ...]:
    """Which words go with how much a coffee is liked?

    Parameters
    ----------
    use : WordUse
    liking : float array, shape (n_coffees, n_tasters)
        NaN where there is none.
    level, step : float
        As in `penalty_lift`.

    Returns
    -------
    tuple of LikingWord
        Words with three uses or more for which the lift within tasters can be had; the surest first.

    Notes
    -----
    Source: [Meyners2013]; [Holm1979].
    """
    found: list[tuple[int, PenaltyLift, float]] = []
    for word in np.flatnonzero(use.used.sum(axis=(1, 2)) >= LEAST_USES).tolist():
        checked = np.where(use.wrote, use.used[word], np.nan)
        try:
            lift = penalty_lift(checked, liking, level=level, step=step)
        except Refused:
            # Too little to say anything of this word: it is left out, not called without effect.
            continue
        if lift.p is not None:
            found.append((word, lift, lift.p))
    adjusted = holm([p for _, _, p in found])
    listed = [
        LikingWord(use.concepts[word], use.labels[word], lift, float(p))
        for (word, lift, _), p in zip(found, adjusted, strict=True)
    ]
    return tuple(sorted(listed, key=lambda one: (one.adjusted_p, one.lift.p or 0.0, one.label)))
