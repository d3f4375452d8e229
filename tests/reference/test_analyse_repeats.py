"""The standard deviation of a repeat, against the published formula for duplicates and scipy.stats.

Dahlberg (1940), Statistical Methods for Medical and Biological Students: s = sqrt(sum d^2 / 2n), from memory;
for more than two values a group the repeatability variance of ISO 5725-2 (from memory), as in a one-way
analysis of variance.
"""

import numpy as np
import pytest
from scipy import stats

from cupwright.core.analyse.repeat_spread import repeat_spread

PAIRS = [(82.25, 83.5), (79.0, 81.25), (85.75, 85.5), (80.0, 80.0), (77.5, 80.25)]


def test_pairs_agree_with_the_formula_for_duplicates():
    spread, freedom = repeat_spread(PAIRS)

    d = np.array([b - a for a, b in PAIRS])
    assert freedom == len(PAIRS)
    assert spread is not None
    assert spread.estimate == pytest.approx(np.sqrt((d**2).sum() / (2 * len(PAIRS))), rel=1e-12)


def test_the_interval_is_that_of_a_variance_by_chi_square():
    """scipy.stats.chi2.ppf at both ends."""
    spread, freedom = repeat_spread(PAIRS, level=0.9)

    assert spread is not None
    squares = freedom * spread.estimate**2
    ends = np.sqrt(squares / stats.chi2.ppf([0.95, 0.05], freedom))
    assert (spread.low, spread.high) == pytest.approx(tuple(ends), rel=1e-9)


def test_groups_of_several_agree_with_the_mean_square_within_groups():
    """The mean square within groups is that of numpy's variances, pooled by their degrees of freedom."""
    groups = [(7.0, 8.0, 6.5), (5.0, 5.5), (9.0,), (4.0, 6.0, 5.0, 4.5)]

    spread, freedom = repeat_spread(groups)

    within = [(np.var(g, ddof=1), len(g) - 1) for g in groups if len(g) > 1]
    assert freedom == sum(f for _, f in within)
    assert spread is not None
    assert spread.estimate**2 == pytest.approx(sum(v * f for v, f in within) / freedom)


def test_nine_of_ten_intervals_hold_the_true_spread():
    """Simulation with a fixed seed: 3 pairs, a true spread of 1, coverage 0.9 within 4 standard errors."""
    draws = np.random.default_rng(5).normal(size=(4000, 3, 2))

    found = [repeat_spread(draw, level=0.9)[0] for draw in draws]

    held = sum(one is not None and one.low <= 1 <= one.high for one in found) / len(found)
    assert held == pytest.approx(0.9, abs=4 * np.sqrt(0.9 * 0.1 / len(found)))
