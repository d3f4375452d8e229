"""The rest: what all other tasters found, for each coffee, with their levels set aside."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def rest_of(means: Floats, taster: int) -> Floats:
    """The other tasters' mean for each coffee, as if every one of them had scored it, shape (n_coffees,).

    Parameters
    ----------
    means : float array, shape (n_coffees, n_tasters)
        NaN where a taster did not score.

    Returns
    -------
    float array
        NaN where nobody else scored.

    Notes
    -----
    Without holes it is the plain mean. With holes the others' levels are fitted by least squares (coffee plus
    taster), and each mean is freed of the levels of those who happen to be in it.
    """
    others = np.delete(means, taster, axis=1)
    seen = ~np.isnan(others)
    if seen.all() and others.shape[1]:
        return np.asarray(others.mean(axis=1))
    filled = np.where(seen, others, 0.0)
    rated = seen.sum(axis=1)
    each = np.maximum(rated, 1)
    coffee_means = filled.sum(axis=1) / each
    # Normal equations of the levels, the coffees eliminated.
    overlap = np.diag(seen.sum(axis=0).astype(float)) - (seen / each[:, None]).T @ seen
    apart = (filled - np.where(seen, coffee_means[:, None], 0.0)).sum(axis=0)
    levels = np.linalg.pinv(overlap, hermitian=True) @ apart
    fitted = (filled - np.where(seen, levels, 0.0)).sum(axis=1) / each
    return np.where(rated > 0, fitted, np.nan)


def rest_reliability(means: Floats, taster: int) -> float | None:
    """How much of the spread of the others' mean is theirs in common, in [0, 1]: 1 - MSE / MSR.

    From the coffees that all others scored; None with fewer than two others or three such coffees, and where
    the others' means do not differ. It is ICC(3,k) of [ShroutFleiss1979].
    """
    others = np.delete(means, taster, axis=1)
    full = others[:, ~np.isnan(others).all(axis=0)]
    full = full[~np.isnan(full).any(axis=1)]
    n, k = full.shape
    if n < 3 or k < 2:
        return None
    rows = full.mean(axis=1)
    msr = k * float(rows.var(ddof=1))
    left = full - rows[:, None] - full.mean(axis=0) + full.mean()
    mse = float((left**2).sum()) / ((n - 1) * (k - 1))
    return max(0.0, 1 - mse / msr) if msr > 0 else None
