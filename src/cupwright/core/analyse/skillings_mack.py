"""The test of Skillings and Mack: do the coffees differ, when tasters had different ones of them?

Letters as in [SkillingsMack1981]: a taster ranked k coffees, A is the weighted sum of a coffee's ranks about
their mean, V the covariance of A.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import chdtrc

from cupwright.core.analyse.rank_null import (
    MOST_SHUFFLED,
    RESAMPLES,
    all_sums,
    drawn_sums,
    method_of,
    within_taster_ranks,
)
from cupwright.core.analyse.scores import Ints, Scores, scores_of
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import NoSpread, TooFewObservations, TooLarge

Floats = NDArray[np.float64]

# The covariance of so many is taken apart in about a second.
MOST_COFFEES = 1000


@dataclass(frozen=True, slots=True)
class SkillingsMack(Tabular):
    """Whether coffees differ in rank, some cells missing.

    `sums` per coffee: above 0, ranked above the middle of the flights that it was in. `statistic` has the
    chance `p` by `method` ("exact", "permutation" or "chi-squared"), `p_chi2` for large tables with `df`.
    `tasters` counts those who scored two coffees or more; the others say nothing about differences.
    """

    coffees: tuple[str, ...]
    tasters: int
    sums: tuple[float, ...]
    statistic: float
    df: int
    p: float
    method: str
    p_chi2: float

    def rows(self) -> list[Record]:
        """One row a coffee."""
        return [{"coffee": c, "sum": s} for c, s in zip(self.coffees, self.sums, strict=True)]


def skillings_mack(
    scores: Scores | Floats, *, resamples: int = RESAMPLES, rng: np.random.Generator | None = None
) -> SkillingsMack:
    """Do the coffees differ, whoever had which of them?

    Parameters
    ----------
    scores : Scores, or float array of shape (n_coffees, n_tasters[, n_repeats])
        NaN where there is none. Only the order within a taster counts.
    resamples : int
        Shuffles, where the table is too large to be worked out in full; 0: the large-sample value at once.
    rng : numpy Generator
        None: a fixed seed.

    Raises
    ------
    TooFewObservations
        If fewer than two tasters scored two coffees, or two coffees were not scored by one taster each.
    NoSpread
        If no taster scored any two coffees differently.
    TooLarge
        If there are more than 1,000 coffees.

    Notes
    -----
    A_j = sum of sqrt(12 / (k + 1)) (r_j - (k + 1)/2) over the tasters who had coffee j; T = A' V^- A. A
    taster with ranks of variance s^2 adds (12 / (k + 1)) s^2 (I - J/k) to V: without ties that is the
    published covariance, with ties T is Friedman's corrected for ties.
    Error: `p` exact given the holes and ties, or as many shuffles allow. Holes must have nothing to do with
    how the coffee was liked. Groups of coffees that share no taster are compared only within.
    Source: [SkillingsMack1981].
    """
    scores = scores_of(scores)
    ranks = _ranks(scores)
    had = ~np.isnan(ranks)
    k = had.sum(axis=1, keepdims=True)
    weighted = np.sqrt(12 / (k + 1)) * (ranks - (k + 1) / 2)
    covariance = _covariance(weighted, had)
    values, vectors = np.linalg.eigh(covariance)
    kept = values > 1e-9 * values.max(initial=0.0)
    if not kept.any():
        raise NoSpread("No taster scored any two coffees differently.", todo="Report the common scores.")
    # |A V^-1/2|^2 over the directions in which V is not zero.
    whitened = vectors[:, kept] / np.sqrt(values[kept])
    sums, df = np.nansum(weighted, axis=0), int(kept.sum())
    statistic = float(((sums @ whitened) ** 2).sum())
    null = all_sums(weighted) if resamples else None
    if null is None and 0 < weighted.size * resamples <= MOST_SHUFFLED:
        coffees, tasters = _apart_from_names(weighted, sums)
        null = drawn_sums(weighted[tasters][:, coffees], resamples=resamples, rng=rng)
        whitened = whitened[coffees]
    p_chi2 = float(chdtrc(df, statistic))
    return SkillingsMack(
        coffees=scores.coffees,
        tasters=len(ranks),
        sums=tuple(sums.tolist()),
        statistic=statistic,
        df=df,
        p=null.at_least(((null.sums @ whitened) ** 2).sum(axis=1), statistic) if null else p_chi2,
        method=method_of(null),
        p_chi2=p_chi2,
    )


def _ranks(scores: Scores) -> Floats:
    """Ranks of the tasters who scored two coffees or more, one row a taster."""
    every = within_taster_ranks(scores.means)
    ranks: Floats = every[(~np.isnan(every)).sum(axis=1) > 1]
    if ranks.shape[1] > MOST_COFFEES:
        raise TooLarge(
            f"Ranks with holes are compared between {MOST_COFFEES:,} coffees at most.",
            todo="Choose some of them.",
        )
    if len(ranks) < 2:
        raise TooFewObservations(
            f"Ranks need 2 tasters who scored 2 coffees each; here is {len(ranks)}.",
            todo="Add scores, or read the table itself.",
        )
    return ranks


def _covariance(weighted: Floats, had: NDArray[np.bool_]) -> Floats:
    k = had.sum(axis=1)
    spread: Floats = np.nansum(weighted**2, axis=1) / (k - 1)
    there = had.astype(float)
    alone: Floats = np.diag(spread @ there)
    together: Floats = there.T @ (there * (spread / k)[:, None])
    return alone - together


def _apart_from_names(weighted: Floats, sums: Floats) -> tuple[Ints, Ints]:
    """An order of coffees and one of tasters by their ranks: the order of a file does not matter to draws."""
    coffees = np.lexsort((np.isnan(weighted).sum(axis=0), np.round(sums, 9)))
    rows = np.where(np.isnan(weighted), -np.inf, np.round(weighted, 9))[:, coffees]
    return coffees, np.lexsort(rows.T)
