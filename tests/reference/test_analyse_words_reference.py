"""Words against published examples, every case listed, and general-purpose libraries."""

from itertools import combinations, product

import numpy as np
import pingouin
import pytest
from scipy import stats
from statsmodels.stats.contingency_tables import cochrans_q
from statsmodels.stats.contingency_tables import mcnemar as their_mcnemar
from statsmodels.stats.multitest import multipletests

from cupwright.core.analyse.cochran import cochran_q
from cupwright.core.analyse.exact_test import count_chances
from cupwright.core.analyse.holm import holm
from cupwright.core.analyse.mcnemar import mcnemar
from cupwright.core.analyse.penalty_lift import penalty_lift
from cupwright.core.analyse.word_differences import word_differences
from cupwright.core.analyse.words_hold import words_that_hold

HANDBOOK = np.array(
    [
        [1, 1, 0, 1, 0, 1, 1, 1, 0, 0, 1, 1],
        [1, 1, 1, 1, 0, 1, 1, 1, 0, 1, 1, 1],
        [1, 1, 0, 0, 0, 1, 1, 0, 1, 0, 1, 1],
    ]
)


def answers(both, only_first, only_second, neither):
    return [
        np.repeat(ticks, (both, only_first, only_second, neither)) for ticks in ((1, 1, 0, 0), (1, 0, 1, 0))
    ]


def test_cochran_matches_the_handbook_example():
    """NIST Dataplot's page after Conover, as in statsmodels' tests: Q 2.8 on 2, p .246597."""
    found = cochran_q(HANDBOOK)

    assert (found.q, found.df) == (pytest.approx(2.8), 2)
    assert found.p_chi2 == pytest.approx(0.246597, abs=1e-6)


def test_cochran_exact_p_goes_through_every_case_once():
    """Every case of the five informative tasters by listing: 96 of 243."""
    cases = [
        sum(n * n for n in map(sum, zip(*case, strict=True)))
        for case in product(
            *[
                [tuple(int(c in chosen) for c in range(3)) for chosen in combinations(range(3), int(ticks))]
                for ticks in HANDBOOK.sum(axis=0)
                if 0 < ticks < 3
            ]
        )
    ]
    informative = HANDBOOK[:, (HANDBOOK.sum(axis=0) > 0) & (HANDBOOK.sum(axis=0) < 3)]
    seen = (informative.sum(axis=1) ** 2).sum()

    found = cochran_q(HANDBOOK)

    assert (len(cases), sum(case >= seen for case in cases)) == (243, 96)
    assert (found.method, found.p) == ("exact", pytest.approx(96 / 243, abs=1e-12))


def test_cochran_matches_the_energy_levels_of_pingouin():
    """pingouin's data "cochran", 20 people on three days: Q 6.705882, p .034981 (its printed example)."""
    table = pingouin.read_dataset("cochran").pivot_table(index="Time", columns="Subject", values="Energetic")

    found = cochran_q(table.to_numpy(dtype=float))

    assert found.q == pytest.approx(6.705882, abs=1e-6)
    assert found.p_chi2 == pytest.approx(0.034981, abs=1e-6)


def test_cochran_matches_statsmodels_on_many_shares():
    """statsmodels.stats.contingency_tables.cochrans_q, five coffees and 40 tasters."""
    used = np.random.default_rng(50).uniform(size=(5, 40)) < np.array([[0.2], [0.3], [0.3], [0.5], [0.4]])
    theirs = cochrans_q(used.T.astype(int))

    found = cochran_q(used)

    assert (found.q, found.p_chi2) == pytest.approx((theirs.statistic, theirs.pvalue), rel=1e-9)


def test_cochran_of_two_coffees_is_mcnemar():
    """An identity [Cochran1950]: for two coffees Q is McNemar's chi2, and the exact p values are one."""
    first, second = answers(4, 7, 2, 6)

    two, pair = cochran_q(np.stack([first, second])), mcnemar(first, second)

    assert two.q == pytest.approx(pair.chi2)
    assert two.p == pytest.approx(pair.p, abs=1e-12)


