"""Balance: counted as by hand, and said in a sentence."""

import random
from dataclasses import replace

import pytest
from tests.fakes.values import a_table

from cupwright.core.plan.balance import Spread, balance, table_balance
from cupwright.core.plan.serving_order import serving_orders
from cupwright.core.plan.table import Blinding

ABC = ("abc", "bca", "bac")


def test_positions_and_followers_are_counted():
    found = balance(ABC)

    (flight,) = found.flights
    assert found.places == flight.places == ("a", "b", "c")
    assert flight.positions == ((1, 1, 1), (2, 1, 0), (0, 1, 2))
    # ab, bc / bc, ca / ba, ac
    assert flight.followers == ((0, 1, 1), (1, 0, 2), (1, 0, 0))
    assert found.cost == flight.cost == (1 + 1 + 1 + 4 + 1 + 1 + 4) + (1 + 1 + 1 + 4 + 1)


def test_who_gets_what_with_whom_is_counted():
    found = balance([("a", "b"), ("b", "c"), ("c", "a"), ("a", "b")])

    assert found.served == (3, 3, 2)
    assert found.together == ((0, 2, 1), (2, 0, 1), (1, 1, 0))
    assert found.connected


def test_a_table_of_whole_squares_says_so():
    orders = serving_orders(["abcdefgh"], 24, rng=random.Random(1))

    assert balance(orders).in_words == (
        "Every sample stands in every place 3 times; each follows each other 3 times. "
        "No orders of these could be more even."
    )


def test_a_partial_set_says_how_far_the_counts_reach():
    orders = serving_orders(["abcd"], 6, rng=random.Random(1))

    assert balance(orders).sentences[0] == (
        "Every sample stands in every place 1 or 2 times; each follows each other 1 or 2 times."
    )


def test_uneven_orders_say_how_far_they_are_from_even():
    # counts of 3 in 3 + 2 cells: 9 * 5 = 45; at best 1 in each of 9 and 1 in each of 6: 15
    found = balance(["abc"] * 3)

    assert (found.cost, found.bound) == (45, 15)
    assert found.sentences == (
        "Every sample stands in every place 0 to 3 times; each follows each other 0 to 3 times.",
        "That is within 200.0 % of a bound that no orders can be below.",
    )


def test_flights_that_differ_are_told_apart_and_nothing_is_carried_over_a_break():
    # given c right after b, but in the next flight
    found = balance([("a", "b", "c"), ("b", "a", "c")], [("a", "b"), ("c",)])

    assert found.sentences[:2] == (
        "In flight 1 every sample stands in every place once; each follows each other once.",
        "In flight 2 every sample stands in every place twice.",
    )


def test_flights_of_which_the_same_holds_are_told_together():
    found = balance([("a", "b", "c", "d"), ("b", "a", "d", "c")], [("a", "b"), ("c", "d")])

    assert found.sentences[0] == (
        "In each of the 2 flights every sample stands in every place once; each follows each other once."
    )


def test_blocks_say_who_meets_what():
    orders = serving_orders(["abcdefg"], 7, each=3, rng=random.Random(1))

    assert balance(orders).sentences[0] == (
        "Every sample goes to 3 tasters; every two samples go to the same taster once."
    )


def test_samples_that_nobody_links_are_told():
    found = balance([("a", "b"), ("c", "d")])

    assert not found.connected
    assert "No chain of tasters links all samples yet, so some cannot be compared." in found.sentences


@pytest.mark.parametrize("orders", [[], ()])
def test_without_orders_there_is_nothing_to_say(orders):
    assert balance(orders, ["ab"]).in_words == "Nobody has a serving order yet."
    assert balance(orders).in_words == "Nobody has a serving order yet."


def test_a_table_is_judged_by_its_seats_and_flights():
    found = table_balance(a_table())

    assert found.tasters == 2
    assert found.sentences[0] == "Every sample stands in every place once; each follows each other once."


def test_bowls_that_stand_apart_are_called_bowls():
    table = a_table()
    plan = replace(table.plan, blinding=Blinding.SHUFFLE, bowls_per_sample=2)

    found = table_balance(replace(table, plan=plan, codes=("204", "357", "412", "735"), seats=()))

    assert found.places == ("1", "2", "3", "4")
    seats = tuple(replace(seat, order=("1", "2", "3", "4")) for seat in table.seats)
    anew = replace(table, plan=plan, codes=("204", "357", "412", "735"), seats=seats)
    assert table_balance(anew).sentences[0].startswith("Every bowl stands")


@pytest.mark.parametrize(
    ("counts", "said"),
    [((0, 0), "never"), ((1,), "once"), ((2, 2), "twice"), ((3,), "3 times"), ((1, 2), "1 or 2 times"),
     ((0, 5), "0 to 5 times"), ((), "never")],
)  # fmt: skip
def test_a_spread_is_a_phrase(counts: tuple[int, ...], said: str):
    assert Spread.of(counts).in_words == said
