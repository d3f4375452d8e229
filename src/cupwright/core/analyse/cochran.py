"""Cochran's Q: do the coffees differ in how many tasters used a word, or ticked a box?

Letters as in [Cochran1950]: k coffees, G the ticks of a coffee, L the ticks of a taster, N all ticks.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import chdtrc

from cupwright.core.analyse.rank_null import MOST_SHUFFLED, RESAMPLES, null_sums
from cupwright.core.analyse.tabular import Tabular
from cupwright.errors import IncompleteTable, NoSpread, Refused, TooFewObservations

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class CochranQ(Tabular):
    """Whether shares of the same tasters differ over the coffees.

    `q` has the chance `p` by `method` ("exact", "permutation" or "chi-squared"), and `p_chi2` for large
    tables. `counts` are the tasters who used it, per coffee; `informative` those who used it for some coffees
    only.
    """

    q: float
    df: int
    p: float
    method: str
    p_chi2: float
    counts: tuple[int, ...]
    tasters: int
    informative: int


def cochran_q(
    used: ArrayLike, *, resamples: int = RESAMPLES, rng: np.random.Generator | None = None
) -> CochranQ:
    """Do the coffees differ in how many of the same tasters used a word?

    Parameters
    ----------
    used : bool or 0/1 array, shape (n_coffees, n_tasters)
        Every cell filled: did the taster use the word for the coffee?
    resamples : int
        Shuffles, where the table is too large to be worked out in full; 0: the large-sample value at once.
    rng : numpy Generator
        None: a fixed seed.

    Raises
    ------
    TooFewObservations
        If there are fewer than two coffees or no taster.
    NoSpread
        If every taster used it for all coffees or for none.
    IncompleteTable
        If a cell is NaN.
    Refused
        If a value is neither 0 nor 1.

    Notes
    -----
    Q = (k - 1) (k sum G^2 - N^2) / (k N - sum L^2). If the coffees do not differ, a taster's L ticks fall on
    any L of the k coffees equally often; the exact p value goes through all these cases.
    Error: `p` exact, or as many shuffles allow; `p_chi2` can be far off below some 24 informative cells.
    Tasters are taken as independent.
    Source: [Cochran1950]; the exact test [Patil1975].
    """
    ticks = _checked(used)
    k = len(ticks)
    of_coffee, of_taster = ticks.sum(axis=1), ticks.sum(axis=0)
    some = (of_taster > 0) & (of_taster < k)
    if not some.any():
        raise NoSpread(
            "Every taster used it for all coffees or for none.", todo="Report the common answer instead."
        )
    total = of_coffee.sum()
    q = (k - 1) * (k * (of_coffee**2).sum() - total**2) / (k * total - (of_taster**2).sum())
    p_chi2 = float(chdtrc(k - 1, q))
    p, method = _chance(ticks[:, some], resamples, rng) or (p_chi2, "chi-squared")
    counts = tuple(int(n) for n in of_coffee)
    return CochranQ(float(q), k - 1, p, method, p_chi2, counts, ticks.shape[1], int(some.sum()))


def _chance(ticks: Floats, resamples: int, rng: np.random.Generator | None) -> tuple[float, str] | None:
    """The p value and how it was had. Given the L, Q rises with the sum of squared counts alone."""
    if not 0 < ticks.size * resamples <= MOST_SHUFFLED:
        return None
    null = null_sums(ticks.T, resamples=resamples, rng=rng)
    p = null.at_least((null.sums**2).sum(axis=1), float((ticks.sum(axis=1) ** 2).sum()))
    return p, "exact" if null.exact else "permutation"


def _checked(used: ArrayLike) -> Floats:
    ticks = np.asarray(used, dtype=float)
    if ticks.ndim != 2 or ticks.shape[0] < 2 or ticks.shape[1] < 1:
        raise TooFewObservations(
            "Shares are compared between 2 coffees at least, of one taster or more.", todo="Add answers."
        )
    if np.isnan(ticks).any():
        coffee, taster = np.argwhere(np.isnan(ticks))[0]
        raise IncompleteTable(
            f"Taster {taster + 1} did not answer for coffee {coffee + 1}.",
            todo="Drop that coffee or that taster first.",
        )
    if not np.isin(ticks, (0, 1)).all():
        raise Refused("An answer is neither 0 nor 1.", todo="Give 1 where the word was used, else 0.")
    return ticks
