"""Discrimination: tests that ask whether two coffees can be told apart at all, and what a right answer says.

    pc   share of right answers
    g    share that guessing alone gives
    pd   share of tasters who tell the coffees apart: pc = g + pd (1 - g)
    d'   distance of the two coffees as they are sensed, in standard deviations of one impression

Each impression is taken as normal with one spread, as in [Thurstone1927]; the task decides how distance
becomes right answers.
"""

from collections.abc import Callable, Mapping
from enum import StrEnum
from math import inf, isfinite, sqrt

import numpy as np
from scipy.optimize import brentq
from scipy.special import erf, ndtr, ndtri

from cupwright.core.plan.quadrature import NORMAL_ENDS, nodes, normal_density
from cupwright.errors import Refused


class Method(StrEnum):
    """How the question is put to the taster."""

    TRIANGLE = "triangle"  # three cups, two alike: which is the odd one?
    DUO_TRIO = "duo-trio"  # one cup is named; which of two others is like it?
    TWO_AFC = "2-afc"  # two cups: which has more of something named?
    THREE_AFC = "3-afc"  # three cups, two alike: which has more of something named?
    PAIRED = "paired"  # two cups: which has more, or is liked better, either way round
    TWO_OF_FIVE = "two-out-of-five"  # five cups, two of one coffee and three of the other: which are the two?


GUESSING: Mapping[Method, float] = {
    Method.TRIANGLE: 1 / 3,
    Method.DUO_TRIO: 1 / 2,
    Method.TWO_AFC: 1 / 2,
    Method.THREE_AFC: 1 / 3,
    Method.PAIRED: 1 / 2,
    Method.TWO_OF_FIVE: 1 / 10,
}

# Beyond this distance every method's share of right answers is 1 to the last digit or nearly so.
FARTHEST = 30.0


def share_right(method: Method, dprime: float) -> float:
    """What share of answers is right when the coffees lie this far apart?

    Parameters
    ----------
    method : Method
    dprime : float
        Distance d' >= 0, in standard deviations of one impression.

    Returns
    -------
    float
        pc, from the guessing share to 1; rises with d'.

    Raises
    ------
    Refused
        If d' is negative or not a number.

    Notes
    -----
    Two-out-of-five: the taster is taken to make the split that leaves the least spread inside its two groups.
    Error: below 1e-12 (quadrature; closed form for 2-AFC, paired and duo-trio). The model itself leaves out
    memory, sequence and tasters who differ.
    Source: [Thurstone1927], [Ennis1993]; two-out-of-five derived here. Checked against 25-digit quadrature
    and against draws.
    """
    if not (isfinite(dprime) and dprime >= 0):
        raise Refused(
            f"A distance d' of {dprime:g} is not a number from 0 upwards.",
            todo="Give 1 for a small and 2 for a plain difference.",
            about="dprime",
        )
    # Sums of weights may end a last digit above 1.
    return min(1.0, _SHARES[method](min(dprime, 2 * FARTHEST)))


def dprime_of(method: Method, share: float) -> float:
    """How far apart do coffees lie of which this share of answers is right?

    Parameters
    ----------
    method : Method
    share : float in 0..1
        pc. At or below the guessing share the distance is 0; the paired question is asked both ways, so there
        a share below one half gives a negative distance.

    Returns
    -------
    float
        d' in standard deviations of one impression; infinite if every answer is right.

    Raises
    ------
    Refused
        If the share is not in 0..1.

    Notes
    -----
    Error: the root is found to 1e-12; where pc is next to 1, d' is no better known than pc's last digits
    allow.
    Source: inverse of `share_right`.
    """
    _in_unit(share, "share of right answers", "share")
    if method is Method.PAIRED and share < GUESSING[method]:
        return -dprime_of(method, 1 - share)
    if share <= GUESSING[method]:
        return 0.0
    if method in (Method.TWO_AFC, Method.PAIRED):
        return sqrt(2) * float(ndtri(share))
    if share >= share_right(method, FARTHEST):
        return inf
    return float(brentq(lambda d: share_right(method, d) - share, 0.0, FARTHEST, xtol=1e-13))


