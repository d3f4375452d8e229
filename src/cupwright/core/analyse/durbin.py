"""Durbin's test: do the coffees differ, when each taster had a few of them in a balanced plan?

Letters as in [Conover1999]: b tasters of k coffees each, t coffees had by r tasters each, R a rank sum.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import chdtrc, fdtrc

from cupwright.core.analyse.rank_null import (
    MOST_SHUFFLED,
    RESAMPLES,
    method_of,
    null_sums,
    within_taster_ranks,
)
from cupwright.core.analyse.scores import Scores, scores_of
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import NoSpread, Refused, TooFewObservations

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Durbin(Tabular):
    """Whether coffees of a balanced incomplete plan differ in rank.

    `chi2` (Conover's T1, ties allowed for) has the chance `p` by `method` ("exact", "permutation" or
    "chi-squared") and
    `p_chi2` for large tables; `f` (T2) and `p_f` are None where tasters agree in full.
    """

    coffees: tuple[str, ...]
    tasters: int
    per_taster: int
    rank_sums: tuple[float, ...]
    chi2: float
    df: int
    p: float
    method: str
    p_chi2: float
    f: float | None
    df_error: int
    p_f: float | None

    def rows(self) -> list[Record]:
        """One row a coffee."""
        return [{"coffee": c, "rank_sum": r} for c, r in zip(self.coffees, self.rank_sums, strict=True)]


def durbin(
    scores: Scores | Floats, *, resamples: int = RESAMPLES, rng: np.random.Generator | None = None
) -> Durbin:
    """Do the coffees differ, when every two of them met in equally many tasters' flights?

    Parameters
    ----------
    scores : Scores, or float array of shape (n_coffees, n_tasters[, n_repeats])
        NaN where a taster did not have the coffee. Only the order within a taster counts.
    resamples : int
        Shuffles, where the table is too large to be worked out in full; 0: the large-sample value at once.
    rng : numpy Generator
        None: a fixed seed.

    Raises
    ------
    Refused
        If the plan is not balanced.
    TooFewObservations
        If there are fewer than two coffees or two tasters.
    NoSpread
        If no taster scored any two coffees differently.

    Notes
    -----
    T1 = (t - 1) sum (R - r (k + 1)/2)^2 / (A - C), A the sum of squared ranks, C = b k (k + 1)^2 / 4;
    T2 = (T1 / (t - 1)) / ((b (k - 1) - T1) / (b k - b - t + 1)).
    Error: `p` exact given the ties, or as many shuffles allow; `p_chi2` is poor for few tasters, `p_f`
    better. With full flights this is Friedman's test.
    Source: [Durbin1951]; T1, T2 as in [Conover1999].
    """
    scores = scores_of(scores)
    k, r = _plan(scores)
    t, b = scores.counts.shape
    ranks = within_taster_ranks(scores.means)
    sums = np.nansum(ranks, axis=0)
    spread = float(np.nansum(ranks**2) - b * k * (k + 1) ** 2 / 4)
    if spread <= 0:
        raise NoSpread("No taster scored any two coffees differently.", todo="Report the common scores.")
    squares = float(((sums - r * (k + 1) / 2) ** 2).sum())
    feasible = 0 < b * t * resamples <= MOST_SHUFFLED
    null = null_sums(ranks, resamples=resamples, rng=rng) if feasible else None
    chi2 = (t - 1) * squares / spread
    p_chi2 = float(chdtrc(t - 1, chi2))
    df_error = b * k - b - t + 1
    f, p_f = _variance_ratio(chi2, t - 1, b * (k - 1), df_error)
    return Durbin(
        coffees=scores.coffees,
        tasters=b,
        per_taster=k,
        rank_sums=tuple(sums.tolist()),
        chi2=chi2,
        df=t - 1,
        p=null.at_least(((null.sums - r * (k + 1) / 2) ** 2).sum(axis=1), squares) if null else p_chi2,
        method=method_of(null),
        p_chi2=p_chi2,
        f=f,
        df_error=df_error,
        p_f=p_f,
    )


def is_balanced_plan(scores: Scores) -> bool:
    """Whether all tasters had equally many coffees, and every two coffees equally many tasters in common."""
    had = (scores.counts > 0).astype(int)
    met = had @ had.T
    apart = met[~np.eye(len(met), dtype=bool)]
    return all(len(np.unique(counts)) == 1 for counts in (had.sum(axis=0), np.diag(met), apart))


def _plan(scores: Scores) -> tuple[int, int]:
    t, b = scores.counts.shape
    if t < 2 or b < 2:
        raise TooFewObservations(
            f"Ranks are compared between 2 coffees and 2 tasters at least; here are {t} and {b}.",
            todo="Add scores, or read the table itself.",
        )
    if not is_balanced_plan(scores):
        raise Refused(
            "The plan is not balanced: two coffees met less often than others, or a flight is short.",
            todo="Use skillings_mack, which takes any plan.",
        )
    had = scores.counts > 0
    k, r = int(had[:, 0].sum()), int(had[0].sum())
    if k < 2:
        raise TooFewObservations(
            "Each taster had one coffee: nothing can be ranked.", todo="Serve two or more."
        )
    return k, r


def _variance_ratio(chi2: float, df: int, most: float, df_error: int) -> tuple[float | None, float | None]:
    # In full agreement nothing is left over, and the ratio has no value.
    if df_error < 1 or most - chi2 <= 1e-9 * most:
        return None, None
    f = (chi2 / df) / ((most - chi2) / df_error)
    return float(f), float(fdtrc(df, df_error, f))
