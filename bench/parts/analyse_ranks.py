"""Friedman's test with 10,000 shuffles, against the vectorised shuffling routine of the general library."""

import numpy as np
from parts.interleaved import interleaved
from scipy import stats

from cupwright.core.analyse.friedman import friedman

SHUFFLES = 10_000


def figures(*, quick: bool) -> dict[str, float]:
    """Seconds and ratio for 12 coffees and 10 tasters."""
    scores = np.random.default_rng(1937).normal(size=(12, 10)) + np.linspace(0, 1, 12)[:, None]
    ranks = tuple(stats.rankdata(scores, axis=0))

    def theirs() -> float:
        return float(
            stats.permutation_test(
                ranks,
                _squares,
                permutation_type="samples",
                alternative="greater",
                n_resamples=SHUFFLES,
                vectorized=True,
                rng=np.random.default_rng(1),
            ).pvalue
        )

    def ours() -> float:
        return friedman(scores, resamples=SHUFFLES).p

    found, known = friedman(scores), stats.friedmanchisquare(*scores)
    assert found.method == "permutation"
    assert abs(found.chi2 - known.statistic) < 1e-6
    assert abs(found.p_chi2 - known.pvalue) < 1e-6
    # Two sets of shuffles: the same chance within five standard errors of their difference.
    assert abs(ours() - theirs()) < 5 * np.sqrt(2 * found.p * (1 - found.p) / SHUFFLES)
    return interleaved(ours, theirs, turns=5 if quick else 15).figures("friedman_shuffles")


def _squares(*ranks: np.ndarray, axis: int = -1) -> np.ndarray:
    sums = np.stack([rank.sum(axis=axis) for rank in ranks])
    return np.asarray((sums**2).sum(axis=0))
