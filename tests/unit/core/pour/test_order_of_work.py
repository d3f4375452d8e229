"""The order of work: complete, in order, and cautious where something can hurt."""

import random
import re
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from cupwright.core.plan.planning import laid
from cupwright.core.plan.protocol_file import builtin_protocol
from cupwright.core.plan.table import Blinding, Plan
from cupwright.core.pour.order_of_work import Task, in_grams, order_of_work
from cupwright.core.pour.recipe import recipe
from cupwright.core.taste.sheet import Moment, Pass, Sheet

PLAN = Plan(name="Morning table", coffees=("Secret Hill", "Secret Dale"), bowls_per_sample=5)
SHEET = Sheet(
    "s",
    1,
    "S",
    tuple(Pass(moment, moment, "?", moment, ()) for moment in (Moment.DRY, Moment.HOT, Moment.COOL)),
)


def work(plan: Plan = PLAN, protocol: str = "cupping") -> dict[str, Task]:
    draft = laid(
        plan, SHEET, table_id="t", created=datetime(2026, 1, 1, tzinfo=UTC), rng=random.Random(1), ids=str
    )
    table = replace(draft, protocol=builtin_protocol(protocol))
    weighed = recipe(plan, len(plan.coffees), standard=table.protocol.standard)
    return {task.title: task for task in order_of_work(table, weighed)}


def test_the_tasks_follow_each_other_as_at_the_table():
    assert list(work()) == [
        "Label the bowls",
        "Weigh the beans",
        "Grind",
        "Smell the dry grounds",
        "Heat the water",
        "Pour",
        "Break the crust",
        "Skim",
        "Taste",
        "Open the key",
    ]


def test_coffee_that_is_brewed_apart_has_no_crust_and_no_skim_and_no_dry_bowls_to_smell():
    tasks = work(protocol="brew")

    assert list(tasks) == [
        "Label the bowls",
        "Weigh the beans",
        "Grind",
        "Heat the water",
        "Brew and serve",
        "Taste",
        "Open the key",
    ]
    assert "Scalding" in tasks["Brew and serve"].caution
    assert "tolerance" not in tasks["Weigh the beans"].detail


def test_the_times_are_those_of_the_protocol():
    home = work(protocol="home")

    assert "4:00 after a bowl's own pour (3:30 to 5:00)" in home["Break the crust"].detail
    assert home["Taste"].detail.startswith("From 12:00 to 16:00 after the pour")


def test_the_heat_of_the_first_taste_is_the_plans():
    assert "near 71 °C" in work()["Taste"].caution
    assert "Wait until coffee is at 55 °C" in work(replace(PLAN, taste_from_c=55.0))["Taste"].caution


def test_dry_bowls_are_shuffled_before_anybody_smells_them_and_before_the_hot_water():
    titles = list(work(replace(PLAN, blinding=Blinding.SHUFFLE)))

    assert titles.index("Grind") < titles.index("Shuffle the bowls") < titles.index("Smell the dry grounds")
    assert titles.index("Shuffle the bowls") < titles.index("Pour")


@pytest.mark.parametrize("blinding", list(Blinding))
def test_every_task_that_can_hurt_says_so_at_its_place(blinding: Blinding):
    tasks = work(replace(PLAN, blinding=blinding))

    assert "Scalding" in tasks["Heat the water"].caution
    assert "Scalding" in tasks["Pour"].caution
    assert "steam" in tasks["Break the crust"].caution
    assert "allergies" in tasks["Weigh the beans"].caution
    assert "clinician" in tasks["Smell the dry grounds"].caution
    for word in ("burns", "spoon", "Spit", "caffeine", "pregnancy"):
        assert word in tasks["Taste"].caution


def test_the_amounts_are_those_of_the_recipe():
    tasks = work(replace(PLAN, spare_bowl=True))

    # by hand: 2 coffees * (6 bowls * 11 g + 5 g) = 142 g; 12 bowls * 200 mL = 2.4 L, and 15 % more
    assert (
        "11.0 g into each of 10 bowls, one spare bowl of each coffee (2)" in tasks["Weigh the beans"].detail
    )
    assert "10.67 to 11.33 g" in tasks["Weigh the beans"].detail
    assert "142 g" in tasks["Weigh the beans"].detail
    assert "2.8 L to 95 °C (203.0 °F): 2.4 L for the bowls" in tasks["Heat the water"].detail
    assert "200 mL" in tasks["Pour"].detail


