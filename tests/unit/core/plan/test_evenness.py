"""Evenness: the least sum of squares is the least."""

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.plan.evenness import least_squares, squares


def test_the_bound_is_the_least_over_all_ways_to_deal():
    for cells in range(1, 4):
        for total in range(8):
            dealt = [way for way in product(range(total + 1), repeat=cells) if sum(way) == total]
            assert least_squares(total, cells) == min(map(squares, dealt))


@given(counts=st.lists(st.integers(0, 30), min_size=1, max_size=20))
def test_no_counts_are_below_it(counts: list[int]):
    assert squares(counts) >= least_squares(sum(counts), len(counts))


def test_nothing_to_deal_over_costs_nothing():
    assert least_squares(0, 0) == 0
