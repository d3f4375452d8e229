"""Panel sizes against general libraries: noncentral t, least squares, and draws."""

import math

import numpy as np
import pandas as pd
import pytest
import statsmodels.formula.api as smf
from scipy.stats import nct, ttest_rel
from scipy.stats import t as student
from statsmodels.stats.power import TTestPower

from cupwright.core.plan.noncentral_t import chance_beyond
from cupwright.core.plan.panel_size import (
    ASSUMED_SPREAD,
    Spread,
    detectable,
    difference_power,
    needed_panels,
    panel_reach,
)
from cupwright.core.plan.simulated_size import Design, p_values, simulated_power


@pytest.mark.parametrize("tasters", [2, 3, 5, 12, 40, 300])
@pytest.mark.parametrize("effect", [0.1, 0.5, 1.0, 2.5])
@pytest.mark.parametrize("alpha", [0.001, 0.05, 0.2])
def test_power_of_a_pair_matches_statsmodels(tasters, effect, alpha):
    """statsmodels.stats.power.TTestPower, two-sided; the effect is in spreads of one taster's difference."""
    points, spread = effect * math.sqrt(2 * (0.8**2 + 0.5**2 / 3)), Spread(0.8, 0.5)

    found = difference_power(points, tasters, spread, repeats=3, alpha=alpha)

    oracle = TTestPower().power(effect, tasters, alpha)
    # Where the difference is large the library has been seen to return not a number.
    assert math.isnan(oracle) or found == pytest.approx(oracle, abs=1e-9)


@pytest.mark.parametrize(("effect", "power", "tasters"), [(0.5, 0.80, 34), (0.8, 0.80, 15), (0.2, 0.80, 199)])
def test_tasters_for_a_standard_effect_are_the_known_ones(effect, power, tasters):
    """Paired t, alpha 5 %, two-sided: 34, 15 and 199 pairs, Cohen (1988), memory; statsmodels agrees."""
    assert math.ceil(TTestPower().solve_power(effect, alpha=0.05, power=power)) == tasters

    needed = needed_panels(effect * math.sqrt(2), Spread(1.0, 0.0), most_repeats=1, power=power)

    assert needed.panels[0].tasters == tasters


@pytest.mark.parametrize("df", [1, 2, 3, 7, 30, 200, 5000])
@pytest.mark.parametrize("far", [0.0, 0.4, 1.0, 3.0, 6.0])
@pytest.mark.parametrize("alpha", [0.5, 0.1, 0.05, 0.001])
def test_chance_beyond_matches_scipy_where_scipy_has_one(df, far, alpha):
    """scipy.stats.nct; it gives not a number for some differences that are large."""
    limit = float(student.isf(alpha / 2, df))

    oracle = nct.sf(limit, df, far) + nct.cdf(-limit, df, far)
    assert math.isnan(oracle) or chance_beyond(limit, df, far) == pytest.approx(oracle, abs=1e-10)


@pytest.mark.parametrize(
    ("df", "far", "alpha"), [(1, 20.0, 0.05), (3, 10.0, 0.1), (10, 6.0, 0.001), (30, 6.0, 1e-6)]
)
def test_chance_beyond_matches_draws_where_the_library_fails(df, far, alpha):
    """A million t values drawn by their definition."""
    rng = np.random.default_rng(3)
    drawn = (rng.normal(size=1_000_000) + far) / np.sqrt(rng.chisquare(df, 1_000_000) / df)
    limit = float(student.isf(alpha / 2, df))

    assert chance_beyond(limit, df, far) == pytest.approx(np.mean(abs(drawn) > limit), abs=0.002)


