"""Shares: how large a part of the tasters, and how far two parts lie from each other.

Letters as in [Newcombe1998a] and [Newcombe1998b]: r of n have the property, p = r/n, z the normal deviate
of the level.
"""

from math import hypot, sqrt

from scipy.special import ndtri

from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.level import checked_level
from cupwright.errors import Refused, TooFewObservations


def wilson(count: int, of: int, *, level: float = 0.95) -> Estimate:
    """Which shares of all possible tasters are compatible with `count` of `of`?

    Parameters
    ----------
    count, of : int
        How many had the property, of how many. 0 <= count <= of, of >= 1.
    level : float in (0, 1)
        Coverage of the interval.

    Returns
    -------
    Estimate
        A share in 0..1; the interval stays inside 0..1 and is never empty.

    Raises
    ------
    TooFewObservations
        If `of` is 0.
    Refused
        If `count` is not in 0..of.

    Notes
    -----
    Error: coverage is close to `level` on average, a little under it for some shares; it takes the tasters
    as drawn at random and independent of each other.
    Source: [Wilson1927]; method 3 of [Newcombe1998a], checked against its table and statsmodels.
    """
    _check(count, of)
    low, high = _wilson_limits(count, of, _deviate(level))
    return Estimate(count / of, low, high, level)


def share_difference(
    count: int, of: int, other_count: int, other_of: int, *, level: float = 0.95
) -> Estimate:
    """How much larger is one share than another, from two separate groups?

    Parameters
    ----------
    count, of, other_count, other_of : int
        The two groups; each as in `wilson`.
    level : float in (0, 1)
        Coverage of the interval.

    Returns
    -------
    Estimate
        count/of - other_count/other_of, in -1..1, with its hybrid score interval.

    Raises
    ------
    TooFewObservations
        If a group is empty.
    Refused
        If a count is not in 0..of.

    Notes
    -----
    Error: takes the two groups as independent. For the same tasters in both, the interval is too wide when
    tasters repeat their words and too narrow, by a factor of 1.41 at most, when they avoid repeating them.
    Source: [Newcombe1998b], method 10; checked against its example (56/70, 48/80) and statsmodels.
    """
    _check(count, of)
    _check(other_count, other_of)
    z, p, q = _deviate(level), count / of, other_count / other_of
    low_p, high_p = _wilson_limits(count, of, z)
    low_q, high_q = _wilson_limits(other_count, other_of, z)
    low, high = p - q - hypot(p - low_p, high_q - q), p - q + hypot(high_p - p, q - low_q)
    return Estimate(p - q, low, high, level)


def _wilson_limits(r: int, n: int, z: float) -> tuple[float, float]:
    middle, scale = 2 * r + z**2, 2 * (n + z**2)
    reach = z * sqrt(z**2 + 4 * r * (n - r) / n)
    # At the two ends the limits are 0 and 1; rounding must not carry them outside.
    return 0.0 if r == 0 else (middle - reach) / scale, 1.0 if r == n else (middle + reach) / scale


def _deviate(level: float) -> float:
    return float(ndtri((1 + checked_level(level)) / 2))


def _check(count: int, of: int) -> None:
    if of < 1:
        raise TooFewObservations("A share of nobody has no value.", todo="Report that nobody answered.")
    if not 0 <= count <= of:
        raise Refused(f"{count} of {of} is not a share.", todo="Give a count between 0 and the total.")
