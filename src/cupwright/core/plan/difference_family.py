"""Difference families: a few base blocks that, turned around a ring, make a balanced design.

[Bose1939], from memory: if the differences within some blocks of the numbers modulo m hold every number but
0 equally often, then all m turns of these blocks hold every pair equally often. A short orbit, a block of
evenly spaced numbers that comes back to itself after fewer turns, may hold some of the differences; with one
sample more, which stays where it is while the others turn, affine planes are reached.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

Blocks = list[tuple[int, ...]]

# Small families are found within some thousand trials; what is not is left to the search. Counted in
# differences, so that large blocks take no longer than small ones: some 0.1 s.
_MOST_DIFFERENCES = 400_000


@dataclass(frozen=True, slots=True)
class _Ring:
    """Numbers modulo m with the blocks of a short orbit, and how often each difference is still wanted."""

    modulus: int
    short: Blocks
    wanted: list[int]


def turned_blocks(t: int, k: int, blocks: int, together: int) -> Blocks:
    """`blocks` blocks of k of t samples, every pair `together` times, made by turning base blocks.

    Parameters
    ----------
    t, k : int
        2 <= k < t; samples are numbered from 0.
    blocks, together : int
        Numbers of a possible design.

    Returns
    -------
    list of tuple of int
        Empty if there is no such family or none was found in reasonable time.
    """
    trials = _MOST_DIFFERENCES // (k * (k - 1))
    for ring in _rings(t, k, together):
        bases, over = divmod(blocks - len(ring.short), ring.modulus)
        if over or bases < 1:
            continue
        family = _family(ring.modulus, k, bases, ring.wanted, iter(range(trials)))
        if family:
            return ring.short + [turned for base in family for turned in _turns(base, ring.modulus)]
    return []


def _rings(t: int, k: int, together: int) -> Iterator[_Ring]:
    yield _Ring(t, [], [together] * t)
    if t % k == 0:
        step = t // k
        spaced = [tuple(range(start, t, step)) for start in range(step)]
        yield _Ring(t, spaced, _less_multiples(t, step, together))
    if (t - 1) % (k - 1) == 0 and together == 1:
        # The last sample stays: it is once with each of the others, in the blocks of the short orbit.
        step = (t - 1) // (k - 1)
        spaced = [(*range(start, t - 1, step), t - 1) for start in range(step)]
        yield _Ring(t - 1, spaced, _less_multiples(t - 1, step, together))


def _less_multiples(modulus: int, step: int, together: int) -> list[int]:
    return [together - (difference % step == 0) for difference in range(modulus)]


def _turns(base: tuple[int, ...], modulus: int) -> Blocks:
    return [tuple((sample + turn) % modulus for sample in base) for turn in range(modulus)]


def _family(modulus: int, k: int, bases: int, wanted: list[int], trials: Iterator[int]) -> Blocks:
    """Base blocks whose differences use up what is wanted of each, or none."""
    for rest in combinations(range(1, modulus), k - 1):
        if next(trials, None) is None:
            return []
        base = (0, *rest)
        after = _less_differences(base, modulus, wanted)
        if after is None:
            continue
        if bases == 1:
            return [base]
        more = _family(modulus, k, bases - 1, after, trials)
        if more:
            return [base, *more]
    return []


def _less_differences(base: tuple[int, ...], modulus: int, wanted: list[int]) -> list[int] | None:
    """What is wanted of each difference after those of a block; None if one runs out."""
    after = list(wanted)
    for one in base:
        for other in base:
            if one != other:
                after[(one - other) % modulus] -= 1
                if after[(one - other) % modulus] < 0:
                    return None
    return after