def test_detectable_difference_and_interval_match_their_formulas():
    """statsmodels solves for the effect; the half-width is Student's (scipy)."""
    spread, tasters = Spread(0.7, 1.1), 9
    single = math.sqrt(2 * (0.7**2 + 1.1**2 / 2))

    reach = panel_reach(1.0, tasters, spread, repeats=2, power=0.8)

    effect = TTestPower().solve_power(nobs=tasters, alpha=0.05, power=0.8)
    assert reach.detectable == pytest.approx(effect * single, abs=1e-6)
    assert reach.detectable == detectable(tasters, spread, repeats=2, power=0.8)
    assert reach.half_width == pytest.approx(student.isf(0.025, tasters - 1) * single / 3)


def test_the_assumed_spread_follows_from_the_working_rules_of_the_trade():
    """Trade pages: a cupper repeats within a point, two cuppers lie one to two apart (rules of thumb)."""
    mean_distance = 2 / math.sqrt(math.pi)
    residual, single = 1.0 / mean_distance, 1.5 / mean_distance

    assert ASSUMED_SPREAD.residual == pytest.approx(residual, abs=0.05)
    assert ASSUMED_SPREAD.taster_coffee == pytest.approx(math.sqrt(single**2 - residual**2), abs=0.05)


def test_p_value_of_a_pair_matches_scipy():
    """scipy.stats.ttest_rel on full tables of two coffees."""
    scores = np.random.default_rng(5).normal(size=(20, 7, 2))

    found = p_values(scores, np.ones(scores.shape, dtype=bool))

    assert found == pytest.approx(ttest_rel(scores[:, :, 0], scores[:, :, 1], axis=1).pvalue, abs=1e-12)


def test_p_value_of_a_table_with_holes_matches_least_squares():
    """statsmodels OLS with a level for each taster and each coffee, with a third of the scores missing."""
    rng = np.random.default_rng(8)
    scores, there = rng.normal(size=(12, 8, 5)), rng.random((12, 8, 5)) > 0.33

    found = p_values(scores, there)

    for p, table, kept in zip(found, scores, there, strict=True):
        taster, coffee = np.nonzero(kept)
        frame = pd.DataFrame({"y": table[kept], "taster": taster, "coffee": coffee})
        fit = smf.ols("y ~ C(taster) + C(coffee)", frame).fit()
        assert p == pytest.approx(fit.pvalues["C(coffee)[T.1]"], abs=1e-10)


@pytest.mark.parametrize(
    ("design", "seed"),
    [
        (Design(2.0, 12), 1),
        (Design(1.5, 8, coffees=6, repeats=3), 2),
        (Design(1.0, 25, coffees=4, repeats=2), 3),
        (Design(1.0, 25, coffees=4, repeats=2, step=0.25), 4),
    ],
)
def test_simulated_power_matches_noncentral_t_where_that_holds(design, seed):
    """The closed form of a full table; a fine step does not move it by more than the drawing does."""
    simulated = simulated_power(design, seed=seed)

    exact = difference_power(
        design.points, design.tasters, design.spread, repeats=design.repeats, coffees=design.coffees
    )
    assert abs(simulated.found.estimate - exact) < 4 * simulated.error
    assert simulated.false_alarms.estimate == pytest.approx(0.05, abs=4 * math.sqrt(0.05 * 0.95 / 4000))


@pytest.mark.parametrize(("t", "k", "shared"), [(7, 3, 1), (13, 4, 1)])
def test_simulated_power_of_balanced_incomplete_blocks_matches_its_formula(t, k, shared):
    """Intrablock variance of a difference in a balanced design, 2 k s^2 / (lambda t) [Yates1936] (memory)."""
    design = Design(3.0, 2 * t, coffees=t, samples_each=k)
    single = ASSUMED_SPREAD.taster_coffee**2 + ASSUMED_SPREAD.residual**2
    df = 2 * t * k - 2 * t - (t - 1)
    error = math.sqrt(2 * k * single / (2 * shared * t))

    simulated = simulated_power(design)

    exact = chance_beyond(float(student.isf(0.025, df)), df, design.points / error)
    assert abs(simulated.found.estimate - exact) < 4 * simulated.error
