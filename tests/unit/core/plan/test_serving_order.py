"""Serving orders: complete, seeded, flight after flight, and as even as whole numbers allow."""

import random
from itertools import combinations, pairwise, permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.plan.order_search import bound, cost
from cupwright.core.plan.serving_order import balanced_orders, next_order, serving_orders
from cupwright.errors import Refused

PLACES = ("204", "357", "472", "735")


def labels(n: int) -> tuple[str, ...]:
    return tuple(str(204 + number) for number in range(n))


def flights_of(n: int, most: int) -> list[tuple[str, ...]]:
    places = labels(n)
    return [places[start : start + most] for start in range(0, n, most)]


@given(n=st.integers(0, 7), most=st.integers(2, 4), seats=st.integers(0, 30), seed=st.integers())
def test_every_order_holds_every_place_once_flight_after_flight(n: int, most: int, seats: int, seed: int):
    # given
    flights = flights_of(n, most)

    # when
    orders = serving_orders(flights, seats, rng=random.Random(seed))

    # then
    assert len(orders) == seats
    for order in orders:
        rest = list(order)
        for flight in flights:
            assert sorted(rest[: len(flight)]) == sorted(flight)
            rest = rest[len(flight) :]
        assert rest == []


@given(n=st.sampled_from([2, 4, 6, 8, 10, 12]), seats=st.integers(0, 40), seed=st.integers())
def test_an_even_number_of_samples_is_as_balanced_as_can_be_for_any_panel(n: int, seats: int, seed: int):
    orders = balanced_orders(n, seats, rng=random.Random(seed))

    # then no count is two away from another
    positions = [[sum(order[p] == i for order in orders) for p in range(n)] for i in range(n)]
    follows = [
        sum((order[p], order[p + 1]) == pair for order in orders for p in range(n - 1))
        for pair in permutations(range(n), 2)
    ]
    assert max(map(max, positions)) - min(map(min, positions)) <= 1
    assert max(follows) - min(follows) <= 1
    assert cost(n, orders) == bound(n, orders)


@pytest.mark.parametrize("n", [3, 5, 7, 9])
def test_whole_double_squares_of_an_odd_number_are_balanced_exactly(n: int):
    orders = balanced_orders(n, 4 * n, rng=random.Random(1))

    assert cost(n, orders) == bound(n, orders) == n * n * 16 + n * (n - 1) * 16


@pytest.mark.parametrize(("n", "seats", "above"), [(5, 3, 0), (9, 5, 0), (9, 13, 0), (7, 5, 2), (7, 10, 2)])
def test_an_odd_remainder_is_at_the_bound_or_next_to_it(n: int, seats: int, above: int):
    """A cost is odd or even as its bound is, so the next is 2 above."""
    orders = balanced_orders(n, seats, rng=random.Random(2))

    assert 0 <= cost(n, orders) - bound(n, orders) <= above


def least_of_all(n: int, seats: int) -> int:
    """The least cost of so many orders of n samples, by going through all sets of orders.

    Counts squared and summed are, for each order, its own n + (n - 1), and 2 for whatever two orders share.
    By relabelling, one of them may be 0, 1, 2, ...
    """
    shows = [
        {*enumerate(order), *((a, b, "next") for a, b in pairwise(order))} for order in permutations(range(n))
    ]
    shared = [[len(one & other) for other in shows] for one in shows]
    least = n * n * seats * seats

    def go_on(more: int, so_far: int, able: list[tuple[int, int]]) -> None:
        nonlocal least
        if more == 0:
            least = min(least, so_far)
        for number, (price, order) in enumerate(able if more else []):
            if so_far + price < least:
                row = shared[order]
                go_on(more - 1, so_far + price, [(p + row[other], other) for p, other in able[number:]])

    go_on(seats - 1, 0, sorted((price, order) for order, price in enumerate(shared[0])))
    return seats * (2 * n - 1) + 2 * least


