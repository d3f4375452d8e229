"""Rank sums when the coffees do not differ: every order within a taster equally likely.

If no coffee differs, each taster's ranks could as well stand beside the coffees in any other order, whatever
the ties; what was not tasted stays empty. All rank tests of this room rest on that alone. Small tables are
worked out in full; larger ones are shuffled.
"""

from collections import Counter
from dataclasses import dataclass
from functools import lru_cache
from math import factorial, prod

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.midranks import midranks

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

RESAMPLES = 10_000
SEED = 20261125
# So many cases in all the steps of the full working take some 0.03 s; beyond, shuffling is as good.
MOST_CASES = 200_000
# So many numbers are shuffled in a quarter of a second; beyond, the large-sample formula is as good.
MOST_SHUFFLED = 20_000_000
# Equal statistics may differ by rounding; they must count as equal.
_HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class NullSums:
    """Rank sums of the coffees without any difference: one case a row, and its chance.

    `exact`: all cases, with `chances` that add up to 1. Otherwise drawn ones, of one chance each.
    """

    sums: Floats
    chances: Floats
    exact: bool

    def at_least(self, statistics: Floats, observed: float) -> float:
        """The p value: how often is the statistic, worked out from `sums`, as large as the observed one?"""
        return float(self.tails(statistics, np.array([observed]))[0])

    def tails(self, statistics: Floats, observed: Floats) -> Floats:
        """The p values of several observed ones."""
        order = np.argsort(statistics)
        first = np.searchsorted(statistics[order], observed - _HAIR * np.maximum(1.0, np.abs(observed)))
        if not self.exact:
            return np.asarray((len(statistics) - first + 1) / (len(statistics) + 1))
        above = np.append(np.cumsum(self.chances[order][::-1])[::-1], 0.0)
        return np.asarray(np.minimum(above[first], 1.0))


def method_of(null: NullSums | None) -> str:
    """How a p value was had: "exact", "permutation", or "chi-squared" without either."""
    if null is None:
        return "chi-squared"
    return "exact" if null.exact else "permutation"


def within_taster_ranks(values: Floats) -> Floats:
    """Ranks of each taster's own values from 1 up, equal ones sharing their mean rank.

    Parameters
    ----------
    values : float array, shape (n_coffees, n_tasters)
        NaN where there is none.

    Returns
    -------
    float array, shape (n_tasters, n_coffees)
        One row a taster; NaN stays NaN.
    """
    own = np.asarray(values, dtype=float).T
    ranks = np.full(own.shape, np.nan)
    for row, there, filled in zip(own, ~np.isnan(own), ranks, strict=True):
        filled[there] = midranks(row[there])
    return ranks


def null_sums(
    ranks: Floats, *, resamples: int = RESAMPLES, rng: np.random.Generator | None = None
) -> NullSums:
    """Rank sums under no difference: in full where that is feasible, else drawn.

    Parameters
    ----------
    ranks : float array, shape (n_tasters, n_coffees)
        Whole or half numbers (ranks, ticks); NaN where a taster did not have the coffee. Where nothing is
        missing the coffees are alike under no difference, and cases that differ only in which coffee is which
        are taken together: then only statistics that treat all coffees alike may be computed from them.
    resamples : int
        How many to draw.
    rng : numpy Generator
        None: a fixed seed.
    """
    doubled = np.rint(2 * ranks)
    if not np.isnan(doubled).any():
        # Every order is as likely as any other, so sorted rows give the same cases, and are found again;
        # drawn, they give the same numbers whatever the order of coffees and tasters.
        doubled = np.sort(doubled, axis=1)[np.lexsort(np.sort(doubled, axis=1).T)]
    exact = exact_sums(tuple(tuple(None if np.isnan(v) else int(v) for v in row) for row in doubled))
    return exact or drawn_sums(doubled / 2, resamples=resamples, rng=rng)


# The attributes of one table ask for the same few again and again.
@lru_cache(maxsize=64)
def exact_sums(rows: tuple[tuple[int | None, ...], ...]) -> NullSums | None:
    """All cases of twice the ranks, one row a taster, None where not tasted; None if they are too many."""
    coffees = len(rows[0])
    complete = all(value is not None for row in rows for value in row)
    radix = 1 + sum(max((v for v in row if v is not None), default=0) for row in rows)
    if radix**coffees >= 2**62:
        return None
    places = np.array([radix**power for power in range(coffees)], dtype=np.int64)
    sums, chances = np.zeros((1, coffees), dtype=np.int64), np.ones(1)
    worked = 0
    for row in rows:
        worked += len(sums) * _arrangement_count(row)
        if worked > MOST_CASES:
            return None
        moves = _arrangements(row).astype(np.int64)
        cases = (sums[:, None, :] + moves[None, :, :]).reshape(-1, coffees)
        if complete:
            cases.sort(axis=1)
        weights = np.repeat(chances / len(moves), len(moves))
        _, first, inverse = np.unique(cases @ places, return_index=True, return_inverse=True)
        sums, chances = cases[first], np.bincount(inverse, weights=weights).astype(float)
    return NullSums(sums / 2, chances, exact=True)


