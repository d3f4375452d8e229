"""Serving orders: complete, seeded, and different while they can be."""

import math
import random
from collections import Counter

from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.plan.serving_order import random_orders

PLACES = ("204", "357", "472", "735")


@given(n=st.integers(0, 6), seats=st.integers(0, 60), seed=st.integers())
def test_every_order_holds_every_place_once(n: int, seats: int, seed: int):
    places = tuple(map(str, range(n)))

    orders = random_orders(places, seats, rng=random.Random(seed))

    assert len(orders) == seats
    assert all(sorted(order) == sorted(places) for order in orders)


@given(n=st.integers(1, 4), seats=st.integers(1, 60), seed=st.integers())
def test_no_order_comes_twice_before_each_has_come_once(n: int, seats: int, seed: int):
    # given
    places = tuple(map(str, range(n)))
    possible = math.factorial(n)

    # when
    orders = random_orders(places, seats, rng=random.Random(seed))

    # then each whole round of n! seats has all n! orders
    rounds = [orders[start : start + possible] for start in range(0, seats, possible)]
    assert all(len(set(one)) == len(one) for one in rounds)


def test_sixty_places_and_two_hundred_seats_differ():
    orders = random_orders(tuple(map(str, range(60))), 200, rng=random.Random(1))

    assert len(set(orders)) == 200


def test_the_same_seed_gives_the_same_orders_and_another_seed_others():
    assert random_orders(PLACES, 5, rng=random.Random(3)) == random_orders(PLACES, 5, rng=random.Random(3))
    assert random_orders(PLACES, 5, rng=random.Random(3)) != random_orders(PLACES, 5, rng=random.Random(4))


def test_every_place_comes_first_about_equally_often():
    # given 8,000 seats of four places: 2,000 firsts each are expected, with a standard deviation of 38.7;
    # rounds of all 24 orders are balanced exactly, so only the last, unfinished round can differ
    orders = random_orders(PLACES, 8000, rng=random.Random(11))

    firsts = Counter(order[0] for order in orders)

    assert all(abs(firsts[place] - 2000) <= 6 for place in PLACES)
