"""The pour list: each coffee's codes together, in the order of names."""

from tests.fakes.values import NOON

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Blinding, Plan, Table
from cupwright.core.pour.pour_list import PourLine, pour_list
from cupwright.core.reveal.seal import Key
from cupwright.core.taste.sheet import Sheet

A, B = Coffee("a", "zebra"), Coffee("b", "Apple")
KEY = Key((("123", "a"), ("456", "b"), ("789", "a")), "")


def a_table(blinding: Blinding, flight: int = 8) -> Table:
    plan = Plan("T", ("a", "b"), bowls_per_sample=4, blinding=blinding, flight=flight)
    return Table("t", plan, Sheet("open", 1, "", ()), NOON, codes=("123", "456", "789"))


def test_lines_go_by_the_name_of_the_coffee_so_that_each_is_ground_once() -> None:
    lines = pour_list(a_table(Blinding.CODES), KEY, {"a": A, "b": B})

    assert lines == (PourLine("456", B, 4), PourLine("123", A, 4), PourLine("789", A, 4))


def test_after_a_shuffle_a_code_stands_under_one_bowl() -> None:
    assert {line.bowls for line in pour_list(a_table(Blinding.SHUFFLE), KEY, {"a": A, "b": B})} == {1}


def test_lines_go_flight_by_flight_so_that_nothing_is_ground_before_its_turn() -> None:
    # given flights of 123 alone, and of 456 and 789
    lines = pour_list(a_table(Blinding.CODES, flight=2), KEY, {"a": A, "b": B})

    assert lines == (PourLine("123", A, 4, 1), PourLine("456", B, 4, 2), PourLine("789", A, 4, 2))


def test_shuffled_codes_have_no_flight_of_their_own() -> None:
    lines = pour_list(a_table(Blinding.SHUFFLE, flight=2), KEY, {"a": A, "b": B})

    assert [(line.code, line.flight) for line in lines] == [("456", 1), ("123", 1), ("789", 1)]
