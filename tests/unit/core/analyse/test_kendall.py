"""Kendall's W: limits, silence and invariances."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from cupwright.core.analyse.kendall import kendall_w
from cupwright.errors import NoSpread, Refused

TABLES = arrays(np.int64, st.tuples(st.integers(2, 6), st.integers(2, 5)), elements=st.integers(0, 6))


@given(TABLES)
def test_w_lies_in_its_range_and_its_ends_around_it(values):
    try:
        found = kendall_w(values.astype(float), test=False)
    except Refused:
        return

    assert -1e-12 <= found.estimate <= 1 + 1e-12
    assert (found.low is None) == (found.high is None) == bool(found.why_not)
    if found.low is not None and found.high is not None:
        assert 0 <= found.low <= found.estimate <= found.high <= 1 + 1e-12


@given(TABLES)
def test_only_the_order_within_a_taster_counts(values):
    table = values.astype(float)
    try:
        found = kendall_w(table, test=False)
    except Refused:
        return
    levels = np.arange(table.shape[1]) * 10

    stretched = kendall_w(np.exp(table / 3) + levels, test=False)

    assert stretched.estimate == pytest.approx(found.estimate)


def test_one_order_is_one_with_its_exact_chance_and_no_interval():
    found = kendall_w(np.tile(np.arange(4.0)[:, None], 3))

    assert found.estimate == pytest.approx(1)
    assert found.p == pytest.approx(1 / 24**2)
    assert found.method == "exact"
    assert found.low is None
    assert "cannot be told" in found.why_not


def test_two_tasters_of_opposite_order_are_zero():
    assert kendall_w(np.array([[1.0, 3], [2, 2], [3, 1]])).estimate == pytest.approx(0)


@pytest.mark.parametrize("shape", [(3, 5), (6, 2)])
def test_no_interval_below_four_coffees_and_three_tasters(shape):
    found = kendall_w(np.random.default_rng(2).normal(size=shape), test=False)

    assert found.low is found.high is None
    assert "needs 4 coffees and 3 tasters" in found.why_not


def test_level_scores_are_refused():
    with pytest.raises(NoSpread, match="No taster scored any two coffees differently"):
        kendall_w(np.tile([3.0, 8.0], (4, 1)))


def test_a_test_that_was_not_asked_for_is_not_there():
    found = kendall_w(np.array([[1.0, 2], [2, 1], [3, 3]]), test=False)

    assert (found.p, found.method) == (None, "")
