"""Serving orders: in which order each taster meets the places.

Order changes judgement (the first and the last of a row have an advantage; see docs/methods/plan.md),
so each seat gets its own random order. Randomising spreads that error over the coffees; it does not
balance it.
"""

import math
import random
from collections.abc import Sequence


def random_orders(places: Sequence[str], seats: int, *, rng: random.Random) -> tuple[tuple[str, ...], ...]:
    """One random order of the places for each seat.

    Parameters
    ----------
    places : sequence of str
        What is tasted; n of them have n! orders.
    seats : int
        How many orders.
    rng : random.Random
        The same state gives the same orders.

    Returns
    -------
    tuple of tuple of str, shape (seats, len(places))
        No order comes twice before every one of the n! has come once.
    """
    possible = math.factorial(len(places))
    orders: list[tuple[str, ...]] = []
    used: set[tuple[str, ...]] = set()
    for _ in range(seats):
        if len(used) == possible:
            used.clear()
        orders.append(_new_order(places, used, rng))
        used.add(orders[-1])
    return tuple(orders)


def _new_order(places: Sequence[str], used: set[tuple[str, ...]], rng: random.Random) -> tuple[str, ...]:
    # Drawing again until the order is new keeps every unused order equally likely.
    while (order := tuple(rng.sample(places, len(places)))) in used:
        pass
    return order
