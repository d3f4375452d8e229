"""Coffee draws: where the coffees may truly lie, given the scores, variances unknown.

Letters as in reml.py. `true` value of a coffee: mean + coffee, what the tasters of such panels would give it
on average.
"""

from dataclasses import dataclass

import numpy as np
from numpy.linalg import cholesky, solve

from cupwright.core.analyse.cell_sums import CellSums
from cupwright.core.analyse.reml import RESIDUAL, TASTER
from cupwright.core.analyse.scores import Floats
from cupwright.core.analyse.variance_draws import (
    Sums,
    draw_expected,
    expected_from,
    log_kernel,
    variances_from,
)

_POINTS = 1000  # sets of variances on which draws of an uneven table stand
_WORK = 3e8  # multiplications in their factors: fewer sets for more coffees
_MOST_ABOVE = 1e8  # expected mean squares of coffees and tasters over that of the rest
_PLUG_IN = 150  # with more coffees than that their variances are known well enough


@dataclass(frozen=True, slots=True)
class Effects:
    """What is known of coffees (C) and p fixed terms at each of m sets of variances.

    `centre` (m, C + p) and the lower Cholesky factor `root` of their precision; coffees are in units of
    their standard deviation `scale` (m,).
    """

    log_likelihood: Floats
    centre: Floats
    root: Floats
    scale: Floats

    def true(self, coffees: int, origin: float) -> Floats:
        """Mean + coffee at the centre, shape (m, C)."""
        return np.asarray(
            origin + self.centre[:, coffees, None] + self.scale[:, None] * self.centre[:, :coffees]
        )


def balanced_draws(means: Floats, each: int, sums: Sums, *, count: int, rng: np.random.Generator) -> Floats:
    """True values of coffees with these means of `each` scores, shape (n_coffees, count), of a full table."""
    coffee, taster, crossed, _ = draw_expected(sums, count, rng, residual=False)
    shrunken = 1 - crossed / coffee
    normal = rng.standard_normal((len(means), count))
    normal -= normal.mean(axis=0)
    middle = float(means.mean())
    level = middle + np.sqrt(taster / (each * len(means))) * rng.standard_normal(count)
    away = np.outer(means - middle, shrunken) + np.sqrt(shrunken * crossed / each) * normal
    return np.asarray(level + away)


def uneven_draws(cells: CellSums, top: Floats, count: int, rng: np.random.Generator) -> Floats:
    """True values of coffees, shape (n_coffees, count), where cells are missing, uneven, or terms are added.

    Variances are drawn from the balanced table that resembles this one, and weighted by what the
    restricted likelihood of this one is over that one's. `top` are the REML variances.
    """
    coffees = len(cells.coffees)
    if coffees > _PLUG_IN:
        effects = effects_at(cells, top[None, :])
        chosen = np.zeros(count, dtype=np.int64)
    else:
        sums = _resembling(cells, top)
        points = int(min(_POINTS, max(100.0, _WORK / (coffees + cells.terms) ** 3)))
        expected = draw_expected(sums, points, rng)
        # Beyond that nothing is drawn in any more, and factors of the precision lose their digits.
        expected[:2] = np.minimum(expected[:2], _MOST_ABOVE * expected[2])
        effects = effects_at(cells, variances_from(expected, cells))
        weight = effects.log_likelihood - log_kernel(sums, expected)
        chosen = _resampled(weight, count, rng)
    return _drawn(effects, coffees, cells.origin, chosen, rng)


