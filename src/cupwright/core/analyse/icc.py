"""Intraclass correlations: six answers to "what part of the spread in the scores belongs to the coffees?".

Letters as in [McGrawWong1996]: n coffees (rows), k tasters (columns); MSR, MSC, MSE and MSW the mean squares
between rows, between columns, of the residual, and within rows. No I/O, no clock, no chance.
"""

from dataclasses import dataclass, replace
from typing import Self

import numpy as np
from numpy.typing import NDArray
from scipy.special import fdtri

from cupwright.core.analyse.complete_table import complete_table
from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.scales import rounding_spread
from cupwright.core.analyse.scores import Scores
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import NoSpread

Floats = NDArray[np.float64]
Ends = tuple[float, float, float]  # estimate, low, high

FORMS = ("icc1", "icc2", "icc3", "icc1k", "icc2k", "icc3k")
MEANINGS = {
    "icc1": "one score, if other tasters score each coffee",
    "icc2": "one taster's points as they stand, levels included",
    "icc3": "one taster's differences between coffees, levels set aside",
    "icc1k": "the mean of the panel, if other tasters score each coffee",
    "icc2k": "the panel's mean points as they stand, levels included",
    "icc3k": "the panel's mean differences between coffees, levels set aside",
}


@dataclass(frozen=True, slots=True)
class MeanSquares:
    """Mean squares of a table of n rows and k columns: between rows, between columns, of the residual."""

    n: int
    k: int
    rows: float
    columns: float
    error: float

    @property
    def within(self) -> float:
        """Mean square within rows: columns and residual together."""
        return (self.columns + (self.n - 1) * self.error) / self.n

    def at_least(self, hidden: float) -> Self:
        """The same with no less noise than that."""
        return replace(self, columns=max(self.columns, hidden), error=max(self.error, hidden))


@dataclass(frozen=True, slots=True)
class Iccs(Tabular):
    """The six correlations, each at most 1; `icc1` .. `icc3` of one taster, `icc1k` .. of the panel's mean.

    They stand on `coffees` and `tasters`, all cells of which are filled; whoever has holes was left out.
    `repeats` above 1: each cell is a mean of up to so many scores, and "one taster" is one such mean.
    """

    icc1: Estimate
    icc2: Estimate
    icc3: Estimate
    icc1k: Estimate
    icc2k: Estimate
    icc3k: Estimate
    mean_squares: MeanSquares
    coffees: tuple[str, ...]
    tasters: tuple[str, ...]
    coffees_left_out: tuple[str, ...] = ()
    tasters_left_out: tuple[str, ...] = ()
    repeats: int = 1

    def rows(self) -> list[Record]:
        """One row a form, with what it is the reliability of."""
        return [{"form": form, **self[form].rows()[0], "reliability_of": MEANINGS[form]} for form in FORMS]

    def __getitem__(self, form: str) -> Estimate:
        if form not in FORMS:
            raise KeyError(form)
        found: Estimate = getattr(self, form)
        return found


def icc(scores: Scores | Floats, *, level: float = 0.95, step: float = 0.0) -> Iccs:
    """How reliable are the scores of one taster, and the mean of the panel?

    Parameters
    ----------
    scores : Scores, or float array of shape (n_coffees, n_tasters[, n_repeats])
        Points of one scale; NaN where there is none. Repeats of a cell are averaged first.
    level : float in (0, 1)
        Coverage of each interval.
    step : float
        The scale's step. For the lower ends, the residual mean square is taken as what rounding to it hides
        at least: tasters whose whole points are the same do not agree to the last decimal. Where it is 0 and
        the residuals are too, the smallest distance between two scores stands for it.

    Returns
    -------
    Iccs
        Below 0 where tasters differ over one coffee more than coffees differ.

    Raises
    ------
    TooFewObservations
        If fewer than two coffees or two tasters are left without holes.
    NoSpread
        If all coffees have the same mean.

    Notes
    -----
    Error: icc1 and icc3 have exact intervals, icc2 Satterthwaite's, if coffees, tasters and residuals are
    normal, each with one variance. They say nothing about coffees or tasters unlike those of the table.
    Source: [ShroutFleiss1979]; [McGrawWong1996], tables 4 and 7; rounding, [Sheppard1898].
    """
    table = complete_table(scores)
    squares = mean_squares(table.values)
    if squares.rows == 0:
        raise NoSpread(
            "All coffees have the same mean score.",
            todo="Report that mean; how reliable differences are is undefined where there are none.",
        )
    step = step or (_smallest_gap(table.values) if squares.error == 0 else 0.0)
    single = _single(squares, (1 - level) / 2, rounding_spread(step) ** 2)
    forms = (Estimate(*ends, level) for ends in (*single, *_means(single, squares.k)))
    return Iccs(
        **dict(zip(FORMS, forms, strict=True)),
        mean_squares=squares,
        coffees=table.coffees,
        tasters=table.tasters,
        coffees_left_out=table.coffees_left_out,
        tasters_left_out=table.tasters_left_out,
        repeats=table.repeats,
    )


