"""The exact test within tasters, against Fisher's example, scipy.stats and a list of every case."""

from itertools import combinations, product

import numpy as np
import pytest
from scipy.stats import fisher_exact, poisson_binom

from cupwright.core.analyse.exact_test import exact_p_value


def separate(count, of, other_count, other_of):
    """Two groups of people, each of whom wrote on one of two coffees."""
    wrote, used = np.zeros((2, of + other_of), dtype=bool), np.zeros((2, of + other_of), dtype=bool)
    wrote[0, :of], wrote[1, of:] = True, True
    used[0, :count], used[1, of : of + other_count] = True, True
    return used, wrote


def test_separate_groups_match_the_lady_tasting_tea():
    """Fisher (1935), The Design of Experiments, ch. 2: 3 of 4 right has chance 17/70 or more on one side."""
    assert exact_p_value(*separate(3, 4, 1, 4), 0) == pytest.approx(2 * 17 / 70)
    assert exact_p_value(*separate(4, 4, 0, 4), 0) == pytest.approx(2 * 1 / 70)


def test_separate_groups_match_twice_the_smaller_tail_of_scipy():
    """scipy.stats.fisher_exact, alternatives "less" and "greater"."""
    for of, other_of in ((5, 9), (40, 3), (160, 410)):
        for count, other in ((0, other_of), (of // 2, other_of // 3), (of, 0), (1, 1)):
            table = [[count, of - count], [other, other_of - other]]
            tails = [fisher_exact(table, alternative=side).pvalue for side in ("less", "greater")]

            p = exact_p_value(*separate(count, of, other, other_of), 0)

            assert p == pytest.approx(min(1.0, 2 * min(tails)), rel=1e-9)


def test_the_same_tasters_match_the_sum_of_their_own_chances_in_scipy():
    """scipy.stats.poisson_binom: a taster with m uses over 4 coffees has one here with chance m/4."""
    used = np.random.default_rng(1964).uniform(size=(4, 300)) < np.array([[0.4], [0.3], [0.3], [0.2]])
    chances = used.sum(axis=0) / 4
    oracle, count = poisson_binom(chances[chances > 0]), int(used[0].sum())

    p = exact_p_value(used, np.ones((4, 300), dtype=bool), 0)

    assert p == pytest.approx(2 * oracle.sf(count - 1), rel=1e-7)


def test_a_small_table_with_holes_matches_a_list_of_every_case():
    """Every way to lay each taster's uses on the coffees they wrote on; the singles' uses on the singles."""
    wrote = np.array(
        [[1, 1, 1, 1, 0, 0], [1, 1, 0, 0, 1, 0], [1, 0, 0, 0, 0, 1], [1, 1, 0, 0, 0, 0]], dtype=bool
    )
    used = np.array(
        [[1, 1, 1, 1, 0, 0], [0, 0, 0, 0, 1, 0], [1, 0, 0, 0, 0, 0], [0, 1, 0, 0, 0, 0]], dtype=bool
    )
    of_first = [int(0 in case) for case in combinations(range(4), 2)]
    of_second = [int(0 in case) for case in combinations(range(3), 2)]
    of_singles = [sum(taster in (0, 1) for taster in case) for case in combinations(range(4), 3)]

    counts = np.array([sum(case) for case in product(of_first, of_second, of_singles)])

    smaller = min((counts >= 4).mean(), (counts <= 4).mean())
    assert exact_p_value(used, wrote, 0) == pytest.approx(min(1.0, 2 * smaller))
