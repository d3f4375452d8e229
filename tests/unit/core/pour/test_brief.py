"""The brief: recipe, order of work and shelf in one, with every warning."""

from dataclasses import replace

from tests.fakes.values import a_coffee, a_table

from cupwright.core.plan.table import Blinding, Plan, Seat, Table
from cupwright.core.pour.brief import CoffeeNeed, brief

TABLE = a_table()
TOO_MANY = (
    "One person can keep 12 bowls of one flight within the protocol's times, and 20 bowls need 2 people. "
    "Let more people help, or pour in smaller flights."
)


def test_needs_stand_in_the_order_of_the_plan_and_count_the_purge() -> None:
    shelf = {"coffee-1": a_coffee(1, grams_left=None), "coffee-2": a_coffee(2, grams_left=16)}

    found = brief(TABLE, shelf)

    # 200 mL at 55 g/L: 11 g, and 5 g to purge the grinder
    assert found.coffees == (
        CoffeeNeed("coffee-1", "Lot 1", 16.0, None),
        CoffeeNeed("coffee-2", "Lot 2", 16.0, 16),
    )
    assert found.warnings == ()
    assert found.tasks


def test_a_coffee_that_runs_short_is_said_in_a_sentence() -> None:
    shelf = {"coffee-1": a_coffee(1, grams_left=15.9), "coffee-2": a_coffee(2)}

    assert brief(TABLE, shelf).warnings == ("Lot 1: 16 g are needed and 15.9 g are on the shelf.",)


def test_the_run_sheets_warnings_are_the_briefs() -> None:
    many = replace(TABLE, plan=replace(TABLE.plan, bowls_per_sample=10))
    shelf = {"coffee-1": a_coffee(1, grams_left=None), "coffee-2": a_coffee(2, grams_left=None)}

    assert brief(many, shelf).warnings == (TOO_MANY,)


def test_a_table_that_is_not_blind_counts_the_bowls_of_its_plan() -> None:
    plan = replace(TABLE.plan, blinding=Blinding.OPEN, bowls_per_sample=10)
    shelf = {"coffee-1": a_coffee(1, grams_left=None), "coffee-2": a_coffee(2, grams_left=None)}

    assert brief(replace(TABLE, plan=plan, codes=()), shelf).warnings == (TOO_MANY,)


def a_blind_table(coffees: int, flight: int, *orders: tuple[str, ...]) -> Table:
    plan = Plan("T", tuple(f"coffee-{n}" for n in range(1, coffees + 1)), (), flight=flight)
    codes = tuple(str(code) for code in range(301, 301 + coffees))
    seats = tuple(Seat(f"s{n}", f"Taster {n}", order) for n, order in enumerate(orders, start=1))
    return replace(TABLE, plan=plan, codes=codes, seats=seats)


def warnings_of(table: Table) -> tuple[str, ...]:
    return brief(
        table, {coffee: a_coffee(1, id=coffee, grams_left=None) for coffee in table.plan.coffees}
    ).warnings


def test_a_flight_of_one_sample_is_warned_of_in_a_sentence() -> None:
    # three samples in flights of at most two: one, and two
    assert warnings_of(a_blind_table(3, 2)) == (
        "Flight 1 is one sample alone, which cannot be compared with any other; "
        "change how many samples a flight has.",
    )


def test_a_taster_who_gets_one_sample_of_a_flight_is_warned_of() -> None:
    # two flights of three: the first taster gets three and one, the second two and two
    table = a_blind_table(6, 3, ("301", "302", "303", "304"), ("301", "302", "305", "306"))

    assert warnings_of(table) == (
        "One taster has a flight of one sample alone, which cannot be compared with any other; "
        "change how many samples a flight has or each taster gets.",
    )


def test_even_flights_one_flight_and_a_single_sample_are_not_warned_of() -> None:
    assert warnings_of(a_blind_table(4, 3)) == ()  # two and two
    assert warnings_of(a_blind_table(3, 3, ("301",))) == ()
    assert warnings_of(a_blind_table(1, 2)) == ()
