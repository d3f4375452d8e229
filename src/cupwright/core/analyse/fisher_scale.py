"""A scale on which a correlation's spread hardly depends on itself: log((1 + (m - 1) r) / (1 - r)).

For m = 2 it is twice Fisher's z; for the consistency of m tasters it is log(MSR / MSE) [Fisher1925].
"""

import numpy as np
from numpy.typing import NDArray
from scipy.special import stdtrit

Floats = NDArray[np.float64]


def spread_out(r: Floats | float, m: float) -> Floats:
    """r on that scale; infinite at its two ends, -1 / (m - 1) and 1, and beyond them."""
    values = np.asarray(r, dtype=float)
    above, below = 1 + (m - 1) * values, 1 - values
    inside = (above > 0) & (below > 0)
    ratio = np.divide(above, below, out=np.ones_like(values), where=inside)
    return np.where(inside, np.log(ratio), np.where(below > 0, -np.inf, np.inf))


def drawn_in(z: float, m: float) -> float:
    """Back from that scale; the inverse of `spread_out`, between -1 / (m - 1) and 1."""
    # Past 700 the exponential overflows, and 1 is the answer to 300 digits.
    ratio = float(np.exp(min(z, 700.0)))
    return (ratio - 1) / (ratio + m - 1)


def resampled_interval(
    estimate: float, drawn: Floats, m: float, freedom: int, level: float
) -> tuple[float, float] | None:
    """Ends from resamples: less their bias, Student's t times their spread, on the scale of `spread_out`.

    None where half of the resamples or more have no place on the scale, or the estimate has none.
    """
    z, centre = spread_out(drawn, m), float(spread_out(estimate, m))
    finite = z[np.isfinite(z)]
    if not np.isfinite(centre) or 2 * len(finite) <= len(z):
        return None
    centre -= float(finite.mean()) - centre
    # Resamples of n rows scatter by (n - 1) / n of the variance that the estimate has.
    spread = float(finite.std()) * ((freedom + 1) / freedom) ** 0.5
    reach = float(stdtrit(freedom, (1 + level) / 2)) * spread
    return drawn_in(centre - reach, m), drawn_in(centre + reach, m)
