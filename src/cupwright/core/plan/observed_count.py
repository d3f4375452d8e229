"""Observed count: what a finished test of difference says, and how surely."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from scipy.special import betaincinv

from cupwright.core.analyse.estimate import Estimate
from cupwright.core.plan.critical_counts import (
    chance_of_finding,
    checked_answers,
    checked_chance,
)
from cupwright.core.plan.discrimination import (
    GUESSING,
    Method,
    discriminators_from_share,
    dprime_of,
    slope,
)
from cupwright.errors import Refused


@dataclass(frozen=True, slots=True)
class ObservedCount:
    """So many right of so many.

    `p_value` is the chance of at least as many by guessing; `share`, `discriminators` and `dprime` with their
    intervals; `dprime_error` the standard error of d', not a number where it cannot be told (at or below
    guessing, or all right).
    """

    method: Method
    right: int
    of: int
    p_value: float
    share: Estimate
    discriminators: Estimate
    dprime: Estimate
    dprime_error: float


def observed_count(method: Method, right: int, of: int, *, level: float = 0.95) -> ObservedCount:
    """Could so many right answers be luck, and how large a difference do they speak for?

    Parameters
    ----------
    method : Method
    right, of : int
        Right answers, of how many, one a taster. For the paired question: choices of one of the cups.
    level : float in (0, 1)
        Coverage of the intervals.

    Returns
    -------
    ObservedCount

    Raises
    ------
    Refused
        If the counts are not whole, below 0, or more right than answered; if the level is not between 0 and
        1.

    Notes
    -----
    The interval of the share is turned into those of the other two, so all three are equally sure; below
    guessing they end at 0, except for the paired question, which knows two directions.
    Error: the intervals cover at least `level`; the standard error is that of large samples (delta method).
    Source: exact binomial tail; [ClopperPearson1934]. Checked against scipy and statsmodels.
    """
    n = checked_answers(of)
    checked_chance(level, "A level", "level")
    if not math.isfinite(right) or right != int(right) or not 0 <= right <= n:
        raise Refused(
            f"{right:g} right of {n} is not a result.",
            todo=f"Give a whole number from 0 to {n}.",
            about="right",
        )
    share = _exact(int(right), n, level)
    dprime = _turned(share, lambda pc: dprime_of(method, pc))
    return ObservedCount(
        method=method,
        right=int(right),
        of=n,
        p_value=_p_value(method, int(right), n),
        share=share,
        discriminators=_turned(share, lambda pc: discriminators_from_share(method, pc)),
        dprime=dprime,
        dprime_error=_standard_error(method, share.estimate, n, dprime.estimate),
    )


def _p_value(method: Method, right: int, n: int) -> float:
    count = max(right, n - right) if method is Method.PAIRED else right
    both = 2 if method is Method.PAIRED else 1
    return min(1.0, both * float(chance_of_finding(n, count, Method.TWO_AFC, GUESSING[method])))


def _exact(right: int, n: int, level: float) -> Estimate:
    tail = (1 - level) / 2
    low = 0.0 if right == 0 else float(betaincinv(right, n - right + 1, tail))
    high = 1.0 if right == n else float(betaincinv(right + 1, n - right, 1 - tail))
    return Estimate(right / n, low, high, level)


def _turned(share: Estimate, into: Callable[[float], float]) -> Estimate:
    return Estimate(into(share.estimate), into(share.low), into(share.high), share.level)


def _standard_error(method: Method, share: float, n: int, dprime: float) -> float:
    """Nothing to stand on where the share says nothing of d' (at guessing), or where d' has no end."""
    if not math.isfinite(dprime) or dprime == 0 or not 0 < share < 1:
        return math.nan
    return math.sqrt(share * (1 - share) / n) / slope(method, abs(dprime))
