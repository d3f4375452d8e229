"""Critical counts: how many right answers of n are too many for luck, and how few speak for likeness.

All exact binomial sums; a two-sided question (Method.PAIRED) counts the answers for whichever cup was chosen
more.
"""

import math
from collections.abc import Callable

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import bdtr, bdtrc, ndtri

from cupwright.core.plan.discrimination import GUESSING, Method
from cupwright.errors import Refused

Floats = NDArray[np.float64]
Counts = NDArray[np.int64]

MOST_ANSWERS = 100_000
RAREST = 1e-9

# A tail that equals its bound as a fraction (1/1000 at .001) may differ from it in its last digits.
_SAME = 1 + 1e-12


def least_right(answers: ArrayLike, method: Method, alpha: float) -> Counts:
    """From how many right answers on does a test count as showing a difference?

    Parameters
    ----------
    answers : int array, any shape
        n, how many answered, each at least 0.
    method : Method
    alpha : float in (0, 1)
        How often at most the test may find a difference where there is none.

    Returns
    -------
    int array, the same shape
        The smallest count x with P(X >= x | guessing) <= alpha; n + 1 where even n right answers are too few.

    Raises
    ------
    Refused
        If alpha is not between 0 and 1.

    Notes
    -----
    Error: none; the true error is at most alpha, and usually under it since counts come in steps.
    Source: exact binomial tail; checked against the published table of [FAO-V7180E] and fractions.
    """
    checked_chance(alpha, "An error", "alpha")
    n = np.atleast_1d(np.asarray(answers, dtype=np.int64))
    bound = (alpha / 2 if method is Method.PAIRED else alpha) * _SAME
    count = _first_guess(n, GUESSING[method], bound)
    _step(count, n, 1, lambda k, of: _tail(k, of, GUESSING[method]) > bound)
    _step(count, n, -1, lambda k, of: (k > 0) & (_tail(k - 1, of, GUESSING[method]) <= bound))
    return count.reshape(np.shape(answers))


def _first_guess(n: Counts, guessing: float, bound: float) -> Counts:
    """The normal count, which is right or a step or two off."""
    z = float(ndtri(1 - min(bound, 1 - 1e-16)))
    near = n * guessing + z * np.sqrt(n * guessing * (1 - guessing)) + 0.5
    return np.asarray(np.clip(np.ceil(near), 0, n + 1), dtype=np.int64)


def _step(count: Counts, n: Counts, by: int, wrong: Callable[[Counts, Counts], NDArray[np.bool_]]) -> None:
    """Move each count for as long as it is wrong."""
    moving = np.flatnonzero(wrong(count, n))
    while moving.size:
        count[moving] += by
        moving = moving[wrong(count[moving], n[moving])]


def _tail(count: Counts, n: Counts, share: float) -> Floats:
    """P(X >= count)."""
    return np.where(count <= 0, 1.0, bdtrc(count - 1.0, n, share))


def chance_of_finding(answers: ArrayLike, count: ArrayLike, method: Method, share: float) -> Floats:
    """How often does a test with these critical counts find what is there: its power.

    Parameters
    ----------
    answers, count : int arrays, one shape
        n, and the least count that is called a difference (n + 1: none is).
    method : Method
    share : float in 0..1
        True share pc of right answers; for the paired question of answers for the cup that has more.

    Returns
    -------
    float array, the same shape
        Chance in 0..1; for the paired question a finding either way round.

    Notes
    -----
    Error: none beyond the last digits of the library's incomplete beta function.
    Source: exact binomial tail.
    """
    n, least = np.asarray(answers, dtype=np.int64), np.asarray(count, dtype=np.int64)
    found = _tail(least, n, share)
    if method is Method.PAIRED:
        found = np.where(least <= n, found + bdtr(np.maximum(n - least, 0.0), n, share), found)
    return np.asarray(np.minimum(found, 1.0))


def most_right_if_alike(answers: int, method: Method, beta: float, share: float) -> int | None:
    """Up to how many right answers does a test speak for coffees that are as good as alike?

    Parameters
    ----------
    answers : int
        n >= 1.
    method : Method
    beta : float in (0, 1)
        How often at most likeness may be claimed where the share of right answers is `share`.
    share : float in 0..1
        The pc that would be too much of a difference.

    Returns
    -------
    int or None
        The largest x with P(X <= x | pc) <= beta; None if even x = 0 would claim too often.

    Raises
    ------
    Refused
        If n is no number of answers, or beta not between 0 and 1.

    Notes
    -----
    Error: none; the true error is at most beta.
    Source: exact binomial tail, the rule behind the similarity tables of [ISO4120].
    """
    checked_chance(beta, "An error", "beta")
    n = checked_answers(answers)
    counts = np.arange(n + 1)
    claimed = bdtr(counts.astype(float), n, share)
    if method is Method.PAIRED:
        # The larger of the two counts is at most x: both are.
        other = n - counts - 1
        claimed = np.where(
            2 * counts < n, 0.0, claimed - bdtr(np.maximum(other, 0.0), n, share) * (other >= 0)
        )
        least = (n + 1) // 2
    else:
        least = 0
    most = int(np.searchsorted(claimed, beta * _SAME, side="right")) - 1
    return most if most >= least else None


def checked_chance(value: float, what: str, about: str) -> None:
    """Raise Refused unless a chance lies between 0 and 1, a billionth or more from either."""
    if not 0 < value < 1:
        raise Refused(
            f"{what} of {value:g} is not between 0 and 1.",
            todo="Give 0.05 for 5 in 100, 0.9 for 90 in 100.",
            about=about,
        )
    if not RAREST <= value <= 1 - RAREST:
        raise Refused(
            f"{what} of {value!r} is nearer to 0 or 1 than one in a billion.",
            todo="Give 0.001 or 0.999 for nearly never or always.",
            about=about,
        )


def checked_answers(answers: float, about: str = "of") -> int:
    """A number of answers as it can be counted. Raises Refused."""
    if not math.isfinite(answers) or answers != int(answers) or not 1 <= answers <= MOST_ANSWERS:
        raise Refused(
            f"{answers:g} is not a number of answers between 1 and {MOST_ANSWERS:,}.",
            todo="Give how many answered, one answer a taster.",
            about=about,
        )
    return int(answers)
