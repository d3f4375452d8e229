"""Friedman's test: what is refused, and what must not change the answer."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from cupwright.core.analyse.friedman import friedman
from cupwright.core.analyse.scores import scores_of
from cupwright.errors import IncompleteTable, NoSpread, Refused, TooFewObservations

POINTS = arrays(float, (4, 5), elements=st.integers(0, 6).map(float)).filter(
    lambda t: np.ptp(t, axis=0).any()
)


@settings(max_examples=25, deadline=None)
@given(POINTS, st.permutations(range(4)), st.permutations(range(5)))
def test_names_of_coffees_and_tasters_do_not_matter(scores, coffees, tasters):
    found, renamed = friedman(scores), friedman(scores[list(coffees)][:, list(tasters)])

    assert renamed.chi2 == pytest.approx(found.chi2)
    assert renamed.p == pytest.approx(found.p)
    assert sorted(renamed.rank_sums) == pytest.approx(sorted(found.rank_sums))


@settings(max_examples=25, deadline=None)
@given(POINTS, arrays(float, 5, elements=st.floats(-50, 50)), arrays(float, 5, elements=st.floats(0.5, 9)))
def test_a_tasters_level_and_reach_do_not_matter(scores, level, reach):
    found, moved = friedman(scores), friedman(np.exp(scores / 4) * reach + level)

    assert (moved.chi2, moved.p) == pytest.approx((found.chi2, found.p))


def test_the_order_of_rows_does_not_matter():
    long = scores_of(np.random.default_rng(1).normal(size=(4, 5)))
    order = np.random.default_rng(2).permutation(20)
    mixed = type(long)(
        long.coffees,
        long.tasters,
        long.coffee[order],
        long.taster[order],
        long.value[order],
        long.repeat[order],
    )

    assert friedman(mixed) == friedman(long)


def test_two_tasters_and_three_coffees_can_agree_by_luck_once_in_six():
    found = friedman(np.array([[1.0, 2], [2, 5], [3, 9]]))

    assert (found.method, found.p) == ("exact", pytest.approx(1 / 6))
    assert found.least_difference_all is None


def test_full_agreement_has_no_variance_ratio():
    found = friedman(np.tile([[1.0], [2], [3]], 6))

    assert (found.f, found.p_f) == (None, None)
    assert found.p == pytest.approx(6 / 6**6)


def test_a_clear_leader_is_told_from_the_others_and_they_are_not():
    scores = np.random.default_rng(5).normal(size=(4, 10)) + np.array([[9.0], [0], [0], [0]])

    found = friedman(scores)

    assert all(pair.p < 0.05 for pair in found.pairs if pair.a == "1")
    assert all(pair.p > 0.05 for pair in found.pairs if pair.a != "1")


def test_a_pair_stands_out_where_its_difference_reaches_the_least_of_all():
    found = friedman(np.random.default_rng(6).normal(size=(4, 8)) + np.arange(4)[:, None])

    for pair in found.pairs:
        assert (pair.p <= 0.05) == (abs(pair.difference) >= found.least_difference_all)


def test_repeats_are_averaged_first():
    scores = np.random.default_rng(7).normal(size=(3, 4, 2))

    assert friedman(scores).p == friedman(scores.mean(axis=2)).p


def test_a_very_large_table_gets_the_large_sample_value():
    found = friedman(np.random.default_rng(8).normal(size=(300, 40)))

    assert (found.method, found.p) == ("chi-squared", found.p_chi2)
    assert found.pairs == ()


def test_pairs_of_a_table_too_large_to_shuffle_are_cautious():
    scores = np.random.default_rng(8).normal(size=(60, 60)) + 3.0 * (np.arange(60) == 0)[:, None]

    found = friedman(scores)

    assert found.method == "chi-squared"
    assert all(pair.p < 0.001 for pair in found.pairs if pair.a == "1")
    assert np.mean([pair.p > 0.05 for pair in found.pairs if pair.a != "1"]) > 0.99


def test_a_missing_score_is_refused_by_name():
    scores = np.array([[1.0, 2], [np.nan, 3], [2, 4]])

    with pytest.raises(IncompleteTable, match="Taster Ann did not score coffee 708"):
        friedman(scores_of(scores, coffees=["421", "708", "355"], tasters=["Ann", "Bo"]))


@pytest.mark.parametrize(
    ("scores", "refusal"),
    [
        (np.ones((3, 4)), NoSpread),
        (np.array([[1.0], [2]]), TooFewObservations),
        (np.array([[1.0, 2]]), TooFewObservations),
        (np.array([1.0, 2]), Refused),
    ],
)
def test_what_cannot_be_ranked_is_refused_with_a_sentence(scores, refusal):
    with pytest.raises(refusal) as complaint:
        friedman(scores)

    assert complaint.value.message.endswith(".")
    assert complaint.value.todo


def test_rows_show_one_coffee_each():
    rows = friedman(np.random.default_rng(9).normal(size=(3, 4))).rows()

    assert [row["coffee"] for row in rows] == ["1", "2", "3"]
    assert sum(row["rank_sum"] for row in rows) == pytest.approx(4 * 6)


def test_without_shuffles_the_large_sample_value_stands():
    found = friedman(np.random.default_rng(10).normal(size=(3, 4)), resamples=0)

    assert (found.method, found.p, found.least_difference_all) == ("chi-squared", found.p_chi2, None)


def test_a_level_of_more_than_all_is_refused():
    with pytest.raises(Refused, match="not between 0 and 1"):
        friedman(np.random.default_rng(10).normal(size=(3, 4)), level=95)


def test_the_order_of_coffees_and_tasters_changes_no_drawn_p():
    rng = np.random.default_rng(4)
    table = np.round(rng.normal(7, 1, (9, 1)) * 0.4 + rng.normal(0, 1, (9, 8)), 1)

    found = friedman(table, resamples=500)
    shuffled = friedman(table[rng.permutation(9)][:, rng.permutation(8)], resamples=500)

    assert 1 / 501 < found.p < 1
    assert shuffled.p == found.p
