"""The search for even orders: who stands where and who follows whom, as evenly as can be found.

The measure is a whole number: the squares of all counts "sample i stood at position p" and "sample j came
right after sample i", summed. With the totals fixed it is least when all counts are as equal as whole
numbers can be (evenness.py). The search is late acceptance [BurkeBykov2017]: a change is kept if the
outcome is no worse than now, or no worse than it was some changes ago. It needs no temperature and no
fractions, so a seed gives the same orders on every machine.
"""

import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from cupwright.core.plan.evenness import least_squares, squares

# Measured on 5 to 13 samples: 20 does better than 60, 300 or 1000 within some ten thousand tries.
_MEMORY = 20
# A search that has tried so many exchanges for each pair of samples in vain is over.
_PATIENCE = 60


@dataclass(slots=True)
class Tally:
    """Counts of n samples over a set of orders, kept up to date order by order.

    `positions[i][p]`: how often sample i stood at position p; `followers[i][j]`: how often sample j came
    right after sample i. Orders may be shorter than n. `cost` is the sum of squares of all these.
    """

    n: int
    positions: list[list[int]] = field(default_factory=list)
    followers: list[list[int]] = field(default_factory=list)
    cost: int = 0

    def __post_init__(self) -> None:
        self.positions = [[0] * self.n for _ in range(self.n)]
        self.followers = [[0] * self.n for _ in range(self.n)]

    def add(self, order: Sequence[int]) -> None:
        """Count one order more."""
        self._change(order, range(len(order)), range(len(order) - 1), 1)

    def _change(self, order: Sequence[int], stands: Iterable[int], links: Iterable[int], by: int) -> None:
        # (c + by)^2 - c^2 = by (2c + by), since by is 1 or -1
        cost = 0
        for place in stands:
            row = self.positions[order[place]]
            cost += by * (2 * row[place] + by)
            row[place] += by
        for link in links:
            row, after = self.followers[order[link]], order[link + 1]
            cost += by * (2 * row[after] + by)
            row[after] += by
        self.cost += cost

    def swap(self, order: list[int], one: int, other: int) -> None:
        """Exchange two positions of an order that is counted here."""
        last = len(order) - 2
        links = [link for link in {one - 1, one, other - 1, other} if 0 <= link <= last]
        self._change(order, (one, other), links, -1)
        order[one], order[other] = order[other], order[one]
        self._change(order, (one, other), links, 1)


def tallied(n: int, orders: Iterable[Sequence[int]]) -> Tally:
    """The counts of some orders of n samples."""
    tally = Tally(n)
    for order in orders:
        tally.add(order)
    return tally


def bound(n: int, orders: Sequence[Sequence[int]]) -> int:
    """A cost that no orders of the same samples for the same tasters can be below.

    Each sample's stands are dealt over the positions of the longest order, each position's stands over the
    samples (the stricter of both counts), and all steps over the n(n-1) ordered pairs.
    """
    lengths = [len(order) for order in orders]
    longest = max(lengths, default=0)
    served = [0] * n
    for order in orders:
        for sample in order:
            served[sample] += 1
    by_sample = sum(least_squares(times, longest) for times in served)
    by_position = sum(least_squares(sum(length > p for length in lengths), n) for p in range(longest))
    steps = sum(max(length - 1, 0) for length in lengths)
    return max(by_sample, by_position) + least_squares(steps, n * (n - 1))


def settled(
    n: int,
    orders: Sequence[Sequence[int]],
    *,
    fixed: Iterable[Sequence[int]] = (),
    tries: int,
    rng: random.Random,
) -> list[list[int]]:
    """The orders, each rearranged within itself until position and succession are as even as was found.

    Parameters
    ----------
    n : int
        How many samples there are, numbered from 0.
    orders : sequence of sequence of int
        Where to start. Each keeps its samples.
    fixed : iterable of sequence of int
        Orders that are counted too and stay as they are.
    tries : int
        How many exchanges of two samples are tried at most; it ends sooner at the bound, or when long
        nothing better was met.
    rng : random.Random
        The same state gives the same orders.

    Returns
    -------
    list of list of int
        The best that was met; never worse than the start.
    """
    kept = list(fixed)
    now = [list(order) for order in orders]
    movable = [order for order in now if len(order) > 1]
    tally, goal = tallied(n, (*kept, *now)), bound(n, (*kept, *now))
    least, remembered, last_gain = tally.cost, [tally.cost] * _MEMORY, 0
    since_best: list[tuple[list[int], int, int]] = []
    for attempt in range(tries if movable else 0):
        if least <= goal or attempt - last_gain > _PATIENCE * n * n:
            break
        order, before = rng.choice(movable), tally.cost
        one, other = rng.sample(range(len(order)), 2)
        tally.swap(order, one, other)
        if tally.cost > before and tally.cost > remembered[attempt % _MEMORY]:
            tally.swap(order, one, other)
        elif tally.cost < least:
            least, since_best, last_gain = tally.cost, [], attempt
        else:
            since_best.append((order, one, other))
        remembered[attempt % _MEMORY] = tally.cost
    for order, one, other in reversed(since_best):
        tally.swap(order, one, other)
    return now


def cost(n: int, orders: Iterable[Sequence[int]]) -> int:
    """The measure of evenness of some orders; see the head of this file."""
    tally = tallied(n, orders)
    return sum(squares(row) for row in (*tally.positions, *tally.followers))
