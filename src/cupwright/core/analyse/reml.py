"""REML: variances of coffee, taster, coffee x taster and residual where cells are missing or uneven.

Letters: C coffees, T tasters, K filled cells, N scores, p fixed terms; X their columns, y the scores, V the
covariance of y, P = V^-1 - V^-1 X (X'V^-1X)^-1 X'V^-1. The covariance of the cells' means is a diagonal plus
a coffee part, turned round coffee by coffee in closed form, plus a taster part, by one T x T Cholesky
[Woodbury1950]. Steps are Newton's with the average information [Gilmour1995], kept at or above 0.
"""

from dataclasses import dataclass

import numpy as np

from cupwright.core.analyse.cell_sums import Bools, CellSums
from cupwright.core.analyse.scores import Floats
from cupwright.errors import NoSpread

_MOST_STEPS = 100
_MOST_STALLED = 5  # steps in a row that gain nothing but digits
_SETTLED = 1e-15  # the gain in log-likelihood that the next step promises
_LEAST, _MOST = 1e-9, 1e3  # a variance, of the variance of all scores
COFFEE, TASTER, CROSSED, RESIDUAL = range(4)


@dataclass(frozen=True, slots=True)
class Restricted:
    """The restricted likelihood at one set of variances.

    `gradient` (4,) and `information` (4, 4, average of observed and expected) are by the variances;
    `fixed` (p,) the fixed terms with covariance `spread` (p, p); `change` (4, p, p) is the derivative of
    `spread` by each variance.
    """

    variances: Floats
    log_likelihood: float
    gradient: Floats
    information: Floats
    fixed: Floats
    spread: Floats
    change: Floats


def reml(cells: CellSums, *, one_taster: bool = False) -> Restricted:
    """The variances at the top of the restricted likelihood.

    Parameters
    ----------
    cells : CellSums
    one_taster : bool
        Leave out the taster and coffee x taster parts, which one taster's scores do not show.

    Returns
    -------
    Restricted
        Without repeats the coffee x taster variance is 0 and the residual holds both.

    Raises
    ------
    NoSpread
        If coffees, tasters and fixed terms explain the scores without rest.

    Notes
    -----
    Error: the top is found to about 1e-9 of the variances; a variance may lie at 0, where its square
    "would like to be negative".
    Source: [PattersonThompson1971]; checked against a dense computation and other libraries.
    """
    if cells.counts.shape[0] < cells.counts.shape[1]:
        return _turned(reml(cells.turned()))
    free = np.array([True, not one_taster, cells.has_repeats and not one_taster, True])
    if not cells.has_repeats:
        _refuse_no_rest(cells)
    now = restricted(cells, _start(cells, free))
    spread = float(now.variances.sum())
    stalled = 0
    for _ in range(_MOST_STEPS):
        step, promised = _step(now, free)
        if promised < _SETTLED or stalled == _MOST_STALLED:
            break
        better = _further(cells, now, step, spread)
        if better is None:
            break
        gained = better.log_likelihood - now.log_likelihood
        stalled = stalled + 1 if gained < 1e-12 * abs(now.log_likelihood) else 0
        now = better
    return now


def hessian(cells: CellSums, top: Restricted) -> Floats:
    """Minus the second derivatives of the restricted log-likelihood at its top, shape (4, 4)."""
    found = np.zeros((4, 4))
    for at in range(4):
        width = 1e-4 * top.variances[at]
        if width > 0:
            ends = []
            for sign in (-1, 1):
                moved = top.variances.copy()
                moved[at] += sign * width
                ends.append(restricted(cells, moved).gradient)
            found[at] = (ends[0] - ends[1]) / (2 * width)
    return (found + found.T) / 2


