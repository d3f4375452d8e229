"""Nodes and weights of Gauss-Hermite quadrature: an integral against exp(-z²) as a short sum."""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from cupwright.errors import Refused

Floats = NDArray[np.float64]
MOST_NODES = 100


@lru_cache(maxsize=16)
def gauss_hermite(nodes: int) -> tuple[Floats, Floats]:
    """Nodes z and log weights, exp(z²) included, so that ∫ f(z) dz ≈ Σ exp(logs) f(z).

    Exact for exp(-z²) times a polynomial of degree 2 nodes - 1; one node is Laplace's approximation.

    Raises
    ------
    Refused
        If `nodes` is not in 1..100.

    Source: [AbramowitzStegun1964], 25.4.46; adaptive use, [PinheiroBates1995].
    """
    if not 1 <= nodes <= MOST_NODES:
        raise Refused(f"{nodes} nodes are not in 1 to {MOST_NODES}.", todo="Use 10; 1 is Laplace.")
    z, weights = np.polynomial.hermite.hermgauss(nodes)
    logs = np.log(weights) + z**2
    z.flags.writeable = logs.flags.writeable = False
    return z, logs
