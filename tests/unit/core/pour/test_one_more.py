"""One bowl or one taster more: the sizes that are told, and refusals told instead."""

import itertools
import random
from dataclasses import replace
from datetime import UTC, datetime

from cupwright.core.plan.planning import checked_plan, laid
from cupwright.core.plan.table import Plan, Table
from cupwright.core.pour.one_more import one_more
from cupwright.core.taste.sheet_file import builtin_sheet

PLAN = Plan("Monday", ("a", "b", "c", "d"), ("Ada", "Ben", "Cleo"), bowls_per_sample=3)


def lay(plan: Plan) -> Table:
    number = itertools.count()
    return laid(
        checked_plan(plan),
        builtin_sheet("open"),
        table_id="t",
        created=datetime(2026, 1, 1, tzinfo=UTC),
        rng=random.Random(1),
        ids=lambda: str(next(number)),
    )


def told(plan: Plan) -> dict[str, str]:
    return {more.what: " ".join(more.sentences) for more in one_more(lay(plan), lay)}


def test_a_fourth_bowl_takes_13_percent_from_the_error_of_bowls_and_costs_a_dose_of_each_sample():
    """1 - sqrt(3/4) = 0.134; four bowls of 200 mL at 55 g/L are 44 g."""
    sentence = told(PLAN)["bowl"]

    assert "bowl to bowl weighs 13 % less" in sentence
    assert "4 bowls more to pour: 44 g of coffee" in sentence


def test_a_bowl_more_says_when_it_takes_more_people():
    sentence = told(PLAN)["bowl"]

    assert "It takes 2 people to pour, break and skim them in time instead of 1." in sentence


def test_a_fourth_taster_completes_the_square_of_four_samples():
    sentence = told(PLAN)["taster"]

    assert "Then every sample stands in every place once; each follows each other once." in sentence
    assert "With" not in sentence
    assert "taster to taster weighs 13 % less" in sentence


def test_a_fifth_taster_leaves_the_square_and_the_next_one_is_named():
    sentence = told(replace(PLAN, tasters=("Ada", "Ben", "Cleo", "Dan")))["taster"]

    assert "With 8 tasters" in sentence


def test_a_new_taster_never_has_a_name_that_is_taken():
    sentence = told(replace(PLAN, tasters=("Taster 1", "Taster 2", "Taster 3")))["taster"]

    assert "called" not in sentence


def test_a_table_that_holds_no_more_says_so():
    full = replace(PLAN, coffees=tuple("abcdefghijkl"), bowls_per_sample=5)

    assert "a table holds at most 60" in told(full)["bowl"]
