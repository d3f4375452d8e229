"""Intraclass correlations by drawing coffees again: an interval that does not rest on normal scores.

Letters as in icc.py. A draw needs per coffee its k scores, the square of their sum, and the sum of their
squares; all draws together are one product of matrices.
"""

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.complete_table import complete_table
from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.fisher_scale import resampled_interval
from cupwright.core.analyse.icc import FORMS, icc, stepped_up
from cupwright.core.analyse.resamples import DRAWS, generator, resample_weights
from cupwright.core.analyse.scores import Scores
from cupwright.errors import NoSpread, Refused, TooFewObservations

Floats = NDArray[np.float64]

FEWEST_COFFEES = 8
# Levels of tasters make the absolute form settle more slowly.
FEWEST_FOR_POINTS = 12


def icc_bootstrap(
    scores: Scores | Floats,
    form: str = "icc3",
    *,
    draws: int = DRAWS,
    level: float = 0.95,
    rng: np.random.Generator | None = None,
) -> Estimate:
    """How reliable are the scores of **these** tasters, over other coffees of the same sort?

    Parameters
    ----------
    scores : Scores, or float array of shape (n_coffees, n_tasters[, n_repeats])
        As in `icc`.
    form : str
        One of `icc1`, `icc2`, `icc3`, `icc1k`, `icc2k`, `icc3k`.
    draws : int
        How many resamples of the coffees.
    level : float in (0, 1)
        Coverage of the interval.
    rng : numpy Generator, optional
        Source of chance; a fixed one if left out.

    Raises
    ------
    TooFewObservations
        Below 8 coffees, for `icc2` and `icc2k` below 12: `icc` has intervals that hold there.
    NoSpread
        As `icc`, and where tasters agree in all, so that nothing is left to draw.

    Notes
    -----
    Method: z = log((1 + (k - 1) r) / (1 - r)), less its bias over the draws, and Student's t with n - 1
    degrees of freedom times its standard deviation over them; then back to r. For icc3, z is log(MSR / MSE).
    Error: in simulated normal panels of 8 to 30 coffees it held the truth 93 to 97 times in 100. The tasters
    are not drawn again: take `icc` where the question is about others.
    Source: [EfronTibshirani1993], ch. 6, 10 and 12; z, [Fisher1925].
    """
    if form not in FORMS:
        raise Refused(f"There is no form '{form}'.", todo=f"Take one of {', '.join(FORMS)}.")
    table = complete_table(scores).values
    n, k = table.shape
    fewest = FEWEST_FOR_POINTS if form.startswith("icc2") else FEWEST_COFFEES
    if n < fewest:
        raise TooFewObservations(
            f"Drawing coffees again for {form} needs {fewest} of them; here are {n}.",
            todo="Take the intervals of `icc`.",
        )
    single, times = form.removesuffix("k"), k if form.endswith("k") else 1
    estimate = icc(table, level=level)[single].estimate
    ends = resampled_interval(estimate, icc_draws(table, single, draws=draws, rng=rng), k, n - 1, level)
    if ends is None:
        raise NoSpread("The tasters agree in all.", todo="Take the intervals of `icc`.")
    low, high = (stepped_up(end, times) for end in ends)
    return Estimate(stepped_up(estimate, times), low, high, level)


def icc_draws(
    table: Floats, form: str, *, draws: int = DRAWS, rng: np.random.Generator | None = None
) -> Floats:
    """The correlation of one taster (`icc1`, `icc2`, `icc3`) in each resample of the rows, shape (draws,).

    NaN where a resample has no spread.
    """
    n, k = table.shape
    about = table - table.mean()
    parts = np.column_stack([about, about.sum(axis=1) ** 2, (about**2).sum(axis=1)])
    sums = resample_weights(n, draws, generator(rng)) @ parts
    return _correlations(sums[:, :k], sums[:, k], sums[:, k + 1], n, form)


def _correlations(columns: Floats, row_squares: Floats, squares: Floats, n: int, form: str) -> Floats:
    """From sums per resample: of each column, of the squared row sums, of all squares."""
    k = columns.shape[1]
    common = columns.sum(axis=1) ** 2 / (n * k)
    between, across = row_squares / k - common, (columns**2).sum(axis=1) / n - common
    within = squares - common - between
    residual = (within - across) / ((n - 1) * (k - 1))
    msr, noise = between / (n - 1), within / (n * (k - 1)) if form == "icc1" else residual
    below = msr + (k - 1) * noise
    if form == "icc2":
        below = below + k * (across / (k - 1) - noise) / n
    undefined = np.full(len(msr), np.nan)
    return np.asarray(np.divide(msr - noise, below, out=undefined, where=below > 0))
