"""Noncentral t: how often a t value lies beyond its limit when there is a difference.

The general library's sum for this distribution loses its way when the difference is large and the degrees of
freedom are few; as an integral the question is easy at any size.
"""

from math import isinf, sqrt

import numpy as np
from scipy.special import gammainc, gammainccinv, gammaincinv, ndtr

from cupwright.core.plan.quadrature import NORMAL_ENDS, nodes, normal_density

_TAIL = 1e-18
_FAR = 1e100  # its square is still a number


def chance_beyond(limit: float, df: float, noncentrality: float) -> float:
    """P(|t| > limit).

    Parameters
    ----------
    limit : float
        More than 0.
    df : float
        Degrees of freedom, at least 1.
    noncentrality : float
        Difference in standard errors, of either sign.

    Returns
    -------
    float
        In 0..1, both sides together.

    Notes
    -----
    t = (Z + delta) / U with Z normal and df U^2 chi-squared. One of the two is integrated by its own
    distribution function, and that one is taken whose other factor changes the more slowly.
    Error: below 1e-12.
    Source: definition of the distribution [JohnsonWelch1940]; checked against statsmodels and scipy where
    they hold.
    """
    delta = abs(noncentrality)
    if isinf(delta):
        return 1.0
    over = _over_normal if limit > sqrt(2 * df) else _over_spread
    return min(1.0, over(limit, df, delta))


def _over_normal(limit: float, df: float, delta: float) -> float:
    """Mean over Z of P(U < |Z + delta| / limit); it has a corner where Z = -delta."""
    corner = min(max(-delta, -NORMAL_ENDS), NORMAL_ENDS)
    total = 0.0
    for low, high in ((-NORMAL_ENDS, corner), (corner, NORMAL_ENDS)):
        z, weights = nodes(low, high, panels=2, each=64)
        reach = np.minimum(np.abs(z + delta) / limit, _FAR)
        within = gammainc(df / 2, df / 2 * reach**2)
        total += float(np.sum(within * normal_density(z) * weights))
    return total


def _over_spread(limit: float, df: float, delta: float) -> float:
    """Mean over U of P(|Z + delta| > limit U)."""
    half = df / 2
    low, high = (sqrt(float(x) / half) for x in (gammaincinv(half, _TAIL), gammainccinv(half, _TAIL)))
    u, weights = nodes(low, high, panels=2, each=64)
    # The density of U up to a factor, which the weights' own sum takes out with fewer digits lost.
    logs = (df - 1) * np.log(u) - half * u**2
    chances = np.exp(logs - logs.max()) * weights
    beyond = ndtr(delta - limit * u) + ndtr(-delta - limit * u)
    return float(np.sum(beyond * chances) / np.sum(chances))