def restricted(cells: CellSums, variances: Floats) -> Restricted:
    """The restricted likelihood and its slopes at these variances."""
    inverse = _Inverse(cells, variances)
    terms, count = cells.terms, np.maximum(cells.counts, 1)
    residual = float(variances[RESIDUAL])
    solved = inverse.of(cells.means)
    products = np.einsum("qct,rct->qr", cells.means, solved) + cells.within / residual
    precision = products[:terms, :terms]
    spread = np.linalg.inv(precision)
    fixed = spread @ products[:terms, terms]
    rest = np.append(-fixed, 1.0)
    quadratic = float(rest @ products @ rest)
    within = float(rest @ cells.within @ rest)
    likelihood = -0.5 * (
        (cells.rows - terms) * np.log(2 * np.pi)
        + (cells.rows - cells.filled) * np.log(residual)
        + np.log(count).sum()
        + inverse.log_determinant
        + np.linalg.slogdet(precision)[1]
        + quadratic
    )
    left = np.tensordot(rest, solved, 1)  # P y, cell by cell
    outer = _outer(solved[:terms], count)
    outer[RESIDUAL] += cells.within[:terms, :terms] / residual**2
    squares = np.array(
        [
            np.sum(left.sum(axis=1) ** 2),
            np.sum(left.sum(axis=0) ** 2),
            np.sum(left**2),
            np.sum(left**2 / count) + within / residual**2,
        ]
    )
    traces = inverse.traces(count)
    traces[RESIDUAL] += (cells.rows - cells.filled) / residual
    traces -= np.einsum("kij,ji->k", outer, spread)
    return Restricted(
        variances,
        float(likelihood),
        (squares - traces) / 2,
        _information(cells, inverse, _Solved(left, solved[:terms], spread, rest, residual)),
        fixed,
        spread,
        spread @ outer @ spread,
    )


@dataclass(frozen=True, slots=True)
class _Solved:
    """P y and V^-1 X cell by cell, (X'V^-1X)^-1, the weights (-fixed, 1) and the residual variance."""

    left: Floats
    solved: Floats
    spread: Floats
    rest: Floats
    residual: float


class _Inverse:
    """The inverse covariance of the cells' means, ready to be applied."""

    def __init__(self, cells: CellSums, variances: Floats) -> None:
        there = cells.counts > 0
        coffee, self.taster, crossed, residual = map(float, variances)
        spread = crossed + residual / np.maximum(cells.counts, 1)
        self.weight = np.where(there, 1 / spread, 0.0)
        self.sums = self.weight.sum(axis=1)
        self.pull = coffee / (1 + coffee * self.sums)
        between = np.diag(self.weight.sum(axis=0)) - self.weight.T @ (self.pull[:, None] * self.weight)
        self.between = between
        matrix = np.eye(len(between)) + self.taster * between
        self.log_determinant = float(
            np.log(spread[there]).sum() + np.log1p(coffee * self.sums).sum() + np.linalg.slogdet(matrix)[1]
        )
        self.core = np.linalg.inv(matrix)
        self.coffee_sums = self.sums / (1 + coffee * self.sums)
        self.coffee_part = self.weight / (1 + coffee * self.sums)[:, None]

    def of(self, columns: Floats) -> Floats:
        """Applied to columns, shape (q, C, T)."""
        without = self._without_tasters(columns)
        tasters = without.sum(axis=1) @ self.core
        return without - self.taster * self._without_tasters(
            np.broadcast_to(tasters[:, None, :], columns.shape)
        )

    def traces(self, count: Floats) -> Floats:
        """tr(V^-1 V_k) of the four parts, without what lies within cells."""
        smoothed = self.weight @ self.core
        pulled = np.einsum("ct,ct->c", smoothed, self.weight)
        single = (
            np.diag(self.core)[None, :] - 2 * self.pull[:, None] * smoothed + (self.pull**2 * pulled)[:, None]
        )
        diagonal = self.weight - self.pull[:, None] * self.weight**2 - self.taster * self.weight**2 * single
        coffee = self.coffee_sums.sum() - self.taster * np.einsum(
            "ct,tu,cu->", self.coffee_part, self.core, self.coffee_part, optimize=True
        )
        return np.array([coffee, np.sum(self.between * self.core), diagonal.sum(), np.sum(diagonal / count)])

    def _without_tasters(self, columns: Floats) -> Floats:
        weighted = self.weight * columns
        pulled: Floats = weighted - (self.pull * weighted.sum(axis=2))[:, :, None] * self.weight
        return pulled


def _outer(solved: Floats, count: Floats) -> Floats:
    """X'V^-1 V_k V^-1 X of the four parts, shape (4, p, p), without what lies within cells."""
    coffee, taster = solved.sum(axis=2), solved.sum(axis=1)
    flat = solved.reshape(len(solved), -1)
    return np.array([coffee @ coffee.T, taster @ taster.T, flat @ flat.T, (flat / count.ravel()) @ flat.T])


