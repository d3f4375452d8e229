"""RV: alike whatever the turn and the unit; chance taken off; exact p for few coffees."""

from itertools import permutations

import numpy as np
import pytest
from scipy.stats import special_ortho_group

from cupwright.core.analyse.rv import rv_coefficient, rv_matrix
from cupwright.errors import NoSpread, Refused, TooFewObservations

RNG = np.random.default_rng(4)
FIRST, SECOND = RNG.normal(size=(5, 3)), RNG.normal(size=(5, 2))


def test_a_table_turned_moved_and_stretched_is_the_same_arrangement():
    turned = 7 * FIRST @ special_ortho_group.rvs(3, random_state=1) + 100

    found = rv_coefficient(FIRST, turned)

    assert (found.estimate, found.adjusted) == pytest.approx((1, 1))
    assert found.p_value == pytest.approx(1 / 120)
    assert found.exact


def test_chance_is_the_mean_over_all_orders_and_p_their_share():
    all_orders = [rv_matrix([FIRST, SECOND[list(o)]])[0, 1] for o in permutations(range(5))]
    found = rv_coefficient(FIRST, SECOND)

    assert found.expected == pytest.approx(np.mean(all_orders))
    assert found.p_value == pytest.approx(np.mean(np.array(all_orders) >= found.estimate - 1e-9))
    assert found.adjusted == pytest.approx((found.estimate - found.expected) / (1 - found.expected))


def test_it_does_not_matter_which_table_comes_first():
    assert rv_coefficient(FIRST, SECOND).estimate == pytest.approx(rv_coefficient(SECOND, FIRST).estimate)


def test_more_coffees_are_dealt_by_lot_and_the_same_data_give_the_same_p():
    first, second = RNG.normal(size=(12, 3)), RNG.normal(size=(12, 3))

    found = rv_coefficient(first, second, draws=200)

    assert not found.exact
    assert found == rv_coefficient(first, second, draws=200)
    assert found.p_value * 201 == pytest.approx(round(found.p_value * 201))


def test_tables_that_cannot_be_compared_are_refused():
    with pytest.raises(Refused, match="5 and 4 coffees"):
        rv_coefficient(FIRST, SECOND[:4])
    with pytest.raises(NoSpread, match="alike"):
        rv_coefficient(FIRST, np.ones((5, 2)))
    with pytest.raises(TooFewObservations, match="3 coffees"):
        rv_coefficient(FIRST[:2], SECOND[:2])
