"""Skillings and Mack: holes of any kind."""

import numpy as np
import pytest

from cupwright.core.analyse.friedman import friedman
from cupwright.core.analyse.skillings_mack import skillings_mack
from cupwright.errors import NoSpread, TooFewObservations, TooLarge

HOLE = np.nan


def test_a_taster_of_one_coffee_changes_nothing():
    scores = np.array([[1.0, 2, 1], [2, 1, 3], [3, 3, HOLE]])
    more = np.column_stack([scores, [HOLE, 9.0, HOLE]])

    found, same = skillings_mack(scores), skillings_mack(more)

    assert (same.statistic, same.p, same.tasters) == (pytest.approx(found.statistic), found.p, found.tasters)


def test_small_tables_are_worked_out_in_full():
    found = skillings_mack(np.array([[1.0, 1], [2, 2], [3, HOLE]]))

    # Of the 6 orders beside the second taster's, the 3 that also put coffee 1 below 2 are as far out or more.
    assert found.method == "exact"
    assert found.p == pytest.approx(1 / 2)


def test_with_ties_it_is_friedmans_test_corrected_for_them():
    scores = np.round(np.random.default_rng(4).normal(size=(4, 5)) * 1.5)

    assert skillings_mack(scores).statistic == pytest.approx(friedman(scores).chi2)


def test_groups_that_share_no_taster_are_compared_within():
    scores = np.array([[1.0, 2, HOLE, HOLE], [2, 4, HOLE, HOLE], [HOLE, HOLE, 1, 1], [HOLE, HOLE, 2, 5]])

    assert skillings_mack(scores).df == 2


def test_a_coffee_that_nobody_scored_counts_for_nothing():
    scores = np.array([[1.0, 2, 2], [2, 4, 1], [HOLE, HOLE, HOLE], [3, 3, 3]])

    found = skillings_mack(scores)

    assert (found.df, found.sums[2]) == (2, 0.0)


def test_renaming_changes_nothing_but_the_shuffles():
    scores = np.random.default_rng(5).normal(size=(5, 7))
    scores[np.random.default_rng(6).uniform(size=scores.shape) < 0.3] = HOLE
    order = np.random.default_rng(7).permutation(5)

    assert skillings_mack(scores[order]).statistic == pytest.approx(skillings_mack(scores).statistic)


def test_tasters_who_cannot_be_ranked_are_refused():
    with pytest.raises(TooFewObservations):
        skillings_mack(np.array([[1.0, HOLE], [HOLE, 2]]))
    with pytest.raises(NoSpread):
        skillings_mack(np.array([[1.0, 4], [1, 4], [HOLE, 4]]))


def test_many_tasters_get_the_large_sample_value_and_too_many_coffees_a_sentence():
    scores = np.random.default_rng(8).normal(size=(60, 50))
    scores[0, 0] = HOLE

    found = skillings_mack(scores)

    assert (found.method, found.p) == ("chi-squared", found.p_chi2)
    with pytest.raises(TooLarge, match="1,000 coffees"):
        skillings_mack(np.arange(4000.0).reshape(2000, 2))


def test_the_order_of_coffees_and_tasters_changes_no_drawn_p():
    rng = np.random.default_rng(5)
    table = rng.normal(0, 0.5, (7, 1)) + rng.normal(0, 1, (7, 9))
    table[rng.random(table.shape) < 0.2] = np.nan

    found = skillings_mack(table, resamples=500)
    shuffled = skillings_mack(table[rng.permutation(7)][:, rng.permutation(9)], resamples=500)

    assert found.method != "exact"
    assert 1 / 501 < found.p < 1
    assert shuffled.p == found.p
