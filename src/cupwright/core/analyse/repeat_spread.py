"""The spread of repeats: how far one answer scatters when the same taster meets the same coffee again."""

from collections.abc import Iterable, Sequence

import numpy as np
from scipy.special import chdtri

from cupwright.core.analyse.estimate import Estimate

FEWEST = 2


def repeat_spread(groups: Iterable[Sequence[float]], *, level: float = 0.95) -> tuple[Estimate | None, int]:
    """How far does one answer scatter when the same taster meets the same coffee again?

    Parameters
    ----------
    groups : iterable of sequences of float
        One taster's values for one coffee each, in the unit of the scale; groups of one say nothing.
    level : float in (0, 1)
        Coverage of the interval.

    Returns
    -------
    (Estimate or None, int)
        The pooled standard deviation, in the unit of the scale, and its degrees of freedom f. None below two
        degrees of freedom, and where all values of every group are equal.

    Notes
    -----
    s = sqrt(Q / f), Q the squares about each group's mean, f the values less the groups; for n pairs that is
    sqrt(sum d^2 / 2n). Interval: sqrt(Q / chi2(1 - a/2; f)) to sqrt(Q / chi2(a/2; f)).
    Error: exact for independent normal deviations of one spread for all tasters; heavier tails or uneven
    tasters make it too narrow. What shifts the second meeting as a whole (a cooler cup) counts as scatter.
    Source: [Dahlberg1940]; [ISO5725-2].
    """
    several = [np.asarray(group, dtype=float) for group in groups if len(group) > 1]
    freedom = sum(len(group) - 1 for group in several)
    squares = float(sum(((group - group.mean()) ** 2).sum() for group in several))
    return spread_of(squares, freedom, level), freedom


def spread_of(squares: float, freedom: int, level: float) -> Estimate | None:
    """The standard deviation behind a sum of squares, with its chi-square interval.

    None below two degrees of freedom, and where the sum is 0.
    """
    if freedom < FEWEST or squares == 0:
        return None
    tail = (1 - level) / 2
    # chdtri takes the area above.
    low, high = (float(np.sqrt(squares / chdtri(freedom, area))) for area in (tail, 1 - tail))
    return Estimate(float(np.sqrt(squares / freedom)), low, high, level)
