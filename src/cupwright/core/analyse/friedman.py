"""Friedman's test: do the coffees differ, when each taster's scores are turned into ranks of their own?

Letters as in [Conover1999]: b tasters, k coffees, R the rank sum of a coffee, r a single rank.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import chdtrc, fdtrc, ndtr, ndtri

from cupwright.core.analyse.level import checked_level
from cupwright.core.analyse.rank_null import (
    MOST_SHUFFLED,
    RESAMPLES,
    NullSums,
    method_of,
    null_sums,
    within_taster_ranks,
)
from cupwright.core.analyse.scores import Scores, scores_of
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import IncompleteTable, NoSpread, TooFewObservations

Floats = NDArray[np.float64]

# Pairs of more coffees are read by nobody.
MOST_PAIRED = 200


@dataclass(frozen=True, slots=True)
class RankPair(Tabular):
    """Rank sum of coffee `a` less that of `b`; `p` allows for all pairs having been looked at."""

    a: str
    b: str
    difference: float
    p: float


@dataclass(frozen=True, slots=True)
class Friedman(Tabular):
    """Whether the coffees differ in rank, and which pairs.

    `rank_sums` and `mean_ranks` per coffee, 1 the lowest score. `chi2` allows for ties; `p` is its chance
    without any difference by `method`: "exact", "permutation", or "chi-squared" for very large tables.
    `p_chi2` is the large-sample value, `f` and `p_f` the variance ratio of the ranks (None if the tasters
    agree in full). `least_difference` of two rank sums stands out at `level` for one pair named beforehand,
    by the normal approximation; `least_difference_all` for any pair of all (None if
    none can). `pairs` is empty with more than 200 coffees.
    """

    coffees: tuple[str, ...]
    tasters: int
    rank_sums: tuple[float, ...]
    mean_ranks: tuple[float, ...]
    chi2: float
    df: int
    p: float
    method: str
    p_chi2: float
    f: float | None
    p_f: float | None
    pairs: tuple[RankPair, ...]
    least_difference: float
    least_difference_all: float | None
    level: float

    def rows(self) -> list[Record]:
        """One row a coffee."""
        return [
            {"coffee": coffee, "rank_sum": total, "mean_rank": mean}
            for coffee, total, mean in zip(self.coffees, self.rank_sums, self.mean_ranks, strict=True)
        ]


def friedman(
    scores: Scores | Floats,
    *,
    level: float = 0.95,
    resamples: int = RESAMPLES,
    rng: np.random.Generator | None = None,
) -> Friedman:
    """Do the coffees differ, whatever scale each taster has in mind?

    Parameters
    ----------
    scores : Scores, or float array of shape (n_coffees, n_tasters[, n_repeats])
        Scores or ranks, any unit; only their order within a taster counts. Repeats are averaged first.
    level : float in (0, 1)
        Of the least differences.
    resamples : int
        Shuffles, where the table is too large to be worked out in full; 0: the large-sample value at once.
    rng : numpy Generator
        None: a fixed seed.

    Raises
    ------
    IncompleteTable
        If a taster did not score a coffee.
    TooFewObservations
        If there are fewer than two coffees or two tasters.
    NoSpread
        If no taster scored any two coffees differently.
    Refused
        If the level is not between 0 and 1.

    Notes
    -----
    chi2 = (k - 1) sum (R - b(k + 1)/2)^2 / (sum r^2 - b k (k + 1)^2 / 4); pairs by the chance that the
    largest rank sum exceeds the smallest by as much, if no coffee differs.
    Error: `p` exact given the ties, or off by sqrt(p (1 - p) / resamples) at most in one case of three; it
    takes tasters as independent, and nothing else. The pairs hold together if no coffee differs; where some
    do, two alike coffees that spread far more than all others may stand out too often.
    Source: [Friedman1937]; ties and F [Conover1999]; F [ImanDavenport1980]; pairs [Nemenyi1963], with the
    exact distribution of the range for the normal one.
    """
    scores, level = scores_of(scores), checked_level(level)
    ranks = _ranks(scores)
    b, k = ranks.shape
    sums = ranks.sum(axis=0)
    spread = float((ranks**2).sum() - b * k * (k + 1) ** 2 / 4)
    if spread <= 0:
        raise NoSpread("No taster scored any two coffees differently.", todo="Report the common scores.")
    chi2 = (k - 1) * _squares(sums[None], b)[0] / spread
    feasible = 0 < b * k * resamples <= MOST_SHUFFLED
    null = null_sums(ranks, resamples=resamples, rng=rng) if feasible else None
    f, p_f = _variance_ratio(chi2, b, k)
    p_chi2 = float(chdtrc(k - 1, chi2))
    return Friedman(
        coffees=scores.coffees,
        tasters=b,
        rank_sums=tuple(sums.tolist()),
        mean_ranks=tuple((sums / b).tolist()),
        chi2=float(chi2),
        df=k - 1,
        p=null.at_least(_squares(null.sums, b), _squares(sums[None], b)[0]) if null else p_chi2,
        method=method_of(null),
        p_chi2=p_chi2,
        f=f,
        p_f=p_f,
        pairs=_pairs(scores.coffees, sums, null, b),
        least_difference=float(ndtri((1 + level) / 2) * np.sqrt(b * k * (k + 1) / 6)),
        least_difference_all=_least_of_all(null, level),
        level=level,
    )


def _ranks(scores: Scores) -> Floats:
    k, b = scores.counts.shape
    if k < 2 or b < 2:
        raise TooFewObservations(
            f"Ranks are compared between 2 coffees and 2 tasters at least; here are {k} and {b}.",
            todo="Add scores, or read the table itself.",
        )
    if not scores.counts.all():
        row, column = np.argwhere(scores.counts == 0)[0]
        raise IncompleteTable(
            f"Taster {scores.tasters[column]} did not score coffee {scores.coffees[row]}.",
            todo="Use skillings_mack, or drop that coffee or that taster.",
        )
    return within_taster_ranks(scores.means)


def _squares(sums: Floats, b: int) -> Floats:
    """Sum of squares of the rank sums about their mean, for each row."""
    return np.asarray(((sums - b * (sums.shape[1] + 1) / 2) ** 2).sum(axis=1))


def _variance_ratio(chi2: float, b: int, k: int) -> tuple[float | None, float | None]:
    left = b * (k - 1) - chi2
    # In full agreement nothing is left over, and the ratio has no value.
    if left <= 1e-9 * b * k:
        return None, None
    f = (b - 1) * chi2 / left
    return float(f), float(fdtrc(k - 1, (b - 1) * (k - 1), f))


def _pairs(coffees: tuple[str, ...], sums: Floats, null: NullSums | None, b: int) -> tuple[RankPair, ...]:
    if len(coffees) > MOST_PAIRED:
        return ()
    first, second = np.triu_indices(len(sums), 1)
    gaps = sums[first] - sums[second]
    chances = null.tails(_ranges(null), np.abs(gaps)) if null else _normal(np.abs(gaps), b, len(sums))
    return tuple(
        RankPair(coffees[i], coffees[j], float(gap), float(p))
        for i, j, gap, p in zip(first, second, gaps, chances, strict=True)
    )


def _ranges(null: NullSums) -> Floats:
    return np.asarray(null.sums.max(axis=1) - null.sums.min(axis=1))


def _normal(gaps: Floats, b: int, k: int) -> Floats:
    """For tables too large to shuffle: the normal tail, times the number of pairs."""
    tails = 2 * ndtr(-gaps / np.sqrt(b * k * (k + 1) / 6))
    return np.asarray(np.minimum(tails * k * (k - 1) / 2, 1.0))


def _least_of_all(null: NullSums | None, level: float) -> float | None:
    if null is None:
        return None
    ranges = _ranges(null)
    values, inverse = np.unique(ranges, return_inverse=True)
    tails = np.cumsum(np.bincount(inverse, weights=null.chances)[::-1])[::-1]
    enough = values[tails <= 1 - level + 1e-12]
    return float(enough[0]) if len(enough) else None
