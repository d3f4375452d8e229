"""The brief: recipe, order of work and shelf in one, with every warning."""

from dataclasses import replace

from tests.fakes.values import a_coffee, a_table

from cupwright.core.plan.table import Blinding
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
