"""The search for even orders: its counts are right, it never gets worse, and its bound holds."""

import random
from collections import Counter
from itertools import pairwise, permutations, product

from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.plan.order_search import bound, cost, settled, tallied


def counted_anew(orders: list[list[int]]) -> int:
    """The measure, worked out apart from the code under test."""
    stands = Counter((p, sample) for order in orders for p, sample in enumerate(order))
    steps = Counter(pair for order in orders for pair in pairwise(order))
    return sum(n * n for n in (*stands.values(), *steps.values()))


def some_orders(n: int, seats: int, rng: random.Random) -> list[list[int]]:
    return [rng.sample(range(n), rng.randint(0, n)) for _ in range(seats)]


@given(n=st.integers(1, 7), seats=st.integers(0, 6), seed=st.integers())
def test_the_cost_is_the_sum_of_squared_counts(n: int, seats: int, seed: int):
    orders = some_orders(n, seats, random.Random(seed))

    assert cost(n, orders) == tallied(n, orders).cost == counted_anew(orders)


@given(n=st.integers(2, 7), seed=st.integers())
def test_an_exchange_keeps_the_counts_right(n: int, seed: int):
    # given
    rng = random.Random(seed)
    orders = [rng.sample(range(n), n) for _ in range(4)]
    tally = tallied(n, orders)

    # when
    for _ in range(10):
        tally.swap(rng.choice(orders), *rng.sample(range(n), 2))

    # then
    assert tally.cost == counted_anew(orders)
    assert tally.positions == tallied(n, orders).positions
    assert tally.followers == tallied(n, orders).followers


@settings(max_examples=50)
@given(n=st.integers(1, 7), seats=st.integers(0, 8), seed=st.integers())
def test_the_outcome_is_never_worse_than_the_start_nor_below_the_bound(n: int, seats: int, seed: int):
    # given
    rng = random.Random(seed)
    start, fixed = some_orders(n, seats, rng), some_orders(n, 3, rng)

    # when
    found = settled(n, start, fixed=fixed, tries=200, rng=rng)

    # then
    assert [sorted(order) for order in found] == [sorted(order) for order in start]
    assert bound(n, [*fixed, *found]) <= cost(n, [*fixed, *found]) <= cost(n, [*fixed, *start])


def test_no_three_orders_of_three_samples_are_below_the_bound():
    everything = list(permutations(range(3)))

    least = min(cost(3, some) for some in product(everything, repeat=3))

    assert least >= bound(3, everything[:3])


def test_it_stops_at_the_bound():
    class Counting(random.Random):
        drawn = 0

        def choice(self, seq):
            Counting.drawn += 1
            return super().choice(seq)

    settled(2, [[0, 1], [0, 1]], tries=1000, rng=Counting(1))

    assert Counting.drawn < 20


def test_the_start_is_left_as_it_is():
    start = [[0, 1, 2], [0, 1, 2]]

    settled(3, start, tries=50, rng=random.Random(1))

    assert start == [[0, 1, 2], [0, 1, 2]]
