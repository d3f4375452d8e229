"""Blocks: which samples each taster gets when nobody can taste them all.

A balanced incomplete block design serves every sample r times and every pair of samples to the same number
of tasters [Yates1936]; where there is none for a panel, the most even blocks that were found are taken. All
samples stay linked through tasters, so that any two can be compared; too few tasters for that are refused.
"""

import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from cupwright.core.plan.block_search import Block, Together, block_bound, settled_blocks
from cupwright.core.plan.difference_family import turned_blocks
from cupwright.errors import Refused

# Exchanges of samples in blocks of up to 8: found or given up within some 0.2 s. Larger blocks take longer.
_TRIES_OF_EIGHT = 12_000
# A design of more blocks than this is not searched by exchanges: it would hardly be hit.
_MOST_SEARCHED = 30


@dataclass(frozen=True, slots=True)
class Design:
    """The numbers of a balanced design: t samples in b blocks of k, each r times, each pair `together`."""

    samples: int
    blocks: int
    times: int
    size: int
    together: int


def possible_designs(t: int, k: int, most_blocks: int) -> tuple[Design, ...]:
    """The numbers of designs that arithmetic does not rule out, the smallest first.

    Notes
    -----
    Source: b k = t r and r (k - 1) = together (t - 1) [Yates1936]; b >= t [Fisher1940]. A design of such
    numbers need not exist.
    """
    found = []
    for together in range(1, most_blocks + 1):
        times, odd = divmod(together * (t - 1), k - 1)
        blocks, uneven = divmod(t * times, k)
        if blocks > most_blocks:
            break
        if not odd and not uneven and blocks >= t:
            found.append(Design(t, blocks, times, k, together))
    return tuple(found)


def fewest_tasters(t: int, k: int) -> int:
    """With how few tasters of k samples each t samples can be linked: each taster links k - 1 more."""
    return -(-(t - 1) // (k - 1))


def require_linked(t: int, tasters: int, k: int) -> None:
    """Refuse a panel that cannot link all samples.

    Raises
    ------
    Refused
        With how many tasters it would take.
    """
    fewest = fewest_tasters(t, k)
    if tasters < fewest:
        few = "1 taster" if tasters == 1 else f"{tasters} tasters"
        raise Refused(
            f"{few} with {k} of {t} samples each cannot link all samples, so some could not be compared.",
            todo=f"Seat at least {fewest} tasters, or give each more samples.",
            about="samples_each",
        )


def draw_blocks(t: int, tasters: int, k: int, *, rng: random.Random) -> list[Block]:
    """Which k of t samples, numbered from 0, each taster gets.

    Parameters
    ----------
    t, k : int
        2 <= k < t.
    tasters : int
        0 gives no blocks; who joins later gets the next one (`next_block`).
    rng : random.Random
        The same state gives the same blocks.

    Returns
    -------
    list of set of int, length tasters
        In drawn order under drawn labels.

    Raises
    ------
    Refused
        If so few tasters cannot link all samples.
    """
    if not tasters:
        return []
    require_linked(t, tasters, k)
    whole = balanced_design(t, tasters, k, rng=rng)
    repeats = tasters // len(whole) if whole else 0
    drawn = [block for _ in range(repeats) for block in _relabelled(t, whole, rng)]
    rest = tasters - len(drawn)
    start = _dealt(t, rest, k, rng) if drawn else _chain(t, rest, k, rng)
    drawn += settled_blocks(t, start, linked=not drawn, tries=_tries(k), rng=rng)
    rng.shuffle(drawn)
    return drawn


def balanced_design(t: int, most_blocks: int, k: int, *, rng: random.Random) -> list[Block]:
    """The smallest balanced design of at most so many blocks, or none if none was found."""
    for design in possible_designs(t, k, most_blocks):
        blocks = _by_turning(design) or _by_search(design, rng)
        if blocks:
            return blocks
    return []


def next_block(t: int, blocks: Sequence[Iterable[int]], k: int, *, rng: random.Random) -> Block:
    """The block of one taster more: the samples that were served, and met each other, least so far."""
    count = Together(t, blocks)
    (drawn,) = _filled_up([set()], t, k, Together(t, blocks), rng)
    while change := _best_exchange(drawn, t, count):
        drawn.remove(change[0])
        drawn.add(change[1])
    return drawn


def _best_exchange(block: Block, t: int, count: Together) -> tuple[int, int] | None:
    """(out, in) of the exchange that lowers the cost most, or None."""
    gains = [
        (count.price(into, block - {out}) - count.price(out, block - {out}), out, into)
        for out in block
        for into in range(t)
        if into not in block
    ]
    gain, out, into = min(gains, default=(0, 0, 0))
    return (out, into) if gain < 0 else None


def _tries(k: int) -> int:
    return _TRIES_OF_EIGHT * 8 // max(k, 8)


def _by_turning(design: Design) -> list[Block]:
    turned = turned_blocks(design.samples, design.size, design.blocks, design.together)
    return [set(block) for block in turned]


def _by_search(design: Design, rng: random.Random) -> list[Block]:
    t, b, k = design.samples, design.blocks, design.size
    if b > _MOST_SEARCHED:
        return []
    found = settled_blocks(t, _dealt(t, b, k, rng), linked=False, tries=_tries(k), rng=rng)
    return found if Together(t, found).cost == block_bound(t, b, k) else []


def _dealt(t: int, blocks: int, k: int, rng: random.Random) -> list[Block]:
    """Blocks filled one by one with what was served least."""
    return _filled_up([set() for _ in range(blocks)], t, k, Together(t, ()), rng)


def _chain(t: int, blocks: int, k: int, rng: random.Random) -> list[Block]:
    """The same with all samples linked: each block begins with one of the block before, then new ones."""
    order = rng.sample(range(t), t)
    links: list[Block] = [set() for _ in range(blocks)]
    for number in range(fewest_tasters(t, k)):
        links[number] = set(order[number * (k - 1) : number * (k - 1) + k])
    return _filled_up(links, t, k, Together(t, links), rng)


def _filled_up(begun: list[Block], t: int, k: int, count: Together, rng: random.Random) -> list[Block]:
    """Blocks of k each, what is missing chosen by what `count`, which counts what they hold, has least of."""
    for block in begun:
        while len(block) < k:
            free = [sample for sample in rng.sample(range(t), t) if sample not in block]
            count.put(block, min(free, key=lambda sample: count.price(sample, block)))
    return begun


def _relabelled(t: int, blocks: Sequence[Block], rng: random.Random) -> list[Block]:
    label = rng.sample(range(t), t)
    return [{label[sample] for sample in block} for block in blocks]