def test_mcnemar_matches_the_approval_ratings_of_agresti():
    """Agresti, Categorical Data Analysis, table 10.1 (memory): 794, 150, 86, 570; z -4.17, so z^2 17.36."""
    found = mcnemar(*answers(794, 150, 86, 570))

    assert (found.both, found.only_first, found.only_second, found.neither) == (794, 150, 86, 570)
    assert found.chi2 == pytest.approx(17.36, abs=0.005)


@pytest.mark.parametrize(
    "table", [(4, 7, 2, 6), (0, 5, 5, 0), (10, 0, 6, 1), (794, 150, 86, 570), (3, 1, 0, 3)]
)
def test_mcnemar_exact_matches_statsmodels(table):
    """statsmodels.stats.contingency_tables.mcnemar(exact=True)."""
    theirs = their_mcnemar(np.reshape(table, (2, 2)), exact=True)

    assert mcnemar(*answers(*table)).p == pytest.approx(theirs.pvalue, rel=1e-9)


def test_mid_p_of_mcnemar_counts_the_observed_split_once_less():
    """Fagerland, Lydersen & Laake (2013), BMC Med. Res. Methodol. 13:91 (memory): 1 and 7 differ, exact
    .0703, mid-p .0391."""
    found = mcnemar(*answers(59, 1, 7, 6))

    assert (found.p, found.mid_p) == pytest.approx((0.0703, 0.0391), abs=5e-5)


