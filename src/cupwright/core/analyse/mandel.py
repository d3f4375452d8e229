"""Mandel's h and k: how far a taster's level and repeats lie from the panel's, coffee by coffee."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import fdtri, stdtrit

from cupwright.core.analyse.scores import Scores, scores_of
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import IncompleteTable, TooFewObservations

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Mandel(Tabular):
    """`h` and `k`, shape (n_coffees, n_tasters), NaN where all tasters or repeats agree; and their bounds.

    |h| passes `h_bound`, or k `k_bound`, in 1 - level of the cells by chance alone. `repeatability` and
    `reproducibility` are standard deviations in points, shape (n_coffees,).
    """

    coffees: tuple[str, ...]
    tasters: tuple[str, ...]
    h: Floats
    k: Floats
    h_bound: float
    k_bound: float
    repeatability: Floats
    reproducibility: Floats
    level: float

    def rows(self) -> list[Record]:
        """One record a cell."""
        return [
            {"coffee": coffee, "taster": taster, "h": float(self.h[i, j]), "k": float(self.k[i, j])}
            for i, coffee in enumerate(self.coffees)
            for j, taster in enumerate(self.tasters)
        ]


def mandel(scores: Scores | Floats, *, level: float = 0.995) -> Mandel:
    """Which taster's level (h) or repeats (k) lie apart from the panel's, for each coffee?

    Parameters
    ----------
    scores : Scores, or float array of shape (n_coffees, n_tasters, n_repeats)
        Every cell filled with the same number of repeats, at least two.
    level : float in (0, 1)
        Coverage of the bounds.

    Raises
    ------
    TooFewObservations
        If there are fewer than three tasters or two repeats.
    IncompleteTable
        If a cell has fewer repeats than another.

    Notes
    -----
    h = (taster's mean - grand mean) / s of the means; k = taster's s of repeats / pooled s_r. With p tasters
    and n repeats |h| <= (p-1) t / sqrt(p (t^2 + p - 2)), t with p - 2 degrees of freedom, and
    k <= sqrt(p / (1 + (p-1) / F)), F with n - 1 and (p-1)(n-1).
    s_R^2 = s^2 + s_r^2 (n-1)/n, at least s_r^2.
    Error: bounds exact for normal deviations of one spread.
    Source: [ASTM-E691], [ISO5725-2]; checked against the worked example of the first.
    """
    columns = scores_of(scores)
    cells = columns.cells
    _, p, n = cells.shape
    if p < 3 or n < 2:
        raise TooFewObservations(
            f"Mandel's h and k need 3 tasters and 2 repeats; these are {p} and {n}.", todo="Add repeats."
        )
    if np.isnan(cells).any():
        raise IncompleteTable("A cell lacks a repeat.", todo="Drop that coffee or that taster first.")
    means, spreads = cells.mean(axis=2), cells.std(axis=2, ddof=1)
    of_means = means.std(axis=1, ddof=1)
    repeat = np.sqrt((spreads**2).mean(axis=1))
    t = float(stdtrit(p - 2, (1 + level) / 2))
    f = float(fdtri(n - 1, (p - 1) * (n - 1), level))
    return Mandel(
        columns.coffees,
        columns.tasters,
        _ratio(means - means.mean(axis=1, keepdims=True), of_means),
        _ratio(spreads, repeat),
        (p - 1) * t / float(np.sqrt(p * (t**2 + p - 2))),
        float(np.sqrt(p / (1 + (p - 1) / f))),
        repeat,
        np.sqrt(np.maximum(of_means**2 + repeat**2 * (n - 1) / n, repeat**2)),
        level,
    )


def _ratio(above: Floats, below: Floats) -> Floats:
    nothing = np.full(above.shape, np.nan)
    wide = np.broadcast_to(below[:, None], above.shape)
    return np.asarray(np.divide(above, wide, out=nothing, where=wide > 0))
