"""Shares: how large a part of the tasters, and how far two parts lie from each other.

Letters as in [Newcombe1998a] and [Newcombe1998b]: r of n have the property, p = r/n, z the normal deviate
of the level. Arrays broadcast, so a whole table of words is one call.
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import ndtr, ndtri

from cupwright.core.analyse.estimate import Estimate
from cupwright.errors import Refused, TooFewObservations

Floats = NDArray[np.float64]


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
    low, high = wilson_limits(count, of, _deviate(level))
    return Estimate(count / of, float(low), float(high), level)


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
    low, high = newcombe_limits(count, of, other_count, other_of, _deviate(level))
    return Estimate(count / of - other_count / other_of, float(low), float(high), level)


def wilson_limits(count: ArrayLike, of: ArrayLike, z: ArrayLike) -> tuple[Floats, Floats]:
    """Both ends of the Wilson interval for arrays of counts; see `wilson`."""
    r, n, z = (np.asarray(a, dtype=float) for a in (count, of, z))
    middle = 2 * r + z**2
    reach = z * np.sqrt(z**2 + 4 * r * (n - r) / n)
    scale = 2 * (n + z**2)
    # The roots are 0 and 1 at the two ends; rounding must not carry them outside.
    low = np.where(r == 0, 0.0, (middle - reach) / scale)
    high = np.where(r == n, 1.0, (middle + reach) / scale)
    return low, high


def newcombe_limits(
    count: ArrayLike, of: ArrayLike, other_count: ArrayLike, other_of: ArrayLike, z: ArrayLike
) -> tuple[Floats, Floats]:
    """Both ends of the interval of a difference, for arrays of counts; see `share_difference`."""
    p = np.asarray(count, dtype=float) / of
    q = np.asarray(other_count, dtype=float) / other_of
    low_p, high_p = wilson_limits(count, of, z)
    low_q, high_q = wilson_limits(other_count, other_of, z)
    low = p - q - np.hypot(p - low_p, high_q - q)
    high = p - q + np.hypot(high_p - p, q - low_q)
    return low, high


def difference_p_values(
    count: ArrayLike, of: ArrayLike, other_count: ArrayLike, other_of: ArrayLike
) -> Floats:
    """For each pair of shares: 1 minus the largest level whose interval leaves out 0.

    Parameters
    ----------
    count, of, other_count, other_of : arrays of one shape
        As in `share_difference`; every `of` at least 1.

    Returns
    -------
    float array
        In 0..1; 1 where the shares are equal. `p <= 1 - level` says the same as "the interval at `level`
        leaves out 0".

    Notes
    -----
    Error: below 1e-12; found by bisection, since the interval grows with the level.
    Source: inversion of [Newcombe1998b], method 10.
    """
    groups = [np.asarray(a, dtype=float) for a in (count, of, other_count, other_of)]
    excludes, includes = np.zeros(groups[0].shape), np.full(groups[0].shape, 40.0)
    for _ in range(60):
        z = (excludes + includes) / 2
        low, high = newcombe_limits(groups[0], groups[1], groups[2], groups[3], z)
        outside = (low > 0) | (high < 0)
        excludes, includes = np.where(outside, z, excludes), np.where(outside, includes, z)
    return np.asarray(2 * ndtr(-excludes))


def holm(p_values: ArrayLike) -> Floats:
    """Adjusted p values: at most `a` with chance `a` if nothing is there, however many were looked at.

    Parameters
    ----------
    p_values : float array, shape (n_looks,)

    Returns
    -------
    float array, shape (n_looks,)
        In 0..1, never below the plain value, in the order given.

    Notes
    -----
    Error: exact upper bound under any dependence between the looks.
    Source: [Holm1979]; checked against statsmodels.
    """
    plain = np.asarray(p_values, dtype=float)
    order = np.argsort(plain, kind="stable")
    stepped = plain[order] * (len(plain) - np.arange(len(plain)))
    adjusted = np.empty_like(plain)
    adjusted[order] = np.minimum(np.maximum.accumulate(stepped), 1.0)
    return adjusted


def _deviate(level: float) -> float:
    if not 0 < level < 1:
        raise Refused(f"A level of {level} is not between 0 and 1.", todo="Use 0.95 for a 95 % interval.")
    return float(ndtri((1 + level) / 2))


def _check(count: int, of: int) -> None:
    if of < 1:
        raise TooFewObservations("A share of nobody has no value.", todo="Report that nobody answered.")
    if not 0 <= count <= of:
        raise Refused(f"{count} of {of} is not a share.", todo="Give a count between 0 and the total.")
