"""McNemar's test: did the same tasters use a word for one coffee more often than for another?"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import bdtr, gammaln

from cupwright.core.analyse.tabular import Tabular
from cupwright.errors import Refused, TooFewObservations


@dataclass(frozen=True, slots=True)
class McNemar(Tabular):
    """The four counts of tasters, and the chance of so uneven a split of those who differ.

    `p` is exact and two-sided; `mid_p` counts the observed split half, less cautious; `chi2` is the
    large-sample statistic without a correction (None if nobody differs).
    """

    both: int
    only_first: int
    only_second: int
    neither: int
    p: float
    mid_p: float
    chi2: float | None


def mcnemar(first: ArrayLike, second: ArrayLike) -> McNemar:
    """Do two shares of the same tasters differ?

    Parameters
    ----------
    first, second : bool or 0/1 arrays, shape (n_tasters,)
        Each taster's answer for the one coffee and for the other.

    Raises
    ------
    TooFewObservations
        If there is no taster.
    Refused
        If the two are not of one length, or an answer is neither 0 nor 1.

    Notes
    -----
    Of those who used the word for one of the two coffees only, half would be on each side if the coffees did
    not differ: p = 2 P(X <= smaller), X binomial with chance 1/2; the mid-p leaves out one P(X = smaller).
    Error: exact and cautious; fewer than six who differ can never reach 0.05. The mid-p passes its level by a
    little at times.
    Source: [McNemar1947]; mid-p [Fagerland2013].
    """
    one, other = np.asarray(first, dtype=float), np.asarray(second, dtype=float)
    if one.shape != other.shape or one.ndim != 1:
        raise Refused("The two rows of answers differ in length.", todo="Give the same tasters in both.")
    if not len(one):
        raise TooFewObservations("Nobody answered for both coffees.", todo="Add answers.")
    if not (np.isin(one, (0, 1)).all() and np.isin(other, (0, 1)).all()):
        raise Refused("An answer is neither 0 nor 1.", todo="Give 1 where the word was used, else 0.")
    b, c = int(((one == 1) & (other == 0)).sum()), int(((one == 0) & (other == 1)).sum())
    both = int(((one == 1) & (other == 1)).sum())
    p = float(uneven_split(b, c))
    mid_p = _mid(p, min(b, c), b + c)
    chi2 = (b - c) ** 2 / (b + c) if b + c else None
    return McNemar(both, b, c, len(one) - both - b - c, p, mid_p, chi2)


def uneven_split(only_first: ArrayLike, only_second: ArrayLike) -> NDArray[np.float64]:
    """The exact two-sided p of each split of those who differ; 1 where nobody does."""
    b, c = np.asarray(only_first), np.asarray(only_second)
    # bdtr of no trials is 1, and twice that is cut.
    return np.asarray(np.minimum(2 * bdtr(np.minimum(b, c), b + c, 0.5), 1.0))


def _mid(p: float, smaller: int, of: int) -> float:
    """The mid-p: the observed split counted half on each side."""
    if not of:
        return 1.0
    here = float(np.exp(gammaln(of + 1) - gammaln(smaller + 1) - gammaln(of - smaller + 1) - of * np.log(2)))
    # An even split would be counted from both sides: the two tails share it.
    return p - here if 2 * smaller < of else 1 - here / 2