def test_a_single_bowl_without_a_purge_reads_as_such():
    tasks = work(replace(PLAN, coffees=("Secret Hill",), bowls_per_sample=1, purge_g=0))

    assert "11.0 g into the one bowl;" in tasks["Weigh the beans"].detail
    assert tasks["Grind"].detail.startswith("Grind bowl by bowl: 70 to 75 % by mass passes a No. 20 sieve")


def test_a_small_kettle_is_told_in_millilitres_so_that_the_rest_can_be_seen():
    # by hand: 2 coffees * 150 mL = 300 mL, and 15 % more
    small = replace(PLAN, bowls_per_sample=1, bowl_ml=150)

    assert "350 mL to 95 °C (203.0 °F): 300 mL for the bowls" in work(small)["Heat the water"].detail


def test_the_caffeine_counts_the_bowls_and_the_passes_that_are_tasted():
    # by hand: 10 bowls * 2 tasted passes (the dry one is only smelled) * 4.5 mL * 0.52 mg/mL * 55/60
    assert "about 43 mg" in work()["Taste"].caution


def test_the_order_of_work_names_no_coffee():
    text = " ".join(task.title + task.detail + task.caution for task in work().values())

    assert "Secret" not in text


@pytest.mark.parametrize(
    ("grams", "step", "text"),
    [(11.0, 0.1, "11.0 g"), (11.0, 0.01, "11.00 g"), (11.0, 1.0, "11 g"), (8.5, 0.5, "8.5 g")],
)
def test_a_weight_is_written_as_the_scale_shows_it(grams: float, step: float, text: str):
    assert in_grams(grams, step) == text


FOUR = replace(PLAN, coffees=("A", "B", "C", "D"), bowls_per_sample=1, flight=2)


def test_each_flight_is_ground_and_poured_on_its_own_after_the_break():
    tasks = work(FOUR)
    grind = tasks["Grind"].detail
    codes = re.findall(r"\d{3}", grind[: grind.index(")")])

    # then the host reads which bowls are ground now, and when the next are
    assert len(codes) == 4
    named = f"flight 1: {codes[0]}, {codes[1]}; flight 2: {codes[2]}, {codes[3]}"
    assert grind.startswith(f"Only the flight that comes next ({named}).")
    assert "into each bowl of the flight, in order" in tasks["Pour"].detail
    assert list(tasks)[-3:] == ["Taste", "Break, then the next flight", "Open the key"]
    said = tasks["Break, then the next flight"].detail
    assert "There are 2 flights." in said
    assert "10 minutes or more. Then heat fresh water, grind and pour the next flight" in said


def test_bowls_that_are_shuffled_together_are_ground_together_and_poured_by_flight():
    tasks = work(replace(FOUR, blinding=Blinding.SHUFFLE))

    assert tasks["Grind"].detail.startswith("All flights, since the bowls are shuffled together;")
    assert "compare their dry smell within the flight only" in tasks["Pour"].detail
    assert "heat fresh water, pour the next flight" in tasks["Break, then the next flight"].detail


def test_coffee_that_is_brewed_apart_is_brewed_flight_by_flight():
    tasks = work(FOUR, protocol="brew")

    assert tasks["Brew and serve"].detail.startswith("Brew each sample of the flight by its recipe")
    assert "grind and brew the next flight" in tasks["Break, then the next flight"].detail


@pytest.mark.parametrize("blinding", list(Blinding))
def test_one_flight_has_no_break_and_is_not_called_one(blinding: Blinding):
    # coffee that is not blind is poured as one flight, however many it has
    plan = replace(FOUR, blinding=blinding, flight=2 if blinding is Blinding.OPEN else 8)

    assert "flight" not in " ".join(task.title + task.detail for task in work(plan).values())
