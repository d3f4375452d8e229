"""Mean squares of a balanced table of coffees x tasters x repeats, and the variances they hold.

Letters: C coffees, T tasters, r repeats. Expected mean squares [Searle1992, chapter 4]:
coffee r T s_c + r s_ct + s_e, taster r C s_t + r s_ct + s_e, coffee x taster r s_ct + s_e, residual s_e.
"""

from dataclasses import dataclass
from itertools import combinations
from math import log, pi

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

PARTS = ("coffee", "taster", "coffee_taster", "residual")


@dataclass(frozen=True, slots=True)
class CrossedSquares:
    """Mean squares and degrees of freedom in the order of PARTS; the last has 0 without repeats.

    Without repeats `coffee_taster` is what is left, and holds the residual too.
    """

    coffees: int
    tasters: int
    repeats: int
    mean: float
    squares: tuple[float, float, float, float]
    freedom: tuple[int, int, int, int]

    @property
    def names(self) -> tuple[str, ...]:
        """The parts there are."""
        return PARTS if self.repeats > 1 else ("coffee", "taster", "residual")


@dataclass(frozen=True, slots=True)
class Expected:
    """Expected mean squares in the order of PARTS, and the parts whose variance is 0."""

    squares: tuple[float, float, float, float]
    freedom: tuple[int, int, int, int]  # of the pool that each belongs to
    truncated: tuple[str, ...]


def crossed_squares(cells: Floats) -> CrossedSquares:
    """The mean squares of a full table, shape (n_coffees, n_tasters, n_repeats).

    What is nothing but rounding of the last binary digits is returned as 0.
    """
    coffees, tasters, repeats = cells.shape
    # About one score, so that a common level of 1e9 leaves no trace in the squares.
    first = float(cells[0, 0, 0])
    about = cells - first
    means = about.mean(axis=2)
    rows, columns = means.mean(axis=1), means.mean(axis=0)
    grand = float(rows.mean())
    rows, columns = rows - grand, columns - grand
    crossed = (means - grand - rows[:, None] - columns).ravel()
    within = (about - means[:, :, None]).ravel()
    sums = (
        repeats * tasters * float(rows @ rows),
        repeats * coffees * float(columns @ columns),
        repeats * float(crossed @ crossed),
        float(within @ within),
    )
    freedom = (coffees - 1, tasters - 1, (coffees - 1) * (tasters - 1), coffees * tasters * (repeats - 1))
    largest = max(abs(float(cells.max())), abs(float(cells.min())))
    nothing = cells.size * (8 * np.finfo(float).eps * largest) ** 2
    c, t, ct, e = (
        part / max(free, 1) if part > nothing else 0.0 for part, free in zip(sums, freedom, strict=True)
    )
    return CrossedSquares(coffees, tasters, repeats, first + grand, (c, t, ct, e), freedom)


def expected(found: CrossedSquares) -> Expected:
    """The expected mean squares that are most likely: those found, if no variance is negative by them.

    Otherwise the restricted likelihood has its top where some variances are 0; there their mean squares
    share one expectation, and the pool's mean (weighted by freedom) is the estimate.
    Source: order-restricted gamma means, [Thompson1962].
    """
    c, t, ct, e = found.squares
    if ct <= c and ct <= t and (found.repeats == 1 or e <= ct):
        return Expected(found.squares, found.freedom, ())
    repeated = found.repeats > 1
    tops: list[tuple[float, Expected]] = []
    names = PARTS[:3] if repeated else PARTS[:2]
    for count in range(1, len(names) + 1):
        for zeros in combinations(names, count):
            pooled = _pooled(found, zeros)
            c, t, ct, e = pooled.squares
            if min(c, t) >= ct * (1 - 1e-14) and (not repeated or ct >= e * (1 - 1e-14)):
                tops.append((_deviance(found, pooled.squares), pooled))
    return min(tops, key=lambda top: top[0])[1]


def log_likelihood(found: CrossedSquares, at: Expected) -> float:
    """The restricted log-likelihood, constant included; infinite where a part is explained without rest."""
    n = found.coffees * found.tasters * found.repeats
    return -0.5 * ((n - 1) * log(2 * pi) + log(n) + _deviance(found, at.squares))


def _deviance(found: CrossedSquares, at: tuple[float, ...]) -> float:
    total = 0.0
    for free, square, one in zip(found.freedom, found.squares, at, strict=True):
        if free:
            total += free * (log(one) + square / one) if one > 0 else -np.inf
    return total


def _pooled(found: CrossedSquares, zeros: tuple[str, ...]) -> Expected:
    """Mean squares with each zero variance's one thrown together with the next below it in the hierarchy."""
    below = {"coffee": "coffee_taster", "taster": "coffee_taster", "coffee_taster": "residual"}
    root = {part: part for part in PARTS}
    for part in ("coffee_taster", "coffee", "taster"):
        if part in zeros:
            root[part] = root[below[part]]
    squares, freedoms = [], []
    for part in PARTS:
        pool = [at for at, other in enumerate(PARTS) if root[other] == root[part]]
        freedom = sum(found.freedom[at] for at in pool)
        total = sum(found.freedom[at] * found.squares[at] for at in pool)
        squares.append(total / max(freedom, 1))
        freedoms.append(freedom)
    c, t, ct, e = squares
    fc, ft, fct, fe = freedoms
    return Expected((c, t, ct, e), (fc, ft, fct, fe), zeros)
