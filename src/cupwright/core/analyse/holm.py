"""Holm's adjustment: many looks at one table, and still few false finds."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


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
