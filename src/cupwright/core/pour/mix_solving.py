"""Solving a mix: shares of ingredients, none negative, together one, that come nearest to what is wanted.

Pure numbers: columns are ingredients, rows are parameters, entries are mg/L.
Source: non-negative least squares and its use for the nearest point of a hull, [LawsonHanson1974] chapter
23; linear programmes by the solver of a general library.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import linprog, lsq_linear

Floats = NDArray[np.float64]

# Shares below this are the solver's own dust: a tenth of a microlitre in a hundred litres.
_DUST = 1e-9

_MOST_ROUNDS = 200


@dataclass(frozen=True, slots=True, eq=False)
class Wanted:
    """Bounds and aims, shape (n_parameters,), and the mg/L that count as one step away."""

    low: Floats
    high: Floats
    aim: Floats
    scale: Floats


def nearest_to_point(content: Floats, wanted: Wanted) -> Floats:
    """Shares whose mix is nearest to the aims, in the sense of least squares of steps.

    Parameters
    ----------
    content : float array, shape (n_parameters, n_ingredients)
    wanted : Wanted

    Returns
    -------
    float array, shape (n_ingredients,)
        At least 0, with sum 1.

    Notes
    -----
    Error: that of the arithmetic.
    Source: [LawsonHanson1974]. As the shares add to one, the mix misses by (C − t·1ᵀ) f. Minimising
    |(C − t·1ᵀ) f|² + (1ᵀf − 1)² over f >= 0 and scaling f to sum one gives the point of the hull nearest to
    nought: for a direction g of sum one the best length leaves |Bg|² / (1 + |Bg|²), which grows with |Bg|.
    """
    missing = (content - wanted.aim[:, None]) / wanted.scale[:, None]
    # If all are far, in lengths of the nearest: the point is the same, and does not drown in rounding.
    length = max(float(np.linalg.norm(missing, axis=0).min()), 1.0)
    system = np.vstack([missing / length, np.ones(content.shape[1])])
    # Not nnls: of columns that depend on one another scipy 1.17 may stop short of the best.
    found = lsq_linear(
        system,
        np.append(np.zeros(len(missing)), 1.0),
        bounds=(0, np.inf),
        method="bvls",
        tol=1e-15,
        max_iter=_MOST_ROUNDS,
    )
    return _clean(np.asarray(found.x, dtype=float))


def inside(content: Floats, wanted: Wanted, dear: Floats) -> Floats | None:
    """Shares inside all bounds, the furthest parameter as near to its aim as can be; None if there are none.

    `dear`, shape (n_ingredients,), says which ingredients to use least of where that leaves a choice.
    """
    count = content.shape[1]
    rows, limits = _within(content, wanted)
    far, far_limits = _band(content, wanted, wanted.aim, wanted.aim)
    both = np.vstack([np.hstack([rows, np.zeros((len(rows), 1))]), far])
    first = _solve(np.append(np.zeros(count), 1.0), both, np.append(limits, far_limits))
    if first is None:
        return None
    # Among those as near, the least concentrate; a hair of room keeps the solver from calling it impossible.
    room = float(first[-1]) * (1 + 1e-9) + 1e-9
    second = _solve(np.append(dear, 0.0), both, np.append(limits, far_limits), most=room)
    return _clean((first if second is None else second)[:count])


def nearest_to_bounds(content: Floats, wanted: Wanted) -> Floats:
    """Shares whose worst parameter is as few steps outside its bounds as can be, then all together few."""
    many, count = content.shape
    worst_rows, limits = _band(content, wanted, wanted.low, wanted.high)
    first = _solve(np.append(np.zeros(count), 1.0), worst_rows, limits)
    if first is None:  # pragma: no cover - some shares always exist
        return np.full(count, 1 / count)
    room = float(first[-1]) * (1 + 1e-9) + 1e-9
    each = np.vstack([-np.eye(many), -np.eye(many)])
    second = _solve(
        np.append(np.zeros(count), np.ones(many)),
        np.hstack([worst_rows[:, :count], each]),
        limits,
        most=room,
        slacks=many,
    )
    return _clean((first if second is None else second)[:count])


def _within(content: Floats, wanted: Wanted) -> tuple[Floats, Floats]:
    """Rows of low <= C f <= high, in steps."""
    scaled = content / wanted.scale[:, None]
    return np.vstack([scaled, -scaled]), np.append(wanted.high / wanted.scale, -wanted.low / wanted.scale)


def _band(content: Floats, wanted: Wanted, low: Floats, high: Floats) -> tuple[Floats, Floats]:
    """Rows of low − s <= C f <= high + s, in steps, with s as the last column."""
    scaled = content / wanted.scale[:, None]
    rows = np.vstack([scaled, -scaled])
    limits = np.append(high / wanted.scale, -low / wanted.scale)
    return np.hstack([rows, -np.ones((len(rows), 1))]), limits


def _solve(
    costs: Floats, rows: Floats, limits: Floats, *, most: float | None = None, slacks: int = 1
) -> Floats | None:
    """A linear programme over shares and slacks, all at least 0; the shares add to one."""
    count = len(costs) - slacks
    found = linprog(
        costs,
        A_ub=rows,
        b_ub=limits,
        A_eq=np.append(np.ones(count), np.zeros(slacks))[None, :],
        b_eq=[1.0],
        bounds=[(0, 1)] * count + [(0, most)] * slacks,
        method="highs",
    )
    return np.asarray(found.x, dtype=float) if found.success else None


def _clean(found: Floats) -> Floats:
    shares = found / found.sum()
    kept = np.where(shares < _DUST, 0.0, shares)
    return np.asarray(kept / kept.sum(), dtype=float)
