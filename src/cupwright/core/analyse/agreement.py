"""Agreement: how much of the spread in the scores belongs to the coffees.

Letters as in [McGrawWong1996]: n coffees (rows), k tasters (columns), MSR the mean square between rows,
MSE the residual mean square. No I/O, no clock, no chance.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import fdtri

from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.icc import mean_squares
from cupwright.core.analyse.scales import rounding_spread
from cupwright.errors import IncompleteTable, NoSpread, TooFewObservations

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Agreement:
    """An agreement and on whom it stands: `tasters` without holes, `dropped` for having some."""

    icc: Estimate
    tasters: int
    dropped: int


def agreement(scores: Floats, *, level: float = 0.95, step: float = 0.0) -> Agreement:
    """`icc_consistency` over the tasters who scored every coffee.

    Parameters
    ----------
    scores : float array, shape (n_coffees, n_tasters)
        Points of one scale; NaN where a taster gave none.
    level : float in (0, 1)
        Coverage of the interval.
    step : float
        As in `icc_consistency`.

    Returns
    -------
    Agreement
        Tasters who scored nothing at all are neither used nor counted as dropped.

    Raises
    ------
    TooFewObservations, NoSpread
        As `icc_consistency`, after the holes are gone.

    Notes
    -----
    Error: as `icc_consistency`; dropping is harmless only if tasters leave holes for reasons that have
    nothing to do with the coffees.
    Source: complete cases of [McGrawWong1996].
    """
    scored = ~np.isnan(scores)
    complete = scored.all(axis=0)
    dropped = int((scored.any(axis=0) & ~complete).sum())
    icc = icc_consistency(scores[:, complete], level=level, step=step)
    return Agreement(icc, int(complete.sum()), dropped)


def icc_consistency(scores: Floats, *, level: float = 0.95, step: float = 0.0) -> Estimate:
    """Reliability of one taster's score when each keeps a habitual level, ICC(C,1).

    Parameters
    ----------
    scores : float array, shape (n_coffees, n_tasters)
        Points of one scale. Every cell filled.
    level : float in (0, 1)
        Coverage of the interval.
    step : float
        The scale's step. For the interval, the residual mean square is taken as what rounding to it hides
        at least: tasters whose whole points are the same do not agree to the last decimal.

    Returns
    -------
    Estimate
        At most 1; negative when tasters differ over coffees more than coffees differ.

    Raises
    ------
    IncompleteTable
        If a cell is NaN.
    TooFewObservations
        If there are fewer than two coffees or two tasters.
    NoSpread
        If no taster scored any two coffees differently.

    Notes
    -----
    Error: the interval is exact if residuals are normal with one variance; it says nothing about coffees
    or tasters outside the table.
    Source: [McGrawWong1996], case 3; checked against [ShroutFleiss1979]; rounding, [Sheppard1898].
    """
    n, k = _check(scores)
    squares = mean_squares(scores)
    msr, mse = squares.rows, squares.error
    tail, df_rows, df_error = (1 - level) / 2, n - 1, (n - 1) * (k - 1)
    # Scale MSE rather than form F = MSR/MSE: F is infinite when tasters differ
    # only in level, and the limit (ICC = 1) is the right answer.
    hidden = max(mse, rounding_spread(step) ** 2)
    widest = hidden * fdtri(df_rows, df_error, 1 - tail)
    narrowest = mse / fdtri(df_error, df_rows, 1 - tail)
    return Estimate(_icc(msr, mse, k), _icc(msr, widest, k), _icc(msr, narrowest, k), level)


def _icc(msr: float, mse: float, k: int) -> float:
    return float((msr - mse) / (msr + (k - 1) * mse))


def _check(scores: Floats) -> tuple[int, int]:
    n, k = scores.shape
    if n < 2 or k < 2:
        raise TooFewObservations(
            f"Agreement needs 2 coffees and 2 tasters who scored them all; here are {n} and {k}.",
            todo="Add scores, or read the table itself.",
        )
    if np.isnan(scores).any():
        row, column = np.argwhere(np.isnan(scores))[0]
        raise IncompleteTable(
            f"Taster {column + 1} did not score coffee {row + 1}.",
            todo="Drop that coffee or that taster first.",
        )
    # Tasters who differ only in level leave 0/0, and rounding would make a number of it.
    if not np.ptp(scores, axis=0).any():
        raise NoSpread(
            "No taster scored any two coffees differently.",
            todo="Report the common scores; agreement is undefined.",
        )
    return n, k