def mean_squares(table: Floats) -> MeanSquares:
    """The mean squares of a two-way table without repeats, shape (n >= 2, k >= 2), no NaN.

    What is nothing but rounding of the last binary digits is returned as 0.
    """
    n, k = table.shape
    # About one score, so that a common level of 1e9 leaves no trace in the squares.
    about = table - table[0, 0]
    rows, columns, grand = about.mean(axis=1), about.mean(axis=0), about.mean()
    row_part, column_part = rows - grand, columns - grand
    residual = about - rows[:, None] - column_part
    sums = (
        k * float(row_part @ row_part),
        n * float(column_part @ column_part),
        float(np.einsum("ij,ij", residual, residual)),
    )
    nothing = n * k * (8 * np.finfo(float).eps * float(np.abs(table).max())) ** 2
    between, across, left = (0.0 if part <= nothing else part for part in sums)
    return MeanSquares(n, k, between / (n - 1), across / (k - 1), left / ((n - 1) * (k - 1)))


def stepped_up(reliability: float, times: float) -> float:
    """Reliability of a mean of `times` as many scores [Spearman1910], [Brown1910].

    -inf where a reliability of one score is at the least that `times` scores can have.
    """
    below = 1 + (times - 1) * reliability
    return times * reliability / below if below > 0 else -np.inf


def _smallest_gap(values: Floats) -> float:
    return float(np.diff(np.unique(values)).min())


def _single(squares: MeanSquares, tail: float, hidden: float) -> tuple[Ends, Ends, Ends]:
    """Estimate, low and high of the three forms for one taster."""
    n, k, noisy = squares.n, squares.k, squares.at_least(hidden)
    agreement = _absolute(squares, 1.0)
    rows, within, crossed = n - 1, n * (k - 1), (n - 1) * (k - 1)
    freedom = _satterthwaite(squares, agreement)
    lows_and_highs = fdtri(
        [rows, rows, rows, within, freedom, crossed], [within, freedom, crossed, rows, rows, rows], 1 - tail
    )
    low1, low2, low3, high1, high2, high3 = lows_and_highs.tolist()
    # The mean square below is scaled rather than F formed: F is infinite when tasters agree in all, and the
    # limit (a correlation of 1) is the right answer.
    return (
        _consistent(squares.rows, k, squares.within, noisy.within * low1, squares.within / high1),
        (agreement, _absolute(noisy, low2), _absolute(squares, 1 / high2)),
        _consistent(squares.rows, k, squares.error, noisy.error * low3, squares.error / high3),
    )


def _means(single: tuple[Ends, Ends, Ends], k: int) -> tuple[Ends, Ends, Ends]:
    """The three forms for the mean of k tasters."""
    independent, absolute, consistent = (_stepped_up(ends, k) for ends in single)
    # MSC far below MSE makes a negative variance of levels, which can outweigh all the rest; without one,
    # the absolute form is the consistent one.
    estimate, low, high = (a if np.isfinite(a) else c for a, c in zip(absolute, consistent, strict=True))
    return independent, (estimate, min(low, estimate), max(high, estimate)), consistent


def _stepped_up(ends: Ends, times: float) -> Ends:
    estimate, low, high = (stepped_up(end, times) for end in ends)
    return estimate, low, high


def _consistent(msr: float, k: int, *below: float) -> Ends:
    estimate, low, high = ((msr - mse) / (msr + (k - 1) * mse) for mse in below)
    return estimate, low, high


def _absolute(squares: MeanSquares, quantile: float) -> float:
    """Case 2A of [McGrawWong1996], table 7: the estimate at 1, an end at a quantile or its reciprocal."""
    n, k, msr, mse = squares.n, squares.k, squares.rows, squares.error
    beside = k * squares.columns + (k * n - k - n) * mse
    return n * (msr - quantile * mse) / (quantile * beside + n * msr)


def _satterthwaite(squares: MeanSquares, agreement: float) -> float:
    """Degrees of freedom of a MSC + b MSE [Satterthwaite1946]; a and b are n (1 - ICC) times the paper's."""
    n, k = squares.n, squares.k
    # Below 0 the weights would have two signs and the degrees of freedom no meaning.
    share = max(agreement, 0.0)
    columns, error = k * share * squares.columns, (n * (1 - share) + k * share * (n - 1)) * squares.error
    below = columns**2 / (k - 1) + error**2 / ((n - 1) * (k - 1))
    # Without noise of either sort both ends are 1, whatever the quantiles.
    return (columns + error) ** 2 / below if below > 0 else float((n - 1) * (k - 1))
