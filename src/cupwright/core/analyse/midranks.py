"""Middle ranks: equal values share the mean of the ranks they take together."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def midranks(values: Floats) -> Floats:
    """Ranks from 1 of a column of values, equal ones sharing theirs, shape (n,)."""
    _, which, counts = np.unique(values, return_inverse=True, return_counts=True)
    middle: Floats = np.cumsum(counts) - (counts - 1) / 2
    return middle[which]
