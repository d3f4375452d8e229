"""Discrimination size: how many tasters a test of difference needs.

One taster more may need one right answer more, so power falls in places while n grows, like the teeth of a
saw. Hence two answers: the first n that meets both errors, and the n from which every larger one does.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from cupwright.core.plan.critical_counts import (
    MOST_ANSWERS,
    chance_of_finding,
    checked_answers,
    checked_chance,
    least_right,
    most_right_if_alike,
)
from cupwright.core.plan.discrimination import (
    GUESSING,
    Method,
    discriminators_from_share,
    dprime_of,
    share_from_discriminators,
    share_right,
)
from cupwright.errors import Refused


@dataclass(frozen=True, slots=True)
class Effect:
    """A difference said three ways: share of right answers, share of tasters who can tell, distance d'."""

    share: float
    discriminators: float
    dprime: float


@dataclass(frozen=True, slots=True)
class Trial:
    """A test with so many tasters, one answer each.

    `least_right` and more count as a difference (None: not even all of them would); `most_right_if_alike` and
    fewer as likeness (None: no count would). `alpha` and `power` are what it really has. Power and likeness
    are None where no difference is named.
    """

    tasters: int
    least_right: int | None
    most_right_if_alike: int | None
    alpha: float
    power: float | None


@dataclass(frozen=True, slots=True)
class NeededTasters:
    """How many tasters: `first` meets both errors, and from `lasting` on every number does."""

    method: Method
    alpha: float
    power: float
    effect: Effect
    first: Trial
    lasting: Trial


def effect_of(method: Method, *, discriminators: float | None = None, dprime: float | None = None) -> Effect:
    """The difference to be found, from the share of tasters who can tell or from d'.

    Raises
    ------
    Refused
        If not exactly one of the two is given, or it is out of its range, or says that there is no
        difference.
    """
    if (discriminators is None) == (dprime is None):
        raise Refused(
            "How large a difference should be found is not said once.",
            todo="Give either the share of tasters who can tell (0.3) or the distance d' (1).",
            about="discriminators",
        )
    if discriminators is not None:
        share = share_from_discriminators(method, discriminators)
        effect = Effect(share, discriminators, dprime_of(method, share))
    else:
        # The condition above leaves no other case; the type checker cannot see it.
        distance = math.nan if dprime is None else dprime
        share = share_right(method, distance)
        effect = Effect(share, discriminators_from_share(method, share), distance)
    if effect.share <= GUESSING[method]:
        raise Refused(
            "Where there is no difference, none can be found.",
            todo="Say how large a difference should be found.",
            about="discriminators" if discriminators is not None else "dprime",
        )
    return effect


def needed_tasters(
    method: Method, effect: Effect, *, alpha: float = 0.05, power: float = 0.9
) -> NeededTasters:
    """How many tasters find this difference so often?

    Parameters
    ----------
    method : Method
    effect : Effect
        The difference to be found, from `effect_of`.
    alpha, power : float in (0, 1)
        Error where there is no difference, at most; chance to find one of that size, at least.

    Returns
    -------
    NeededTasters

    Raises
    ------
    Refused
        If alpha or power is not between 0 and 1, or more than 100,000 tasters would be needed.

    Notes
    -----
    Every n is looked at up to a bound beyond which none can fail: for any share a between guessing and pc
    both tails are at most exp(-n KL), KL the divergence of a from either [Chernoff1952].
    Error: none, if tasters answer once each and independently of each other.
    Source: exact binomial; checked against fractions and the kind of table in [ISO4120].
    """
    checked_chance(alpha, "An error", "alpha")
    checked_chance(power, "A power", "power")
    first, lasting = _first_and_lasting(method, effect.share, alpha, power)
    trials = [trial(method, n, effect, alpha=alpha, power=power) for n in (first, lasting)]
    return NeededTasters(method, alpha, power, effect, *trials)


def trial(
    method: Method, tasters: int, effect: Effect | None = None, *, alpha: float = 0.05, power: float = 0.9
) -> Trial:
    """What can a test with so many tasters tell? 1 - `power` is the error of calling different coffees alike.

    Raises Refused for a number of tasters, an alpha or a power out of range.
    """
    n = checked_answers(tasters)
    checked_chance(power, "A power", "power")
    least = int(least_right(n, method, alpha))
    return Trial(
        tasters=n,
        least_right=least if least <= n else None,
        most_right_if_alike=None
        if effect is None
        else most_right_if_alike(n, method, 1 - power, effect.share),
        alpha=float(chance_of_finding(n, least, method, GUESSING[method])),
        power=None if effect is None else float(chance_of_finding(n, least, method, effect.share)),
    )


# A desk asks for the same sizes again and again while its form is filled in.
@lru_cache(maxsize=256)
def _first_and_lasting(method: Method, share: float, alpha: float, power: float) -> tuple[int, int]:
    bound = _surely_enough(GUESSING[method], share, alpha / (2 if method is Method.PAIRED else 1), 1 - power)
    if bound > 4 * MOST_ANSWERS:
        raise _too_many()
    n = np.arange(1, math.ceil(bound) + 1)
    met = chance_of_finding(n, least_right(n, method, alpha), method, share) >= power * (1 - 1e-12)
    failing = np.flatnonzero(~met)
    lasting = int(n[failing[-1]]) + 1 if failing.size else 1
    if lasting > MOST_ANSWERS:
        raise _too_many()
    return int(n[np.argmax(met)]), lasting


def _too_many() -> Refused:
    return Refused(
        f"So small a difference takes more tasters than the {MOST_ANSWERS:,} that are counted up to.",
        todo="Ask for a larger one, or for less power.",
        about="dprime",
    )


def _surely_enough(guessing: float, share: float, alpha: float, beta: float) -> float:
    """An n from which both errors are kept for certain: the best share a between the two, by bisection."""
    low, high = guessing, share
    for _ in range(60):
        middle = (low + high) / 2
        first, second = (
            -math.log(alpha) / _divergence(middle, guessing),
            -math.log(beta) / _divergence(middle, share),
        )
        low, high = (middle, high) if first > second else (low, middle)
    return (
        max(
            -math.log(alpha) / _divergence(high, guessing),
            -math.log(beta) / _divergence(low, share) if low < share else 1.0,
        )
        + 1
    )


def _divergence(a: float, p: float) -> float:
    """Kullback-Leibler divergence of two coins, in nats; infinite where one of them knows no luck."""

    def part(x: float, y: float) -> float:
        return 0.0 if x == 0 else math.inf if y == 0 else x * math.log(x / y)

    return max(part(a, p) + part(1 - a, 1 - p), 5e-324)