def test_mcnemar_matches_the_binomial_test_of_scipy():
    """scipy.stats.binomtest, two-sided, for every split of up to 12."""
    for of in range(1, 13):
        for smaller in range(of // 2 + 1):
            first, second = answers(1, smaller, of - smaller, 2)

            assert mcnemar(first, second).p == pytest.approx(stats.binomtest(smaller, of).pvalue, rel=1e-9)


def test_follow_ups_match_the_pairs_of_the_handbook_example():
    """The same 12 x 3 table: 1 and 2 differ by 0 and 2 (p .5), 1 and 3 by 2 and 1 (p 1), 2 and 3 by 4 and 1
    (.375)."""
    (word,) = word_differences(HANDBOOK.T[:, :, None])

    assert [(pair.only_a, pair.only_b) for pair in word.pairs] == [(0, 2), (2, 1), (4, 1)]
    assert [pair.p for pair in word.pairs] == pytest.approx([0.5, 1, 0.375])
    assert [pair.adjusted_p for pair in word.pairs] == pytest.approx([1, 1, 1])


def test_holm_matches_the_worked_example():
    """Holm (1979) as usually shown (memory): .01 .04 .03 .005 become .03 .06 .06 .02; statsmodels agrees."""
    plain = [0.01, 0.04, 0.03, 0.005]

    assert holm(plain) == pytest.approx([0.03, 0.06, 0.06, 0.02], abs=1e-12)
    assert holm(plain) == pytest.approx(multipletests(plain, method="holm")[1], abs=1e-12)


def test_a_count_of_a_word_has_the_chances_of_a_sum_of_own_chances():
    """scipy.stats.poisson_binom: tasters who use a word for 1, 2, 2 and 3 of 4 coffees."""
    used = np.zeros((4, 4), dtype=bool)
    for taster, uses in enumerate((1, 2, 2, 3)):
        used[:uses, taster] = True

    chances = count_chances(used, np.ones_like(used), 0)

    assert chances == pytest.approx(stats.poisson_binom([0.25, 0.5, 0.5, 0.75]).pmf(np.arange(5)), abs=1e-12)


def test_the_lady_who_tastes_tea_holds_with_one_in_seventy():
    """Fisher (1935), ch. 2, as eight people with one cup each: 4 of 4 right 1/70; 3 of 4 17/70, one-sided."""
    answers_of_eight = np.full((8, 2, 1), np.nan)
    answers_of_eight[:4, 0], answers_of_eight[4:, 1] = 1, 0
    nearly = answers_of_eight.copy()
    nearly[0, 0], nearly[4, 1] = 0, 1

    (all_right,), (three_right,) = (words_that_hold(a).per_coffee[0] for a in (answers_of_eight, nearly))

    assert all_right.p == pytest.approx(1 / 70)
    assert three_right.p == pytest.approx(17 / 70)


def test_adjusted_chances_of_all_looks_go_through_every_case():
    """Every shuffle of three tasters' notes on three coffees by listing: 6^3 cases; ours draws 20,000 of
    them."""
    used = np.zeros((3, 3, 2), dtype=int)  # tasters, coffees, words
    used[:, 0, 0] = 1
    used[0, 1, 1] = used[1, 1, 1] = used[2, 2, 1] = 1
    orders = list(product([(0, 1, 2), (0, 2, 1), (1, 0, 2), (1, 2, 0), (2, 0, 1), (2, 1, 0)], repeat=3))
    counts = [np.sum([used[t][list(order)] for t, order in enumerate(case)], axis=0) for case in orders]
    surest = np.array(
        [count.max() for count in counts]
    )  # each word has the same chances, so the count decides

    first = words_that_hold(used, resamples=20_000).per_coffee[0][0]

    assert first.p == pytest.approx(1 / 27)
    assert first.adjusted_p == pytest.approx(np.mean(surest >= 3), abs=0.015)


def test_penalty_lift_within_tasters_is_the_paired_test():
    """scipy.stats.ttest_1samp of each taster's own difference, and its interval."""
    rng = np.random.default_rng(2013)
    checked = rng.uniform(size=(4, 9)) < 0.5
    checked[0], checked[1] = True, False
    liking = rng.normal(size=(4, 9)) + 0.8 * checked
    own = [liking[c, t].mean() - liking[~c, t].mean() for t, c in enumerate(checked.T)]
    theirs = stats.ttest_1samp(own, 0)

    found = penalty_lift(checked, liking)

    assert found.p == pytest.approx(theirs.pvalue, rel=1e-9)
    interval = theirs.confidence_interval(0.95)
    assert (found.within.low, found.within.high) == pytest.approx((interval.low, interval.high), rel=1e-9)


def test_penalty_lift_leaves_out_one_taster_at_a_time():
    """Tukey (1958) written out: n - 1 over n times the squares of the estimates without each taster."""
    rng = np.random.default_rng(58)
    checked, liking = rng.uniform(size=(3, 6)) < 0.5, rng.normal(size=(3, 6))
    without = []
    for taster in range(6):
        kept = np.delete(np.arange(6), taster)
        mine, values = checked[:, kept], liking[:, kept]
        without.append(values[mine].mean() - values[~mine].mean())
    spread = np.sqrt(5 / 6 * np.sum((np.array(without) - np.mean(without)) ** 2))

    found = penalty_lift(checked, liking).lift

    assert found.estimate == pytest.approx(liking[checked].mean() - liking[~checked].mean())
    assert found.high - found.estimate == pytest.approx(stats.t.isf(0.025, 5) * spread, rel=1e-9)


def test_cochran_matches_the_three_drugs():
    """46 patients and three drugs (Grizzle, Starmer & Koch 1969, as a statistics package's manual prints it;
    from memory, recomputed by hand): Q 8.4706 on 2, p .0145."""
    answers_of_patients = {"FFF": 6, "FFU": 16, "FUF": 2, "FUU": 4, "UFF": 2, "UFU": 4, "UUF": 6, "UUU": 6}
    used = np.array(
        [[one == "F" for one in said] for said, often in answers_of_patients.items() for _ in range(often)]
    ).T

    found = cochran_q(used)

    assert found.counts == (28, 28, 16)
    assert found.q == pytest.approx(8.4706, abs=5e-5)
    assert found.p_chi2 == pytest.approx(0.0145, abs=5e-5)


def test_mcnemar_matches_the_treatment_before_and_after():
    """The example of an open encyclopaedia (from memory): 101, 121, 59, 33; chi2 21.35 cut from 21.356."""
    assert mcnemar(*answers(101, 121, 59, 33)).chi2 == pytest.approx(21.355, abs=5e-3)


def test_a_word_of_two_coffees_is_mcnemars_one_sided_half():
    """An identity: tasters of two coffees who use a word once make a sign test, p = P(X >= count), X
    binomial."""
    used = np.zeros((9, 2, 1))
    used[:7, 0], used[7:, 1] = 1, 1

    (first,) = words_that_hold(used).per_coffee[0]

    assert first.p == pytest.approx(stats.binomtest(7, 9, alternative="greater").pvalue, rel=1e-9)
