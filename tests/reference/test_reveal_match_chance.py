"""Matches held against shuffles, against the classical matching problem and against trying every order."""

from itertools import permutations
from math import factorial

import numpy as np
import pytest

from cupwright.core.reveal.significance import shuffled

# P(at least m of n right) when n labels are given out at random; by counting derangements (Montmort 1708).
AT_LEAST = {
    4: {1: 15 / 24, 2: 7 / 24, 4: 1 / 24},
    5: {1: 76 / 120, 2: 31 / 120, 3: 11 / 120, 5: 1 / 120},
    6: {1: 455 / 720, 2: 191 / 720, 3: 56 / 720, 4: 16 / 720, 6: 1 / 720},
}
PRINTED = {(4, 1): 0.625, (4, 2): 0.291667, (5, 3): 0.091667, (6, 1): 0.631944, (6, 4): 0.022222}


def fits(size, right):
    """Scores of a taster who got `right` coffees right and gave the others' notes away in a ring."""
    order = list(range(right)) + [right + (at + 1) % (size - right) for at in range(size - right)]
    scores = np.zeros((size, size))
    scores[np.arange(size), order] = 1.0
    return scores


@pytest.mark.parametrize(("size", "right"), [(n, m) for n, row in AT_LEAST.items() for m in row])
def test_labels_given_out_at_random_are_right_as_often_as_in_the_matching_problem(size, right):
    """de Montmort (1708), the matching problem: exact fractions; decimals as in common tables."""
    chance = shuffled(fits(size, right))

    assert chance.total == right
    assert chance.by_chance == pytest.approx(1.0)  # one right on average, whatever the number
    assert chance.p_value == pytest.approx(AT_LEAST[size][right], abs=1e-12)
    if (size, right) in PRINTED:
        assert chance.p_value == pytest.approx(PRINTED[size, right], abs=5e-7)


@pytest.mark.parametrize("seed", range(6))
def test_every_order_is_tried_once(seed):
    """Brute force in plain Python, on scores of two decimals so that sums tie."""
    size = 2 + seed
    scores = np.random.default_rng(seed).integers(0, 5, (size, size)) / 100

    total = round(sum(scores[at, at] for at in range(size)), 6)
    as_good = sum(
        round(sum(scores[at, to] for at, to in enumerate(order)), 6) >= total
        for order in permutations(range(size))
    )

    chance = shuffled(scores)
    assert chance.ways == factorial(size)
    assert chance.p_value == pytest.approx(as_good / factorial(size), abs=1e-12)


def test_p_values_are_at_most_as_often_small_as_they_say():
    """Without skill P(p <= a) <= a for every a: 2,000 tables of five coffees with random scores."""
    rng = np.random.default_rng(12)
    values = np.array([shuffled(rng.random((5, 5))).p_value for _ in range(2_000)])

    for level in (0.01, 0.05, 0.1, 0.25, 0.5):
        assert (values <= level).mean() <= level + 3 * (level * (1 - level) / 2_000) ** 0.5
