"""Scales: the mean of what tasters gave each coffee, and what lies between two coffees."""

from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray
from scipy.special import stdtrit

from cupwright.core.analyse.estimate import Estimate

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Mean:
    """A mean of `n` values. `mean` is None when there are none; the interval is NaN when there is one."""

    n: int
    mean: Estimate | None


@dataclass(frozen=True, slots=True)
class PairDifference:
    """Row `first` minus row `second`, over the `n` tasters who scored both."""

    first: int
    second: int
    n: int
    mean: Estimate


def rounding_spread(step: float) -> float:
    """Standard deviation of what rounding to a step hides: even over one step, so step / sqrt(12).

    Source: [Sheppard1898]; exact for an even distribution.
    """
    return float(step / np.sqrt(12))


def mean_interval(
    values: Floats,
    *,
    level: float = 0.95,
    ends: tuple[float, float] | None = None,
    least_spread: float = 0.0,
) -> Mean:
    """Where would the mean of many such tasters lie?

    Parameters
    ----------
    values : float array, shape (n_tasters,)
        One value a taster, in the unit of the scale; NaN where there is none.
    level : float in (0, 1)
        Coverage of the interval.
    ends : pair of float, optional
        Ends of the scale. No mean lies beyond them, so the interval is cut there and covers no less often.
    least_spread : float
        Below this the tasters' standard deviation is not believed: two tasters who both say 7 on a scale of
        whole points do not agree to the last decimal. See `rounding_spread`.

    Returns
    -------
    Mean
        The count of values, and their mean with its t interval.

    Notes
    -----
    Error: exact for normal values; close for others from some 15 tasters on. Takes the tasters as drawn at
    random. Where all values are equal it rests on `least_spread` alone.
    Source: [Student1908]; checked against scipy.stats.
    """
    given = values[~np.isnan(values)]
    n = len(given)
    if n == 0:
        return Mean(0, None)
    centre = float(given.mean())
    if n == 1:
        return Mean(1, Estimate(centre, float("nan"), float("nan"), level))
    spread = max(float(given.std(ddof=1)), least_spread)
    reach = float(stdtrit(n - 1, (1 + level) / 2) * spread / np.sqrt(n))
    low, high = ends or (-np.inf, np.inf)
    return Mean(
        n,
        Estimate(
            centre, max(centre - reach, min(low, centre)), min(centre + reach, max(high, centre)), level
        ),
    )


def pair_differences(
    values: Floats, *, level: float = 0.95, ends: tuple[float, float] | None = None, step: float = 0.0
) -> tuple[PairDifference, ...]:
    """Which coffees were scored differently by the same tasters?

    Parameters
    ----------
    values : float array, shape (n_coffees, n_tasters)
        One scale; NaN where a taster gave no value.
    level : float in (0, 1)
        Coverage of all intervals together.
    ends : pair of float, optional
        Ends of the scale; the intervals are cut at the largest difference they allow.
    step : float
        The scale's step. A difference is of two rounded scores, so it hides twice the variance of one.

    Returns
    -------
    tuple of PairDifference
        Every pair of rows that at least two tasters scored both; each interval is widened so that all of
        them hold together with chance `level` at least.

    Notes
    -----
    Error: as `mean_interval` for the differences; joint coverage is a lower bound (Bonferroni).
    Source: paired t interval [Student1908], Bonferroni inequality [Dunn1961]; checked against scipy.stats.
    """
    pairs = list(combinations(range(len(values)), 2))
    each = 1 - (1 - level) / max(len(pairs), 1)
    most = (ends[0] - ends[1], ends[1] - ends[0]) if ends else None
    least = rounding_spread(step) * float(np.sqrt(2))
    found = []
    for first, second in pairs:
        mean = mean_interval(values[first] - values[second], level=each, ends=most, least_spread=least)
        if mean.n >= 2 and mean.mean is not None:
            found.append(PairDifference(first, second, mean.n, mean.mean))
    return tuple(found)
