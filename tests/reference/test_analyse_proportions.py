"""Shares and their differences, against published tables and statsmodels."""

import numpy as np
import pytest
from scipy.stats import binom
from statsmodels.stats.multitest import multipletests
from statsmodels.stats.proportion import confint_proportions_2indep, proportion_confint

from cupwright.core.analyse.holm import holm
from cupwright.core.analyse.proportions import share_difference, wilson

PUBLISHED_WILSON = [
    ((81, 263), (0.2553, 0.3662)),
    ((15, 148), (0.0624, 0.1605)),
    ((0, 20), (0.0000, 0.1611)),
    ((1, 29), (0.0061, 0.1718)),
]

PUBLISHED_METHOD_10 = [
    ((56, 70, 48, 80), (0.0524, 0.3339)),
    ((9, 10, 3, 10), (0.1705, 0.8090)),
    ((6, 7, 2, 7), (0.0582, 0.8062)),
    ((5, 56, 0, 29), (-0.0381, 0.1926)),
    ((0, 10, 0, 20), (-0.1611, 0.2775)),
    ((0, 10, 0, 10), (-0.2775, 0.2775)),
    ((10, 10, 0, 20), (0.6791, 1.0000)),
    ((10, 10, 0, 10), (0.6075, 1.0000)),
]


@pytest.mark.parametrize(("counts", "limits"), PUBLISHED_WILSON)
def test_wilson_matches_the_published_table(counts, limits):
    """Newcombe (1998), Stat. Med. 17:857-872, table I, method 3, four decimals (digits from memory)."""
    share = wilson(*counts)

    assert (share.low, share.high) == pytest.approx(limits, abs=0.00005)


@pytest.mark.parametrize(("counts", "limits"), PUBLISHED_METHOD_10)
def test_difference_matches_the_published_table(counts, limits):
    """Newcombe (1998), Stat. Med. 17:873-890, table II, method 10, four decimals (digits from memory)."""
    difference = share_difference(*counts)

    assert (difference.low, difference.high) == pytest.approx(limits, abs=0.00005)


def test_wilson_matches_statsmodels_for_every_count_of_thirty():
    """statsmodels.stats.proportion.proportion_confint(method="wilson")."""
    for count in range(31):
        share = wilson(count, 30, level=0.9)

        oracle = proportion_confint(count, 30, alpha=0.1, method="wilson")
        assert (share.low, share.high) == pytest.approx(oracle, abs=1e-12)


def test_difference_matches_statsmodels_on_a_grid():
    """statsmodels.stats.proportion.confint_proportions_2indep(method="newcomb")."""
    for count, other in np.ndindex(12, 8):
        difference = share_difference(count, 11, other, 7, level=0.99)

        oracle = confint_proportions_2indep(count, 11, other, 7, method="newcomb", alpha=0.01)
        assert (difference.low, difference.high) == pytest.approx(oracle, abs=1e-9)


def test_holm_matches_statsmodels():
    """statsmodels.stats.multitest.multipletests(method="holm")."""
    plain = np.random.default_rng(20261125).uniform(0, 0.2, 40) ** 2

    assert holm(plain) == pytest.approx(multipletests(plain, method="holm")[1], abs=1e-15)


def test_share_interval_covers_as_often_as_it_promises():
    """Exact binomial coverage for n = 20 (scipy.stats), averaged over shares [Newcombe1998a]."""
    limits = [wilson(count, 20) for count in range(21)]
    shares = np.linspace(0.02, 0.98, 97)

    covered = [
        sum(binom.pmf(r, 20, p) for r, share in enumerate(limits) if share.low <= p <= share.high)
        for p in shares
    ]

    assert np.mean(covered) == pytest.approx(0.95, abs=0.01)
    assert min(covered) > 0.83
