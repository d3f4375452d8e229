"""The search for even blocks: each sample served, and each pair together, as equally often as can be found.

As in order_search.py the measure is a sum of squared whole counts and the search is late acceptance
[BurkeBykov2017]; a change that would part the samples into groups without a taster in common is undone.
"""

import random
from collections.abc import Iterable, Sequence
from itertools import combinations

from cupwright.core.plan.evenness import least_squares, squares

_MEMORY = 20
Block = set[int]


def is_connected(t: int, blocks: Iterable[Iterable[int]]) -> bool:
    """Whether any two of t samples are linked by tasters who had both, or both of a chain of others."""
    waiting = [sum(1 << sample for sample in block) for block in blocks]
    everything = (1 << t) - 1
    reached = 1
    while reached != everything:
        joining = [mask for mask in waiting if mask & reached]
        if not joining:
            return False
        for mask in joining:
            reached |= mask
        waiting = [mask for mask in waiting if not mask & reached or mask & ~reached]
    return True


def block_bound(t: int, blocks: int, k: int) -> int:
    """A cost that no `blocks` blocks of k of t samples can be below; proof in evenness.py."""
    return least_squares(blocks * k, t) + least_squares(blocks * k * (k - 1) // 2, t * (t - 1) // 2)


class Together:
    """How often each of t samples is served and each pair is in one block; `cost` sums their squares."""

    def __init__(self, t: int, blocks: Iterable[Iterable[int]]) -> None:
        self.served = [0] * t
        self.pairs = [[0] * t for _ in range(t)]
        for block in blocks:
            for sample in block:
                self.served[sample] += 1
            for one, other in combinations(sorted(block), 2):
                self.pairs[one][other] += 1
                self.pairs[other][one] += 1
        upper = (count for one, row in enumerate(self.pairs) for count in row[one + 1 :])
        self.cost = squares(self.served) + squares(upper)

    def price(self, sample: int, block: Iterable[int]) -> int:
        """What a sample would add to the cost if it joined the others of a block."""
        row = self.pairs[sample]
        return 2 * self.served[sample] + 1 + sum(2 * row[other] + 1 for other in block)

    def exchange(self, block: Block, out: int, into: int) -> None:
        """Take one sample out of a block that is counted here and put another in."""
        block.discard(out)
        self._count(out, block, -1)
        self.put(block, into)

    def put(self, block: Block, sample: int) -> None:
        """Put one sample more into a block that is counted here."""
        self._count(sample, block, 1)
        block.add(sample)

    def _count(self, sample: int, others: Block, by: int) -> None:
        # (c + by)^2 - c^2 = by (2c + by), since by is 1 or -1
        self.cost += by * (2 * self.served[sample] + by)
        self.served[sample] += by
        for other in others:
            self.cost += by * (2 * self.pairs[sample][other] + by)
            self.pairs[sample][other] += by
            self.pairs[other][sample] += by


def settled_blocks(
    t: int, start: Sequence[Iterable[int]], *, linked: bool, tries: int, rng: random.Random
) -> list[Block]:
    """The blocks after exchanges of samples, as even as was found; never worse than the start.

    Parameters
    ----------
    linked : bool
        Keep all samples connected, as they are at the start.
    tries : int
        How many exchanges at most; it ends sooner at the bound.
    """
    now = [set(block) for block in start]
    count = Together(t, now)
    goal = block_bound(t, len(now), len(now[0])) if now else 0
    least, remembered = count.cost, [count.cost] * _MEMORY
    since_best: list[tuple[Block, int, int]] = []
    for attempt in range(tries):
        if least <= goal:
            break
        before = count.cost
        done = _random_change(t, now, count, rng)
        worse = count.cost > before and count.cost > remembered[attempt % _MEMORY]
        if worse or (linked and not is_connected(t, now)):
            _undo(done, count)
        elif count.cost < least:
            least, since_best = count.cost, []
        else:
            since_best += done
        remembered[attempt % _MEMORY] = count.cost
    _undo(since_best, count)
    return now


def _undo(changes: list[tuple[Block, int, int]], count: Together) -> None:
    for block, out, into in reversed(changes):
        count.exchange(block, into, out)


def _random_change(
    t: int, blocks: list[Block], count: Together, rng: random.Random
) -> list[tuple[Block, int, int]]:
    """Exchange a sample of one block for another, if it can be with the block that has it; what was done."""
    block = rng.choice(blocks)
    out = rng.choice(sorted(block))
    into = rng.choice([sample for sample in range(t) if sample not in block])
    done = [(block, out, into)]
    givers = [other for other in blocks if into in other and out not in other]
    # An even exchange leaves everybody served as often as before; now and then a lone one is needed.
    if givers and rng.random() < 0.8:
        done.append((rng.choice(givers), into, out))
    for one, lost, gained in done:
        count.exchange(one, lost, gained)
    return done
