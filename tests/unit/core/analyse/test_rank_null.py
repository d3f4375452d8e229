"""Rank sums without any difference: ranks, all cases, shuffles."""

import numpy as np
import pytest

from cupwright.core.analyse.rank_null import (
    all_sums,
    drawn_sums,
    exact_sums,
    null_sums,
    shuffles,
    within_taster_ranks,
)


def test_ranks_are_a_tasters_own_and_equal_scores_share_theirs():
    values = np.array([[7.0, 1.0], [7.0, 3.0], [5.0, np.nan]])

    ranks = within_taster_ranks(values)

    assert ranks[0].tolist() == [2.5, 2.5, 1.0]
    assert ranks[1][:2].tolist() == [1.0, 2.0]
    assert np.isnan(ranks[1][2])


def test_chances_of_all_cases_add_up_to_one_and_keep_the_total_of_the_ranks():
    null = exact_sums(((2, 4, 6), (2, 5, 5), (3, 3, 6)))

    assert null.exact
    assert null.chances.sum() == pytest.approx(1)
    assert null.sums.sum(axis=1) == pytest.approx(np.full(len(null.sums), 18.0))


def test_a_coffee_that_a_taster_did_not_have_gets_none_of_their_ranks():
    null = exact_sums(((2, 4, None), (2, 4, None)))

    assert (null.sums[:, 2] == 0).all()


def test_too_many_cases_are_left_to_shuffles():
    ranks = np.tile(np.arange(1.0, 13), (10, 1))

    assert exact_sums(tuple(tuple(int(2 * r) for r in row) for row in ranks)) is None
    assert not null_sums(ranks, resamples=50).exact


def test_all_cases_and_shuffles_tell_the_same():
    ranks = np.array([[1.0, 2, 3, np.nan], [1, 2.5, 2.5, np.nan], [1, np.nan, 2, 3], [2, 1, 3, 4]])

    every, drawn = all_sums(ranks), drawn_sums(ranks, resamples=40_000)

    for coffee in range(4):
        assert drawn.sums[:, coffee].mean() == pytest.approx(every.chances @ every.sums[:, coffee], abs=0.03)
        spread = every.chances @ (every.sums[:, coffee] - every.chances @ every.sums[:, coffee]) ** 2
        assert drawn.sums[:, coffee].var() == pytest.approx(spread, rel=0.05)


def test_numbers_that_are_no_ranks_can_be_shuffled_too():
    drawn = drawn_sums(np.array([[-0.7, 0.0, 0.7], [-0.3, np.nan, 0.3]]), resamples=2000)

    assert np.unique(np.round(drawn.sums[:, 1], 9)).tolist() == [-0.7, 0.0, 0.7]
    assert len(np.unique(np.round(drawn.sums[:, 0], 9))) == 6
    assert drawn.sums.sum(axis=1) == pytest.approx(np.zeros(2000))


@pytest.mark.parametrize("count", [1, 2, 3, 65, 200])
def test_a_shuffle_holds_every_place_once(count):
    orders = shuffles(count, 50, np.random.default_rng(1))

    assert (np.sort(orders, axis=1) == np.arange(count)).all()


def test_shuffles_are_even():
    orders = shuffles(4, 48_000, np.random.default_rng(4))

    _, often = np.unique(orders @ [1, 4, 16, 64], return_counts=True)

    # chi-squared on 23: 49.7 is passed once in a thousand
    assert len(often) == 24
    assert ((often - 2000) ** 2 / 2000).sum() < 49.7


def test_a_p_value_of_shuffles_is_never_nought():
    drawn = drawn_sums(np.tile(np.arange(1.0, 6), (6, 1)), resamples=99)

    assert drawn.at_least(np.zeros(99), 1.0) == pytest.approx(0.01)


def test_the_same_table_gives_the_same_shuffles():
    ranks = np.tile(np.arange(1.0, 13), (10, 1))

    assert (drawn_sums(ranks, resamples=20).sums == drawn_sums(ranks, resamples=20).sums).all()
