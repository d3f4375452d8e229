"""Williams squares and balanced incomplete blocks against published ones."""

import random
from collections import Counter
from itertools import combinations

import pytest

from cupwright.core.plan.blocks import draw_blocks, possible_designs
from cupwright.core.plan.difference_family import turned_blocks
from cupwright.core.plan.williams import williams

PUBLISHED_SQUARES = {
    3: "123 231 312 321 132 213",
    4: "1243 2314 3421 4132",
    5: "12534 23145 34251 45312 51423 43521 54132 15243 21354 32415",
    6: "126354 231465 342516 453621 564132 615243",
}


@pytest.mark.parametrize("n", sorted(PUBLISHED_SQUARES))
def test_the_square_is_the_published_one(n: int):
    """Williams (1949), Aust. J. Sci. Res. A 2:149-168: rows as retold for 6; 3, 4 and 5 by the same rule."""
    rows = ["".join(str(thing + 1) for thing in row) for row in williams(n)]

    assert rows == PUBLISHED_SQUARES[n].split()


# samples, tasters, samples each, times served, tasters a pair has in common
KNOWN_DESIGNS = [
    (5, 10, 2, 4, 1),
    (5, 10, 3, 6, 3),
    (6, 15, 2, 5, 1),
    (6, 10, 3, 5, 2),
    (6, 15, 4, 10, 6),
    (7, 7, 3, 3, 1),
    (7, 7, 4, 4, 2),
    (8, 14, 4, 7, 3),
    (9, 12, 3, 4, 1),
    (9, 18, 4, 8, 3),
    (10, 15, 4, 6, 2),
    (10, 30, 3, 9, 2),
    (11, 11, 5, 5, 2),
    (13, 13, 4, 4, 1),
    (13, 26, 3, 6, 1),
    (15, 35, 3, 7, 1),
    (16, 20, 4, 5, 1),
    (21, 21, 5, 5, 1),
    (25, 30, 5, 6, 1),
]


@pytest.mark.parametrize(("t", "b", "k", "r", "together"), KNOWN_DESIGNS)
def test_a_known_balanced_design_is_reached_exactly(t: int, b: int, k: int, r: int, together: int):
    """Parameters as in the tables of Fisher & Yates and of Cochran & Cox (1957), ch. 11; from memory.

    Each line is held against the identities b k = t r and r (k - 1) = together (t - 1) first.
    """
    assert b * k == t * r
    assert r * (k - 1) == together * (t - 1)

    blocks = draw_blocks(t, b, k, rng=random.Random(11))

    served = Counter(sample for block in blocks for sample in block)
    pairs = Counter(pair for block in blocks for pair in combinations(sorted(block), 2))
    assert set(served.values()) == {r}
    assert len(pairs) == t * (t - 1) // 2
    assert set(pairs.values()) == {together}


def test_the_plane_of_seven_points_comes_from_its_difference_set():
    """{0, 1, 3} modulo 7, the best known difference set; from memory. Lines of the Fano plane."""
    assert turned_blocks(7, 3, 7, 1)[0] == (0, 1, 3)


def test_arithmetic_rules_out_what_fisher_did():
    """Fisher (1940), Ann. Eugen. 10:52-75: no fewer blocks than samples; from memory.

    16 samples in 8 blocks of 6 (each 3 times, each pair once) fit both identities and break it.
    """
    assert [design.blocks for design in possible_designs(16, 6, 8)] == []
    assert 16 * 3 == 8 * 6
    assert 3 * 5 == 1 * 15