@pytest.mark.parametrize(
    ("n", "seats", "least"), [(3, 2, 12), (3, 3, 21), (4, 3, 21), (5, 3, 27), (5, 4, 38)]
)
def test_few_orders_are_the_best_there_are_though_the_bound_is_out_of_reach(n: int, seats: int, least: int):
    assert least_of_all(n, seats) == least

    assert cost(n, balanced_orders(n, seats, rng=random.Random(3))) == least


@given(seed=st.integers())
def test_orders_of_some_places_hold_as_many_as_were_asked_for(seed: int):
    flights = flights_of(7, 4)

    orders = serving_orders(flights, 7, each=3, rng=random.Random(seed))

    assert all(len(order) == len(set(order)) == 3 for order in orders)
    assert all(list(order) == sorted(order, key=lambda p: p not in flights[0]) for order in orders)
    # the seven blocks are a balanced design: every two places meet at one taster
    met = [pair for order in orders for pair in combinations(sorted(order), 2)]
    assert len(met) == len(set(met)) == 21


def test_blocks_in_one_flight_have_every_place_at_every_position_once():
    orders = serving_orders([labels(7)], 7, each=3, rng=random.Random(5))

    assert all(sorted(order[p] for order in orders) == sorted(labels(7)) for p in range(3))


def test_as_many_places_each_as_there_are_means_all():
    orders = serving_orders([PLACES], 4, each=4, rng=random.Random(1))

    assert all(sorted(order) == sorted(PLACES) for order in orders)


def test_too_few_seats_to_link_all_places_are_refused():
    with pytest.raises(Refused, match="2 tasters with 2 of 4 samples"):
        serving_orders([PLACES], 2, each=2, rng=random.Random(1))


def test_the_same_seed_gives_the_same_orders_and_another_seed_others():
    def drawn(seed: int, each: int) -> tuple[tuple[str, ...], ...]:
        return serving_orders([labels(9)], 13, each=each, rng=random.Random(seed))

    assert drawn(3, 0) == drawn(3, 0) != drawn(4, 0)
    assert drawn(3, 4) == drawn(3, 4) != drawn(4, 4)


# ---- who joins later -----------------------------------------------------------------------------------


@settings(max_examples=40)
@given(n=st.integers(1, 6), seats=st.integers(0, 9), seed=st.integers())
def test_one_more_order_is_close_to_the_best_of_all(n: int, seats: int, seed: int):
    # given
    rng = random.Random(seed)
    orders = serving_orders([labels(n)], seats, rng=rng)
    number = {place: index for index, place in enumerate(labels(n))}
    drawn = [[number[place] for place in order] for order in orders]

    # when
    one = next_order([labels(n)], orders, rng=rng)

    # then of all n! orders hardly one would have been better
    assert sorted(one) == sorted(labels(n))
    least = min(cost(n, [*drawn, order]) for order in permutations(range(n)))
    assert cost(n, [*drawn, [number[place] for place in one]]) <= least + 2


def test_who_joins_one_by_one_is_balanced_too():
    # given
    rng, orders = random.Random(6), []

    # when
    for _ in range(8):
        orders.append(next_order([PLACES], orders, rng=rng))

    # then eight tasters of four samples would be two whole squares: all counts 2
    counts = [sum(order[p] == place for order in orders) for p in range(4) for place in PLACES]
    assert min(counts) >= 1
    assert max(counts) <= 3


def test_who_joins_late_gets_what_was_served_least():
    # given three tasters that had the first four of six samples only
    places = labels(6)
    orders = [(places[0], places[1]), (places[1], places[2]), (places[2], places[3])]

    # when
    one = next_order([places], orders, each=2, rng=random.Random(1))

    # then
    assert set(one) == {places[4], places[5]}


def test_a_place_that_no_flight_has_is_passed_over():
    assert sorted(next_order([PLACES], [("999", "204")], rng=random.Random(1))) == sorted(PLACES)