def share_from_discriminators(method: Method, discriminators: float) -> float:
    """pc when a share pd of the tasters always tells the coffees apart and the others guess.

    Raises Refused if pd is not in 0..1. Source: [Abbott1925].
    """
    _in_unit(discriminators, "share of tasters who can tell", "discriminators")
    guessing = GUESSING[method]
    return guessing + discriminators * (1 - guessing)


def discriminators_from_share(method: Method, share: float) -> float:
    """pd behind a share pc of right answers; at or below guessing 0, or negative for the paired question.

    Raises Refused if pc is not in 0..1. Source: [Abbott1925].
    """
    _in_unit(share, "share of right answers", "share")
    guessing = GUESSING[method]
    found = (share - guessing) / (1 - guessing)
    return found if method is Method.PAIRED else max(0.0, found)


def slope(method: Method, dprime: float) -> float:
    """Rise of the share of right answers per unit of d', by a central difference: error 1e-8."""
    step = 1e-4
    low = max(0.0, dprime - step)
    return (share_right(method, dprime + step) - share_right(method, low)) / (dprime + step - low)


def _in_unit(value: float, what: str, about: str) -> None:
    # Not a number fails every comparison.
    if not 0 <= value <= 1:
        raise Refused(
            f"A {what} of {value:g} is not between 0 and 1.", todo="Give 0.3 for 30 %.", about=about
        )


_HALF, _HALF_WEIGHTS = nodes(0.0, NORMAL_ENDS)
_WHOLE, _WHOLE_WEIGHTS = nodes(-NORMAL_ENDS, NORMAL_ENDS, panels=2)


def _triangle(d: float) -> float:
    near, shift = -_HALF * sqrt(3), d * sqrt(2 / 3)
    return float(
        2 * np.sum((ndtr(near + shift) + ndtr(near - shift)) * normal_density(_HALF) * _HALF_WEIGHTS)
    )


def _duo_trio(d: float) -> float:
    a, b = float(ndtr(d / sqrt(2))), float(ndtr(d / sqrt(6)))
    return 1 - a - b + 2 * a * b


def _two_afc(d: float) -> float:
    return float(ndtr(d / sqrt(2)))


def _three_afc(d: float) -> float:
    return float(np.sum(ndtr(_WHOLE + d) ** 2 * normal_density(_WHOLE) * _WHOLE_WEIGHTS))


def _two_of_five(d: float) -> float:
    return _pair_above(d) + _pair_above(-d)


def _pair_above(d: float) -> float:
    """Chance that the pair lies above the three others and is told to be the pair.

    Of five impressions in order the two upper ones are split off if the middle one lies below the mean of
    all. With m the highest of the three, s what the pair has above m and t what the other two lack below it,
    that means s > t. Given m, s and t are normal sums times erf(s/2) and erf(t/2); m is integrated out by
    hand.
    """
    t, t_weights = nodes(0.0, 26.0, panels=2, each=32)
    lowest = max(0.0, 2 * d - 52.0)
    beyond, beyond_weights = nodes(lowest, max(2 * d, 0.0) + 26.0, panels=4, each=32)
    s = t[:, None] + beyond
    excess = s - 2 * d
    exponent = -(excess**2 + t[:, None] ** 2) / 4 + (excess - t[:, None]) ** 2 / 10
    inside = np.exp(exponent) * erf(s / 2) * erf(t[:, None] / 2)
    return float(3 / (4 * np.pi * sqrt(5)) * (t_weights @ inside @ beyond_weights))


_SHARES: Mapping[Method, Callable[[float], float]] = {
    Method.TRIANGLE: _triangle,
    Method.DUO_TRIO: _duo_trio,
    Method.TWO_AFC: _two_afc,
    Method.THREE_AFC: _three_afc,
    Method.PAIRED: _two_afc,
    Method.TWO_OF_FIVE: _two_of_five,
}
