"""One cup off against chances that can be counted by hand and an independent library."""

from itertools import permutations
from math import comb

import numpy as np
import pytest
from scipy import stats

from cupwright.core.analyse.one_cup_off import one_cup_off


def ones(*bowls, of):
    table = np.zeros((len(bowls), of))
    table[np.arange(len(bowls)), np.array(bowls) - 1] = 1
    return table


def test_shared_birthdays_of_bowls():
    """Feller (1968), vol. 1, II.3: r balls in n cells, no two together with chance n!/((n-r)! n^r)."""
    table = ones(1, 1, 2, 3, of=7)

    apart = 7 * 6 * 5 * 4 / 7**4
    assert one_cup_off(table).bowls[0].p == pytest.approx(1 - apart, rel=1e-12)


def test_all_marks_in_one_bowl():
    """n cells, all r balls in one of them: n^(1-r)."""
    assert one_cup_off(ones(2, 2, 2, 2, of=5)).p == pytest.approx(5.0**-3, rel=1e-12)


def test_the_tea_tasting_lady():
    """Fisher (1935): 4 of 8 cups, a second choice of 4 shares none with chance 1/70."""
    first, second = [1, 1, 1, 1, 0, 0, 0, 0], [1, 0, 0, 0, 1, 1, 1, 0]

    assert one_cup_off(np.array([first, second], float)).p == pytest.approx(1 - 1 / comb(8, 4), rel=1e-12)


def test_two_tasters_against_every_pairing():
    """scipy.stats.permutation_test, exact pairings, the largest deviation as statistic."""
    a, b = np.array([82.0, 81.5, 79.0, 82.5]), np.array([84.0, 83.0, 82.25, 84.5])

    def largest(x, y, axis):
        both = x + y
        return np.abs(both - both.mean(axis=axis, keepdims=True)).max(axis=axis)

    theirs = stats.permutation_test(
        (a, b),
        largest,
        permutation_type="pairings",
        vectorized=True,
        n_resamples=np.inf,
        alternative="greater",
    )

    found = one_cup_off(np.array([a, b]))
    assert found.exact
    assert found.p == pytest.approx(theirs.pvalue, rel=1e-9)


def test_three_tasters_against_all_orders_listed():
    """itertools.permutations: 24^2 orders against the first taster's."""
    table = np.array([[6.0, 7, 7, 3], [5, 8, 7, 4], [6, 6, 8, 5]])
    rows = table - table.mean(axis=1, keepdims=True)

    largest = [
        np.abs(rows[0] + np.array(x) + np.array(y)).max()
        for x in permutations(rows[1])
        for y in permutations(rows[2])
    ]
    seen = np.abs(rows.sum(axis=0)).max()
    assert one_cup_off(table).p == pytest.approx(np.mean(np.array(largest) >= seen - 1e-9), rel=1e-9)


def test_one_bowl_of_marks_is_binomial_by_the_union_of_bowls():
    """Three marks of five bowls: two meet with 1 - 5 x 4 x 3 / 125 = .52; all three as 5 binomials."""
    assert one_cup_off(ones(1, 1, 4, of=5)).p == pytest.approx(0.52, rel=1e-12)
    assert one_cup_off(ones(4, 4, 4, of=5)).p == pytest.approx(5 * stats.binom.pmf(3, 3, 0.2), rel=1e-12)
