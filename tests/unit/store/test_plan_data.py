"""A plan as data and back: what was kept stays as it was."""

import json

from cupwright.core.plan.table import Plan
from cupwright.store.plan_data import plan_as_data, plan_from_data


def test_a_plan_comes_back_as_it_was() -> None:
    plan = Plan(name="A table", coffees=("a", "b"), tasters=("Ada",), duplicates=("a",), kettle_c=96.5)

    assert plan_from_data(json.loads(json.dumps(plan_as_data(plan)))) == plan


def test_a_plan_kept_when_the_usual_kettle_was_cooler_keeps_its_own() -> None:
    kept = {"name": "A table", "coffees": ["a"], "tasters": ["Ada"], "blinding": "codes", "kettle_c": 93.0}

    assert plan_from_data(kept).kettle_c == 93.0


def test_the_kettle_is_always_kept_even_the_usual_one() -> None:
    assert plan_as_data(Plan(name="A table", coffees=("a",)))["kettle_c"] == 95.0
