"""Resamples: how often each row is drawn when as many rows as there are get drawn with replacement."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

DRAWS = 2000
_SEED = 20261125


def generator(rng: np.random.Generator | None) -> np.random.Generator:
    """The given source of chance, or a fixed one: then the same data give the same numbers."""
    return rng if rng is not None else np.random.default_rng(_SEED)


def resample_weights(rows: int, draws: int, rng: np.random.Generator) -> Floats:
    """Counts of each row in each resample, shape (draws, rows); every line adds up to `rows`.

    A statistic of sums over rows is then one product of matrices [EfronTibshirani1993].
    """
    drawn = rng.integers(rows, size=(draws, rows)) + rows * np.arange(draws)[:, None]
    return np.bincount(drawn.ravel(), minlength=draws * rows).reshape(draws, rows).astype(float)
