"""The chance of a category, as the part of a latent distribution between two thresholds.

Letters: F the distribution function, f its density; a and b the upper and the lower threshold, less what
moves the answer; g = log(F(a) - F(b)). With c the common shift (a - c, b - c): g_c = -(g_a + g_b).
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray
from scipy.special import expit, log_expit, ndtr

Floats = NDArray[np.float64]

# Stands for an infinite threshold: F is 0 or 1 there to the last digit, and nothing becomes inf - inf.
BEYOND = 1e3
_LEAST = 1e-300


class Link(StrEnum):
    """Which distribution the latent scale has."""

    LOGIT = "logit"
    PROBIT = "probit"

    @property
    def logits(self) -> float:
        """What one unit of its latent scale is in logits, about [Amemiya1981]."""
        return 1.0 if self is Link.LOGIT else 1.6


@dataclass(frozen=True, slots=True)
class Slopes:
    """g and its derivatives; `ca` is that of g_c by a, `cca` that of g_cc by a."""

    g: Floats
    a: Floats
    b: Floats
    ab: Floats
    ca: Floats
    cb: Floats
    cca: Floats
    ccb: Floats

    @property
    def c(self) -> Floats:
        """g_c, by the shift."""
        return -self.a - self.b

    @property
    def cc(self) -> Floats:
        """g_cc; never above 0, as both latent densities are log-concave [Pratt1981]."""
        return -self.ca - self.cb

    @property
    def ccc(self) -> Floats:
        """g_ccc."""
        return -self.cca - self.ccb


def slopes(link: Link, a: Floats, b: Floats) -> Slopes:
    """g and derivatives at thresholds a > b."""
    return _logit(a, b) if link is Link.LOGIT else _probit(a, b)


def _logit(a: Floats, b: Floats) -> Slopes:
    # F(a) - F(b) = F(a) F(-b) (1 - exp(b - a)): no difference of near numbers, and c moves two factors alone.
    above, below = expit(-a), expit(b)
    gap = np.exp(b - a)
    rest = -np.expm1(b - a)
    lost = gap / rest
    density_a, density_b = above * (1 - above), below * (1 - below)
    return Slopes(
        g=log_expit(a) + log_expit(-b) + np.log(rest),
        a=above + lost,
        b=-below - lost,
        ab=lost / rest,
        ca=density_a,
        cb=density_b,
        cca=-density_a * (2 * above - 1),
        ccb=-density_b * (1 - 2 * below),
    )


def _probit(a: Floats, b: Floats) -> Slopes:
    # In the upper tail both are near 1: the difference is taken in the lower one.
    flip = a + b > 0
    p = np.maximum(ndtr(np.where(flip, -b, a)) - ndtr(np.where(flip, -a, b)), _LEAST)
    root = np.sqrt(2 * np.pi)
    fa, fb = np.exp(-(a**2) / 2) / root / p, np.exp(-(b**2) / 2) / root / p
    a1, a2, a3 = fa, -a * fa, (a**2 - 1) * fa
    b1, b2, b3 = -fb, b * fb, -(b**2 - 1) * fb
    aa, ab, bb = a2 - a1**2, -a1 * b1, b2 - b1**2
    aaa, bbb = a3 - 3 * a1 * a2 + 2 * a1**3, b3 - 3 * b1 * b2 + 2 * b1**3
    aab, abb = 2 * a1**2 * b1 - a2 * b1, 2 * a1 * b1**2 - a1 * b2
    return Slopes(
        g=np.log(p),
        a=a1,
        b=b1,
        ab=ab,
        ca=-aa - ab,
        cb=-ab - bb,
        cca=aaa + 2 * aab + abb,
        ccb=aab + 2 * abb + bbb,
    )