def all_sums(weighted: Floats) -> NullSums | None:
    """All cases of any numbers, one row a taster, without taking equal ones together; None if too many."""
    rows = [tuple(None if np.isnan(v) else float(v) for v in row) for row in weighted]
    if prod(_arrangement_count(row) for row in rows) * weighted.shape[1] > MOST_CASES:
        return None
    sums = np.zeros((1, weighted.shape[1]))
    for row in rows:
        sums = (sums[:, None, :] + _arrangements(row)[None, :, :]).reshape(-1, weighted.shape[1])
    return NullSums(sums, np.full(len(sums), 1 / len(sums)), exact=True)


def drawn_sums(
    weighted: Floats, *, resamples: int = RESAMPLES, rng: np.random.Generator | None = None
) -> NullSums:
    """Sums of rows that are shuffled, each over its own filled cells; shape (resamples, n_coffees).

    Where nothing is missing the first row stands: shuffling it too would only rename the coffees.
    """
    rng = rng or np.random.default_rng(SEED)
    doubled = 2 * weighted
    filled = doubled[~np.isnan(doubled)]
    whole = bool((filled == np.rint(filled)).all() and (filled >= 0).all() and filled.sum() < 2**31)
    sums = np.zeros((resamples, weighted.shape[1]), dtype=np.uint32 if whole else float)
    complete = filled.size == doubled.size
    if complete:
        sums += doubled[0].astype(sums.dtype)
    for row in doubled[1:] if complete else doubled:
        there = np.flatnonzero(~np.isnan(row))
        values = row[there]
        if whole:
            shuffled = _shuffled(values.astype(np.uint32), resamples, rng)
        else:
            shuffled = values[shuffles(len(values), resamples, rng)]
        if len(there) == len(row):
            sums += shuffled
        else:
            sums[:, there] += shuffled
    # One coffee after the other in memory: statistics run over the coffees.
    return NullSums(np.asfortranarray(sums) / 2, np.full(resamples, 1 / resamples), exact=False)


def shuffles(count: int, resamples: int, rng: np.random.Generator) -> Ints:
    """Random orders of 0 .. count - 1, shape (resamples, count)."""
    return _shuffled(np.arange(count, dtype=np.uint32), resamples, rng).astype(np.int64)


def _shuffled(values: NDArray[np.uint32], resamples: int, rng: np.random.Generator) -> NDArray[np.integer]:
    """Whole numbers in random orders, by sorting random ones that carry them in their lowest bits.

    That is three times as fast as exchanging places. Two keys are equal above those bits with chance 2**-26
    at most, and then the smaller value comes first: far below what any number of shuffles could show.
    """
    bits = max(int(values.max(initial=0)), 1).bit_length()
    kind = np.uint32 if bits <= 6 else np.uint64
    low = kind((1 << bits) - 1)
    keys = rng.integers(0, np.iinfo(kind).max, endpoint=True, size=(resamples, len(values)), dtype=kind)
    keys &= ~low
    keys |= values.astype(kind)
    keys.sort(axis=1)
    keys &= low
    return keys if kind is np.uint32 else keys.astype(np.uint32)


def _arrangement_count(row: tuple[float | None, ...]) -> int:
    counts = Counter(value for value in row if value is not None)
    return factorial(sum(counts.values())) // prod(factorial(n) for n in counts.values())


def _arrangements(row: tuple[float | None, ...]) -> Floats:
    """All different orders of a row's values over the cells that are filled; 0 in the others."""
    there = [place for place, value in enumerate(row) if value is not None]
    orders = np.array(_orders(tuple(sorted(v for v in row if v is not None))))
    moves = np.zeros((len(orders), len(row)))
    moves[:, there] = orders.reshape(len(orders), len(there))
    return moves


@lru_cache(maxsize=256)
def _orders(values: tuple[float, ...]) -> tuple[tuple[float, ...], ...]:
    if not values:
        return ((),)
    return tuple(
        (value, *rest)
        for place, value in enumerate(values)
        if place == 0 or value != values[place - 1]
        for rest in _orders(values[:place] + values[place + 1 :])
    )
