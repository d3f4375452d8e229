"""Shares: properties that need no published value."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.analyse.proportions import share_difference, wilson
from cupwright.errors import Refused, TooFewObservations

GROUPS = st.integers(1, 400).flatmap(lambda of: st.tuples(st.integers(0, of), st.just(of)))


@given(GROUPS)
def test_the_interval_of_a_share_holds_it_and_stays_within_zero_and_one(group):
    share = wilson(*group)

    assert 0 <= share.low <= share.estimate <= share.high <= 1
    assert share.low < share.high


@given(GROUPS)
def test_the_interval_of_the_complement_is_the_mirror_image(group):
    count, of = group

    share, rest = wilson(count, of), wilson(of - count, of)

    assert (rest.low, rest.high) == pytest.approx((1 - share.high, 1 - share.low), abs=1e-12)


@given(GROUPS, GROUPS)
def test_exchanging_the_groups_turns_the_difference_round(one, other):
    forth, back = share_difference(*one, *other), share_difference(*other, *one)

    assert (back.low, back.high) == pytest.approx((-forth.high, -forth.low), abs=1e-12)
    assert -1 <= forth.low <= forth.estimate <= forth.high <= 1


def test_a_share_of_nobody_is_refused():
    with pytest.raises(TooFewObservations, match="nobody"):
        wilson(0, 0)


@pytest.mark.parametrize("count", [-1, 6])
def test_a_count_outside_its_group_is_refused(count):
    with pytest.raises(Refused, match="of 5 is not a share"):
        share_difference(2, 4, count, 5)


@pytest.mark.parametrize("level", [0, 1, 95])
def test_a_level_that_is_no_chance_is_refused(level):
    with pytest.raises(Refused, match="not between 0 and 1"):
        wilson(1, 2, level=level)
