"""The exact test within tasters: properties that need no published value."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from cupwright.core.analyse.exact_test import exact_p_value
from cupwright.errors import Refused, TooFewObservations

# 3 coffees, up to 6 tasters: 0 did not write, 1 wrote, 2 wrote and used the word.
TABLES = st.integers(1, 6).flatmap(lambda tasters: arrays(np.int8, (3, tasters), elements=st.integers(0, 2)))


def comparable(table):
    return (table[0] > 0).any() and (table[1:] > 0).any()


@given(TABLES.filter(comparable))
def test_a_p_value_is_a_chance_and_the_same_for_not_using_the_word(table):
    used, wrote = table == 2, table > 0

    p = exact_p_value(used, wrote, 0)

    assert 0 < p <= 1
    assert exact_p_value(wrote & ~used, wrote, 0) == pytest.approx(p, rel=1e-9)


@given(TABLES.filter(comparable))
def test_a_taster_who_uses_a_word_for_every_coffee_changes_nothing(table):
    used, wrote = table == 2, table > 0

    more_used = np.column_stack([used, np.ones(3, dtype=bool)])
    more_wrote = np.column_stack([wrote, np.ones(3, dtype=bool)])

    p = exact_p_value(used, wrote, 0)
    assert exact_p_value(more_used, more_wrote, 0) == pytest.approx(p, rel=1e-9)


def test_five_tasters_who_all_give_a_word_to_one_of_three_coffees_are_no_closer_to_certain_than_one_in_243():
    used = np.zeros((3, 5), dtype=bool)
    used[0] = True

    assert exact_p_value(used, np.ones((3, 5), dtype=bool), 0) == pytest.approx(2 / 3**5)


def test_a_coffee_nobody_wrote_about_cannot_be_compared():
    wrote = np.array([[False, False], [True, True]])

    with pytest.raises(TooFewObservations, match="cannot be compared"):
        exact_p_value(np.zeros((2, 2), dtype=bool), wrote, 0)
    with pytest.raises(TooFewObservations, match="cannot be compared"):
        exact_p_value(np.zeros((2, 2), dtype=bool), wrote, 1)


def test_a_word_used_without_writing_is_refused():
    with pytest.raises(Refused, match="nobody wrote"):
        exact_p_value(np.ones((2, 2), dtype=bool), np.array([[True, True], [True, False]]), 0)
