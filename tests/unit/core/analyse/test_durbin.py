"""Durbin's test: the plan must be balanced."""

import numpy as np
import pytest

from cupwright.core.analyse.durbin import durbin
from cupwright.errors import NoSpread, Refused, TooFewObservations

HOLE = np.nan
PAIRS = np.array([[1.0, 1, HOLE], [2, HOLE, 1], [HOLE, 2, 2]])


def test_three_tasters_of_two_coffees_each_agree_in_an_order_six_times_in_eight():
    found = durbin(PAIRS)

    # Of the 8 ways to prefer, 6 make an order and 2 go in a circle.
    assert (found.method, found.p) == ("exact", pytest.approx(6 / 8))
    assert found.rank_sums == (2, 3, 4)


def test_a_plan_out_of_balance_is_refused_and_the_other_test_is_named():
    uneven = PAIRS.copy()
    uneven[2, 1] = HOLE

    with pytest.raises(Refused, match="not balanced") as complaint:
        durbin(uneven)

    assert "skillings_mack" in complaint.value.todo


def test_one_coffee_each_cannot_be_ranked():
    with pytest.raises(TooFewObservations):
        durbin(np.array([[1.0, HOLE], [HOLE, 1]]))


def test_one_taster_cannot_be_compared():
    with pytest.raises(TooFewObservations):
        durbin(np.array([[1.0], [2]]))


def test_equal_scores_say_nothing():
    with pytest.raises(NoSpread):
        durbin(np.where(np.isnan(PAIRS), HOLE, 5.0))


def test_renamed_coffees_and_tasters_change_nothing():
    scores = np.full((7, 7), HOLE)
    for taster in range(7):
        scores[[taster, (taster + 1) % 7, (taster + 3) % 7], taster] = np.random.default_rng(taster).normal(
            size=3
        )
    order = np.random.default_rng(3).permutation(7)

    found, renamed = durbin(scores), durbin(scores[order][:, order])

    assert (renamed.chi2, renamed.p, renamed.f) == pytest.approx((found.chi2, found.p, found.f))
