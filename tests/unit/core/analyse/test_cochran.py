"""Cochran's Q: what says nothing, and what is refused."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from cupwright.core.analyse.cochran import cochran_q
from cupwright.errors import IncompleteTable, NoSpread, Refused, TooFewObservations

TICKS = arrays(bool, (3, 6)).filter(lambda used: (used.any(axis=0) & ~used.all(axis=0)).any())


@given(TICKS, st.permutations(range(3)), st.permutations(range(6)))
def test_names_do_not_matter_nor_whether_yes_or_no_is_counted(used, coffees, tasters):
    found, renamed = cochran_q(used), cochran_q(used[list(coffees)][:, list(tasters)])

    assert (renamed.q, renamed.p) == pytest.approx((found.q, found.p))
    assert cochran_q(~used).p == pytest.approx(found.p)


@given(TICKS)
def test_tasters_who_tick_all_or_nothing_change_nothing(used):
    more = np.column_stack([used, np.ones(3, dtype=bool), np.zeros(3, dtype=bool)])

    found, same = cochran_q(used), cochran_q(more)

    assert (same.q, same.p) == pytest.approx((found.q, found.p))
    assert same.informative == found.informative


def test_five_tasters_who_all_tick_one_of_three_coffees_do_so_by_luck_once_in_81():
    used = np.zeros((3, 5), dtype=bool)
    used[1] = True

    assert cochran_q(used).p == pytest.approx(3 / 3**5)


def test_without_shuffles_the_large_sample_value_stands():
    used = np.random.default_rng(1).uniform(size=(4, 9)) < 0.5

    found = cochran_q(used, resamples=0)

    assert (found.method, found.p) == ("chi-squared", found.p_chi2)


@pytest.mark.parametrize(
    ("used", "refusal"),
    [
        ([[1, 0], [1, 0]], NoSpread),
        ([[1, 0]], TooFewObservations),
        ([[1, 0], [1, np.nan]], IncompleteTable),
        ([[1, 0], [1, 2]], Refused),
    ],
)
def test_what_has_no_shares_to_compare_is_refused(used, refusal):
    with pytest.raises(refusal):
        cochran_q(used)
