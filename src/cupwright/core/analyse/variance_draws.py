"""Variance draws: which expected mean squares the scores leave possible, and how likely each.

Each mean square over its expectation is chi-squared over its freedom; expectations cannot be lower than the
residual's (a variance is not negative). Drawn so, intervals of coffees keep what they promise with three
coffees too, where variances taken as known would make them far too short. [BoxTiao1973, chapter 5].

The prior of the expectations is a product of powers, OFFSETS / 2 - 1, chosen so that simulated intervals
cover 93 to 97 times in 100 from 3 coffees and 3 tasters on: for coffees it is flat in the standard deviation.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import gammainc, gammaincc, gammaincinv

from cupwright.core.analyse.cell_sums import CellSums
from cupwright.core.analyse.crossed_squares import CrossedSquares
from cupwright.core.analyse.scores import Floats

OFFSETS = (1.0, -1.25, 1.5, 0.0)  # coffee, taster, coffee x taster, residual
# The residual under it already keeps the coffee x taster part up.
CROSSED_WITH_REPEATS = 0.5
_GRID = 600
_LEAST = 1e-300


@dataclass(frozen=True, slots=True)
class Sums:
    """Sums of squares and freedoms of coffee, taster, coffee x taster, residual; freedom 0: no such part."""

    squares: Floats
    freedom: Floats

    @property
    def shifted(self) -> Floats:
        """The freedoms that prior and scores make together."""
        coffee, taster, crossed, residual = OFFSETS
        if self.freedom[3]:
            crossed = CROSSED_WITH_REPEATS
        return self.freedom - np.minimum((coffee, taster, crossed, residual), self.freedom / 2)


def sums_of(found: CrossedSquares, hidden: float) -> Sums:
    """The sums of a balanced table, with no less than `hidden` (points squared) of noise a score."""
    freedom = np.array(found.freedom, dtype=float)
    squares = np.array(found.squares)
    least = np.array([1e-9, 1e-9, 1.0, 1.0 if found.repeats > 1 else 0.0])
    noise = max(hidden, 1e-12 * float(squares.max()))
    return Sums(np.maximum(squares, least * noise) * freedom, freedom)


def draw_expected(sums: Sums, count: int, rng: np.random.Generator, *, residual: bool = True) -> Floats:
    """Expected mean squares, shape (4, count); a part that there is not has that of the part below it.

    Without `residual` its own are not drawn (they stand for the coffee x taster part's), which saves time.
    """
    freedom, squares, shifted = sums.freedom, sums.squares, sums.shifted
    root = 2 if freedom[2] else 3
    below = root == 2 and freedom[3] > 0
    found = np.empty((4, count))
    found[root] = _draw_root(sums, root, below, rng.random(count))
    for part in (0, 1):
        found[part] = found[root]
        if freedom[part]:
            found[part] = _above(squares[part], shifted[part], found[root], rng.random(count))
    if root == 3:
        found[2] = found[3]
    elif below and residual:
        found[3] = _beneath(squares[3], shifted[3], found[root], rng.random(count))
    else:
        found[3] = found[2]
    return found


def log_kernel(sums: Sums, expected: Floats) -> Floats:
    """Log density of such draws, shape (count,), without its constant and without the prior."""
    there = sums.freedom > 0
    at, free, squares = expected[there], sums.freedom[there], sums.squares[there]
    return np.asarray(-0.5 * (free @ np.log(at) + squares @ (1 / at)))


def variances_from(expected: Floats, cells: CellSums) -> Floats:
    """Variances, shape (count, 4), that have these expected mean squares, on the average of uneven cells."""
    repeats, tasters, coffees = typical(cells)
    c, t, ct, e = expected
    return np.stack(
        [(c - ct) / (repeats * tasters), (t - ct) / (repeats * coffees), (ct - e) / repeats, e], axis=1
    )


def expected_from(variances: Floats, cells: CellSums) -> Floats:
    """Expected mean squares (4,) at these variances."""
    repeats, tasters, coffees = typical(cells)
    crossed = repeats * variances[2] + variances[3]
    return np.array(
        [
            repeats * tasters * variances[0] + crossed,
            repeats * coffees * variances[1] + crossed,
            crossed,
            variances[3],
        ]
    )


def typical(cells: CellSums) -> tuple[float, float, float]:
    """Repeats a cell (harmonic mean), tasters a coffee, coffees a taster."""
    coffees, tasters = cells.counts.shape
    filled = cells.counts[cells.counts > 0]
    return len(filled) / float(np.sum(1 / filled)), len(filled) / coffees, len(filled) / tasters


def _draw_root(sums: Sums, root: int, below: bool, chance: Floats) -> Floats:
    """The expectation under which coffees and tasters lie, by its distribution on a logarithmic grid."""
    free, squares, shifted = sums.freedom, sums.squares, sums.shifted
    sizes = squares[free > 0] / free[free > 0]
    low, high = np.log(squares[root] / free[root]) - 8, np.log(sizes.max()) + 9
    grid = np.linspace(min(low, np.log(sizes[sizes > 0].max()) - 8), high, _GRID)
    at = np.exp(grid)
    density = -shifted[root] / 2 * grid - squares[root] / (2 * at)
    for part in (0, 1):
        if free[part]:
            density += np.log(np.maximum(gammainc(shifted[part] / 2, squares[part] / (2 * at)), _LEAST))
    if below:
        density += np.log(np.maximum(gammaincc(shifted[3] / 2, squares[3] / (2 * at)), _LEAST))
    cumulated = np.cumsum(np.exp(density - density.max()))
    return np.asarray(np.exp(np.interp(chance * cumulated[-1], cumulated, grid)))


def _above(squares: float, freedom: float, floor: Floats, chance: Floats) -> Floats:
    half = freedom / 2
    share = np.maximum(chance * gammainc(half, squares / (2 * floor)), _LEAST)
    return np.asarray(np.maximum(squares / (2 * gammaincinv(half, share)), floor))


def _beneath(squares: float, freedom: float, ceiling: Floats, chance: Floats) -> Floats:
    half = freedom / 2
    least = gammainc(half, squares / (2 * ceiling))
    share = np.minimum(least + chance * (1 - least), 1 - 1e-16)
    return np.asarray(np.minimum(squares / (2 * gammaincinv(half, share)), ceiling))
