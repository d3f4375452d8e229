"""Means and paired differences, against a textbook example and scipy.stats."""

import numpy as np
import pytest
from scipy import stats

from cupwright.core.analyse.scales import mean_interval, pair_differences

# Hours of sleep gained with each of two drugs by the same ten patients.
STUDENT_1908 = np.array(
    [
        [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0],
        [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4],
    ]
)


def test_paired_interval_matches_the_sleep_data():
    """Student (1908), Biometrika 6:1-25, data; R: t.test(paired = TRUE) -> -2.4598858 -0.7001142 (memory)."""
    (difference,) = pair_differences(STUDENT_1908)

    assert difference.mean.estimate == pytest.approx(-1.58)
    assert (difference.mean.low, difference.mean.high) == pytest.approx((-2.4598858, -0.7001142), abs=1e-6)


def test_mean_interval_matches_scipy():
    """scipy.stats.t.interval with the standard error of the mean, holes left out."""
    values = np.array([61.0, np.nan, 75.5, 40.0, 88.0, np.nan, 52.0])
    given = values[~np.isnan(values)]

    mean = mean_interval(values, level=0.9)

    oracle = stats.t.interval(0.9, df=len(given) - 1, loc=given.mean(), scale=stats.sem(given))
    assert mean.n == len(given)
    assert mean.mean is not None
    assert (mean.mean.low, mean.mean.high) == pytest.approx(oracle, rel=1e-12)


def test_every_pair_is_widened_for_all_pairs_together():
    """Bonferroni: with 3 coffees each of the 3 paired intervals of scipy.stats has level 1 - 0.05/3."""
    values = np.random.default_rng(3).normal(size=(3, 12))

    differences = pair_differences(values)

    assert [(d.first, d.second) for d in differences] == [(0, 1), (0, 2), (1, 2)]
    for difference in differences:
        oracle = stats.ttest_rel(values[difference.first], values[difference.second])
        limits = oracle.confidence_interval(1 - 0.05 / 3)
        assert (difference.mean.low, difference.mean.high) == pytest.approx(tuple(limits), rel=1e-9)