def effects_at(cells: CellSums, variances: Floats) -> Effects:
    """Coffees and fixed terms at each set of variances, shape (m, 4).

    The precision H of standardised coffees and fixed terms gives the restricted likelihood as well:
    |V| |X'V^-1X| = |D| prod(1 + s_t w_j) |H|.
    """
    coffees, terms = len(cells.coffees), cells.terms
    scale, taster = np.sqrt(variances[:, 0]), variances[:, TASTER]
    residual = variances[:, RESIDUAL, None, None]
    there, count = cells.counts > 0, np.maximum(cells.counts, 1)
    spread = variances[:, 2, None, None] + residual / count
    weight = np.where(there, 1 / spread, 0.0)
    sums = weight.sum(axis=1)  # (m, T)
    pull = (taster[:, None] / (1 + taster[:, None] * sums))[:, None, :]
    weighted = weight[:, None] * cells.means  # (m, q, C, T)
    by_taster = weighted.sum(axis=2)  # (m, q, T)
    inner = -(weight * pull) @ weight.transpose(0, 2, 1)
    inner[:, np.arange(coffees), np.arange(coffees)] += weight.sum(axis=2)
    across = weighted.sum(axis=3) - (by_taster * pull) @ weight.transpose(0, 2, 1)  # (m, q, C)
    products = np.einsum("mqct,rct->mqr", weighted, cells.means) + cells.within / residual
    products -= (by_taster * pull) @ by_taster.transpose(0, 2, 1)
    precision = np.empty((len(variances), coffees + terms, coffees + terms))
    precision[:, :coffees, :coffees] = np.eye(coffees) + (scale**2)[:, None, None] * inner
    precision[:, coffees:, :coffees] = scale[:, None, None] * across[:, :terms]
    precision[:, :coffees, coffees:] = precision[:, coffees:, :coffees].transpose(0, 2, 1)
    precision[:, coffees:, coffees:] = products[:, :terms, :terms]
    right = np.concatenate([scale[:, None] * across[:, terms], products[:, :terms, terms]], axis=1)
    root: Floats = np.asarray(cholesky(precision), dtype=float)
    half = solve(root, right[:, :, None])
    centre = solve(root.transpose(0, 2, 1), half)[:, :, 0]
    quadratic = products[:, terms, terms] - np.sum(half[:, :, 0] ** 2, axis=1)
    determinant = (
        np.log(spread[:, there]).sum(axis=1)
        + np.log1p(taster[:, None] * sums).sum(axis=1)
        + 2 * np.log(np.diagonal(root, axis1=1, axis2=2)).sum(axis=1)
        + (cells.rows - cells.filled) * np.log(residual[:, 0, 0])
        + np.log(count).sum()
    )
    constant = (cells.rows - terms) * np.log(2 * np.pi)
    likelihood = -0.5 * (constant + determinant + quadratic)
    return Effects(likelihood, np.asarray(centre, dtype=float), root, scale)


def _resembling(cells: CellSums, top: Floats) -> Sums:
    coffees, tasters = cells.counts.shape
    crossed = cells.filled - coffees - tasters + 1 if tasters > 1 else 0
    freedom = np.array([coffees - 1, tasters - 1, crossed, cells.rows - cells.filled], dtype=float)
    return Sums(freedom * expected_from(top, cells), freedom)


def _resampled(
    weight: Floats, count: int, rng: np.random.Generator
) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
    """Which points the draws stand on, as often as their weights say: one uniform comb, so few are lost."""
    share = np.cumsum(np.exp(weight - weight.max()))
    comb = (np.arange(count) + rng.random()) / count
    chosen = np.searchsorted(share / share[-1], comb)
    return np.asarray(rng.permutation(np.minimum(chosen, len(weight) - 1)), dtype=np.int64)


def _drawn(
    effects: Effects,
    coffees: int,
    origin: float,
    chosen: np.ndarray[tuple[int], np.dtype[np.int64]],
    rng: np.random.Generator,
) -> Floats:
    normal = rng.standard_normal((len(chosen), effects.centre.shape[1], 1))
    if len(effects.centre) == 1:
        moved = solve(effects.root[0].T, normal[:, :, 0].T).T
    else:
        moved = solve(effects.root.transpose(0, 2, 1)[chosen], normal)[:, :, 0]
    found = effects.centre[chosen] + moved
    level = origin + found[:, coffees]
    return np.asarray((level[:, None] + effects.scale[chosen, None] * found[:, :coffees]).T)
