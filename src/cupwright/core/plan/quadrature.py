"""Quadrature: Gauss-Legendre nodes on panels, and the normal density they are used with."""

from functools import lru_cache
from math import pi, sqrt

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

# The normal density is below 1e-19 beyond so many standard deviations.
NORMAL_ENDS = 9.5


def nodes(low: float, high: float, *, panels: int = 1, each: int = 96) -> tuple[Floats, Floats]:
    """Nodes and weights, float arrays of shape (panels * each,), for an integral from low to high."""
    x, w = _legendre(each)
    half = (high - low) / panels / 2
    middles = low + half * (2 * np.arange(panels) + 1)
    return (middles[:, None] + half * x).ravel(), np.tile(half * w, panels)


def normal_density(z: Floats) -> Floats:
    """Density of the standard normal, the same shape."""
    return np.asarray(np.exp(-(z**2) / 2) / sqrt(2 * pi))


@lru_cache(maxsize=8)
def _legendre(count: int) -> tuple[Floats, Floats]:
    x, w = np.polynomial.legendre.leggauss(count)
    return np.asarray(x), np.asarray(w)
