"""Serving orders: in which order each taster meets the places.

Order changes judgement (the first and the last of a row have an advantage, and what was just tasted colours
what follows; see docs/methods/serving_orders.md), so each place stands in every position, and follows every
other place, as equally often as can be had: whole Williams squares as far as they go, then the best partial
set that was found. Labels and rows are drawn, since balance without chance is no fair table. Which coffee
stands under which code is not known here and never looked at.
"""

import random
from collections.abc import Sequence

from cupwright.core.plan.blocks import draw_blocks, next_block
from cupwright.core.plan.order_search import bound, cost, settled
from cupwright.core.plan.williams import williams

Orders = tuple[tuple[str, ...], ...]

# Exchanges tried for the part of a panel that fills no square: some 60 ms on two cores of 2026.
_TRIES = 12_000
_TRIES_FOR_ONE = 3_000


def serving_orders(
    flights: Sequence[Sequence[str]], seats: int, *, each: int = 0, rng: random.Random
) -> Orders:
    """One order for each seat, flight after flight, balanced inside each flight.

    Parameters
    ----------
    flights : sequence of sequence of str
        The places, parted into what is tasted without a break.
    seats : int
        How many orders.
    each : int
        How many places each seat gets; 0, or as many as there are, for all of them.
    rng : random.Random
        The same state gives the same orders.

    Returns
    -------
    tuple of tuple of str
        The flights come in the same order for everybody, as they are poured.

    Raises
    ------
    Refused
        If so few seats with so few places each cannot link all places (see blocks.py).

    Notes
    -----
    Error: exact balance where the seats fill whole squares, and a best partial set for an even number of
    places; otherwise the search may miss the best (bench/orders.py says by how much at most).
    Source: [Williams1949]; [BurkeBykov2017] for the search.
    """
    places = [place for flight in flights for place in flight]
    if not 0 < each < len(places):
        parts = [_labelled(flight, balanced_orders(len(flight), seats, rng=rng)) for flight in flights]
    else:
        blocks = draw_blocks(len(places), seats, each, rng=rng)
        chosen = [{places[number] for number in block} for block in blocks]
        parts = [_of_some(flight, chosen, rng) for flight in flights]
    return _joined(parts, seats)


def balanced_orders(n: int, count: int, *, rng: random.Random) -> list[list[int]]:
    """`count` orders of n samples, numbered from 0: whole Williams squares, then the best partial set found.

    Returns
    -------
    list of list of int
        Each holds all n samples. For an even n the counts are as even as whole numbers can be, whatever
        `count` is: any rows of a square have no position and no succession in common.
    """
    square = williams(n)
    whole, rest = divmod(count, len(square))
    rows = [row for _ in range(whole) for row in _relabelled(square, rng)]
    rows += _relabelled(_partial(n, rest, rng), rng)
    rng.shuffle(rows)
    return rows


def next_order(
    flights: Sequence[Sequence[str]], orders: Sequence[Sequence[str]], *, each: int = 0, rng: random.Random
) -> tuple[str, ...]:
    """The order of one seat more: the most balanced that was found beside those already drawn.

    Parameters
    ----------
    orders : sequence of sequence of str
        Those of the seats that are taken; places that no flight has are passed over.
    """
    places = [place for flight in flights for place in flight]
    chosen = set(places)
    if 0 < each < len(places):
        blocks = [{n for n, place in enumerate(places) if place in set(order)} for order in orders]
        chosen = {places[number] for number in next_block(len(places), blocks, each, rng=rng)}
    return tuple(place for flight in flights for place in _one_more(flight, orders, chosen, rng))


def within(flight: Sequence[str], orders: Sequence[Sequence[str]]) -> list[list[int]]:
    """What of each order lies in one flight, as numbers of its places from 0."""
    number = {place: index for index, place in enumerate(flight)}
    return [[number[place] for place in order if place in number] for order in orders]


def _partial(n: int, rest: int, rng: random.Random) -> list[list[int]]:
    """The best `rest` orders, fewer than a whole square has."""
    square = williams(n)
    from_square = [list(row) for row in rng.sample(square, rest)]
    least = bound(n, from_square)
    if cost(n, from_square) == least:
        return from_square
    found = settled(n, from_square, tries=_TRIES, rng=rng)
    if cost(n, found) == least:
        return found
    by_chance = [rng.sample(range(n), n) for _ in range(rest)]
    return min(found, settled(n, by_chance, tries=_TRIES, rng=rng), key=lambda rows: cost(n, rows))


def _relabelled(rows: Sequence[Sequence[int]], rng: random.Random) -> list[list[int]]:
    n = len(rows[0]) if rows else 0
    label = rng.sample(range(n), n)
    return [[label[sample] for sample in row] for row in rows]


def _of_some(flight: Sequence[str], chosen: Sequence[set[str]], rng: random.Random) -> Orders:
    """Orders of those places of a flight that each seat gets."""
    start = [
        rng.sample(mine, len(mine))
        for mine in ([n for n, place in enumerate(flight) if place in some] for some in chosen)
    ]
    return _labelled(flight, settled(len(flight), start, tries=2 * _TRIES, rng=rng))


def _one_more(
    flight: Sequence[str], orders: Sequence[Sequence[str]], chosen: set[str], rng: random.Random
) -> tuple[str, ...]:
    mine = [number for number, place in enumerate(flight) if place in chosen]
    start = [rng.sample(mine, len(mine))]
    fixed = within(flight, orders)
    return _labelled(flight, settled(len(flight), start, fixed=fixed, tries=_TRIES_FOR_ONE, rng=rng))[0]


def _labelled(flight: Sequence[str], rows: Sequence[Sequence[int]]) -> Orders:
    return tuple(tuple(flight[number] for number in row) for row in rows)


def _joined(parts: Sequence[Orders], seats: int) -> Orders:
    return tuple(tuple(place for part in parts for place in part[seat]) for seat in range(seats))
