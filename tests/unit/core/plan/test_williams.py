"""Williams squares: every position and every succession equally often."""

from collections import Counter
from itertools import pairwise

import pytest

from cupwright.core.plan.williams import williams


@pytest.mark.parametrize("n", range(1, 13))
def test_every_row_holds_everything_once_and_there_are_n_or_2n(n: int):
    rows = williams(n)

    assert len(rows) == (n if n % 2 == 0 else 2 * n)
    assert all(sorted(row) == list(range(n)) for row in rows)


@pytest.mark.parametrize("n", range(2, 13))
def test_everything_stands_in_every_position_equally_often(n: int):
    times = len(williams(n)) // n

    counts = Counter((position, thing) for row in williams(n) for position, thing in enumerate(row))

    assert len(counts) == n * n
    assert set(counts.values()) == {times}


@pytest.mark.parametrize("n", range(2, 13))
def test_every_ordered_pair_of_neighbours_comes_equally_often(n: int):
    times = len(williams(n)) // n

    counts = Counter(pair for row in williams(n) for pair in pairwise(row))

    assert len(counts) == n * (n - 1)
    assert set(counts.values()) == {times}
