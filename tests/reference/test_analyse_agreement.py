"""Agreement, against a published example, R's printed output and a general ANOVA."""

import numpy as np
import pandas as pd
import pytest
from scipy import stats
from statsmodels.formula.api import ols
from statsmodels.stats.anova import anova_lm

from cupwright.core.analyse.agreement import icc_consistency

# Six targets, four judges, as printed in the paper's table 2.
SHROUT_FLEISS_1979 = np.array(
    [[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]], dtype=float
)


def test_icc_consistency_matches_the_published_example():
    """Shrout & Fleiss (1979), Psychol. Bull. 86(2):420-428: ICC(3,1) printed as .71."""
    assert icc_consistency(SHROUT_FLEISS_1979).estimate == pytest.approx(0.71, abs=0.005)


def test_icc_consistency_interval_matches_r_psych():
    """R: psych::ICC(sf) -> ICC3 lower 0.34, upper 0.95 (two printed decimals)."""
    icc = icc_consistency(SHROUT_FLEISS_1979)

    assert (icc.low, icc.high) == pytest.approx((0.34, 0.95), abs=0.005)


def test_icc_consistency_is_the_mean_squares_of_an_ordinary_anova():
    """McGraw & Wong (1996), Psychol. Methods 1:30-46, table 4, ICC(C,1), from statsmodels' two-way ANOVA."""
    scores = np.random.default_rng(7).normal(size=(9, 5)) + np.arange(9)[:, None] / 3
    long = pd.DataFrame(scores).stack().rename_axis(["coffee", "taster"]).rename("score").reset_index()
    squares = anova_lm(ols("score ~ C(coffee) + C(taster)", long).fit())
    msr, mse = squares["mean_sq"]["C(coffee)"], squares["mean_sq"]["Residual"]

    icc = icc_consistency(scores)

    assert icc.estimate == pytest.approx((msr - mse) / (msr + 4 * mse), abs=1e-12)


def test_icc_consistency_interval_follows_the_f_distribution_of_scipy():
    """McGraw & Wong (1996), table 7, case 3: (F/F* - 1) / (F/F* + k - 1); quantiles of scipy.stats.f."""
    msr, mse, n, k = 11.24167, 1.01944, 6, 4  # mean squares printed by Shrout & Fleiss
    observed = msr / mse
    low = observed / stats.f.isf(0.05, n - 1, (n - 1) * (k - 1))
    high = observed * stats.f.isf(0.05, (n - 1) * (k - 1), n - 1)

    icc = icc_consistency(SHROUT_FLEISS_1979, level=0.9)

    assert icc.low == pytest.approx((low - 1) / (low + k - 1), abs=1e-5)
    assert icc.high == pytest.approx((high - 1) / (high + k - 1), abs=1e-5)


def test_icc_consistency_is_mean_covariance_over_mean_variance():
    """Winer (1971), Statistical Principles in Experimental Design, 4.5 (from memory): an identity."""
    covariances = np.cov(SHROUT_FLEISS_1979, rowvar=False)
    off_diagonal = covariances[~np.eye(4, dtype=bool)]

    icc = icc_consistency(SHROUT_FLEISS_1979)

    assert icc.estimate == pytest.approx(off_diagonal.mean() / np.diag(covariances).mean(), abs=1e-12)


def test_interval_covers_the_true_agreement_as_often_as_it_promises():
    """Simulation from the model of McGraw & Wong (1996), case 3: exact coverage, here of 95 in 100."""
    rng, truth, tables = np.random.default_rng(1996), 0.6, 2000
    coffees = rng.normal(scale=np.sqrt(truth), size=(tables, 8, 1))
    scores = (
        coffees
        + 3 * rng.normal(size=(tables, 1, 4))
        + rng.normal(scale=np.sqrt(1 - truth), size=(tables, 8, 4))
    )

    covered = np.mean([icc.low <= truth <= icc.high for icc in map(icc_consistency, scores)])

    # four standard errors of a share of 0.95 in 2,000 tables
    assert covered == pytest.approx(0.95, abs=0.0195)
