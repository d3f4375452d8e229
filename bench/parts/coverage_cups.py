"""Cups: how often alike bowls are called unlike, p at most .05, for an exact test at most 1 in 20."""

from collections.abc import Callable, Iterator

import numpy as np
from parts.covered import Covered, counted

from cupwright.core.analyse.one_cup_off import one_cup_off

_NULL, _FOUND = (0.0, 0.06), (0.0, 1.0)


def covered(panels: int) -> Iterator[Covered]:
    """Scores and marks of bowls that are all alike; and how often a bowl two spreads lower is found."""
    for tasters, bowls in ((2, 3), (2, 5), (3, 5), (4, 4), (6, 5), (10, 5)):
        size = f"{bowls} bowls x{tasters}"
        yield counted(
            "scores of alike bowls, p <= .05", size, panels, _scores(tasters, bowls, 0.0), goal=_NULL
        )
        yield counted("marks of alike bowls, p <= .05", size, panels, _marks(tasters, bowls), goal=_NULL)
        yield counted("a bowl 2 SD lower, p <= .05", size, panels, _scores(tasters, bowls, 2.0), goal=_FOUND)


def _scores(tasters: int, bowls: int, lower: float) -> Callable[[np.random.Generator], bool]:
    def one(rng: np.random.Generator) -> bool:
        table = 80 + rng.normal(0, 1, (tasters, 1)) + rng.normal(0, 1, (tasters, bowls))
        table[:, 0] -= lower
        return one_cup_off(table, rng=rng).p <= 0.05

    return one


def _marks(tasters: int, bowls: int) -> Callable[[np.random.Generator], bool]:
    return lambda rng: one_cup_off((rng.random((tasters, bowls)) < 0.25).astype(float), rng=rng).p <= 0.05