def _information(cells: CellSums, inverse: _Inverse, at: _Solved) -> Floats:
    """Average information y'P V_k P V_l P y / 2, shape (4, 4)."""
    left, rest, count = at.left, at.rest, np.maximum(cells.counts, 1)
    shape = left.shape
    moved = np.array(
        [
            np.broadcast_to(left.sum(axis=1)[:, None], shape),
            np.broadcast_to(left.sum(axis=0)[None, :], shape),
            left,
            left / count,
        ]
    )
    products = np.einsum("kct,lct->kl", moved, inverse.of(moved))
    across = np.einsum("kct,pct->kp", moved, at.solved)
    products[RESIDUAL, RESIDUAL] += float(rest @ cells.within @ rest) / at.residual**3
    across[RESIDUAL] += (rest @ cells.within[:, : cells.terms]) / at.residual**2
    return np.asarray(products - across @ at.spread @ across.T) / 2


def _start(cells: CellSums, free: Bools) -> Floats:
    """The spread of the scores, shared equally."""
    products = np.einsum("qct,rct,ct->qr", cells.means, cells.means, cells.counts) + cells.within
    terms = cells.terms
    fixed = np.linalg.lstsq(products[:terms, :terms], products[:terms, terms], rcond=None)[0]
    total = (products[terms, terms] - fixed @ products[:terms, terms]) / max(cells.rows - terms, 1)
    if total <= 0:
        raise NoSpread("The fixed terms explain every score.", todo="Leave out terms.")
    return np.where(free, total / free.sum(), 0.0)


def _refuse_no_rest(cells: CellSums) -> None:
    """Refuse cells that are a coffee's level plus a taster's to the last digits: there is no top."""
    there, scores = cells.counts > 0, cells.means[-1]
    each = there.sum(axis=1)
    about = np.where(there, scores - (scores.sum(axis=1) / each)[:, None], 0.0)
    between = np.diag(there.sum(axis=0)) - (there / each[:, None]).T @ there
    level = np.linalg.lstsq(between, about.sum(axis=0), rcond=None)[0]
    fitted = level - (there @ level / each)[:, None]
    rest = np.where(there, about - fitted, 0.0)
    if np.abs(rest).max() < 1e-9 * np.abs(scores).max():
        raise _no_rest()


def _no_rest() -> NoSpread:
    return NoSpread(
        "Coffees and tasters explain the scores without rest.",
        todo="Report the scores as they are; there is no residual to judge them by.",
    )


def _step(now: Restricted, free: Bools) -> tuple[Floats, float]:
    """Where Newton's step leads, and the gain it promises; parts at 0 that would go below stay there."""
    going = free & ((now.variances > 0) | (now.gradient > 0))
    step = np.zeros(4)
    at = np.flatnonzero(going)
    inner = now.information[np.ix_(at, at)].copy()
    # Coffees whose means are all equal say how the likelihood falls, and nothing of how it bends: to 0 then.
    flat = np.flatnonzero(np.diag(inner) <= 0)
    size = np.maximum(now.variances[at[flat]], 1e-9 * now.variances.sum())
    inner[flat, flat] = np.abs(now.gradient[at[flat]]) / size
    scale = 1 / np.sqrt(np.maximum(np.diag(inner), 1e-300))
    scaled = inner * np.outer(scale, scale)
    step[at] = scale * np.linalg.solve(scaled + 1e-10 * np.eye(len(at)), scale * now.gradient[at])
    return step, float(step @ now.gradient)


def _further(cells: CellSums, now: Restricted, step: Floats, spread: float) -> Restricted | None:
    """A point along the step, bent at 0, with a greater likelihood; None if there is none.

    `spread` is the variance of the scores: no part is far above it, and a residual far below it is none.
    """
    # Near the top the likelihood itself is known to its last digits only; the slope leads on.
    enough = now.log_likelihood - 1e-12 * abs(now.log_likelihood)
    for halving in range(30):
        moved = np.clip(now.variances + step * 0.5**halving, 0.0, _MOST * spread)
        moved[RESIDUAL] = max(moved[RESIDUAL], now.variances[RESIDUAL] / 20)
        if moved[RESIDUAL] < _LEAST * spread:
            raise _no_rest()
        further = restricted(cells, moved)
        if further.log_likelihood >= enough:
            return further
    return None


def _turned(found: Restricted) -> Restricted:
    order = np.array([TASTER, COFFEE, CROSSED, RESIDUAL])
    return Restricted(
        found.variances[order],
        found.log_likelihood,
        found.gradient[order],
        found.information[np.ix_(order, order)],
        found.fixed,
        found.spread,
        found.change[order],
    )
