"""Planning: what is refused, and what a draft table holds."""

import math
import random
from dataclasses import replace
from datetime import UTC, datetime
from itertools import count
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.flow import Step
from cupwright.core.plan.planning import JOIN_LETTERS, checked_plan, join_code, laid
from cupwright.core.plan.table import Blinding, Plan, Table
from cupwright.core.taste.sheet import Sheet
from cupwright.errors import Refused

PLAN = Plan(name="Morning table", coffees=("c1", "c2", "c3"), tasters=("Ann", "Ben"))
SHEET = Sheet("open", 1, "Open sheet", ())
CREATED = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)


def lay(plan: Plan, seed: int = 1) -> Table:
    numbers = count(1)
    return laid(
        plan,
        SHEET,
        table_id="t1",
        created=CREATED,
        rng=random.Random(seed),
        ids=lambda: f"seat-{next(numbers)}",
    )


REFUSALS: list[tuple[dict[str, Any], str]] = [
    ({"name": " "}, "The table has no name"),
    ({"name": "x" * 201}, "201 characters"),
    ({"tasters": ("Ann", "")}, "Taster 2 has no name"),
    ({"tasters": ("Ann", " ann ")}, "Two tasters are called ann"),
    ({"tasters": ("ann", "ANN")}, "Two tasters are called ANN"),
    ({"tasters": tuple(f"T{n}" for n in range(201))}, "201 tasters"),
    ({"coffees": ()}, "no coffee"),
    ({"coffees": tuple(f"c{n}" for n in range(500))}, "500 coffees"),
    ({"coffees": ("c1", "c2", "c1")}, "Coffee 3 of the plan is on the table already"),
    ({"bowls_per_sample": 0}, "0 bowls per sample"),
    ({"bowls_per_sample": -2}, "-2 bowls per sample"),
    ({"bowls_per_sample": 11}, "11 bowls per sample"),
    ({"coffees": tuple(f"c{n}" for n in range(13)), "bowls_per_sample": 5}, "65 bowls"),
    ({"bowl_ml": 49.9}, "water in a bowl is 49.9 mL"),
    ({"bowl_ml": 1000.1}, "water in a bowl is 1000.1 mL"),
    ({"bowl_ml": -200.0}, "-200 mL"),
    ({"bowl_ml": math.nan}, "water in a bowl is not a finite number"),
    ({"grams_per_litre": 19.0}, "ratio is 19 g/L"),
    ({"grams_per_litre": 121.0}, "ratio is 121 g/L"),
    ({"grams_per_litre": math.nan}, "ratio is not a finite number"),
    ({"scale_step_g": 0.001}, "step of the scale is 0.001 g"),
    ({"scale_step_g": 0.0}, "step of the scale is 0 g"),
    ({"scale_step_g": 2.0}, "step of the scale is 2 g"),
    ({"kettle_c": 69.0}, "kettle temperature is 69 °C"),
    ({"kettle_c": 200.0}, "kettle temperature is 200 °C"),
    ({"kettle_c": math.inf}, "kettle temperature is not a finite number"),
    ({"purge_g": -1.0}, "purge the grinder is -1 g"),
    ({"purge_g": math.nan}, "purge the grinder is not a finite number"),
    ({"duplicates": ("c9",)}, "second code is not on the table"),
    ({"duplicates": ("c1", "c1")}, "under a second code twice"),
    ({"duplicates": ("c1",), "bowls_per_sample": 10, "coffees": tuple("abcdef")}, "second code is not on"),
    ({"duplicates": ("a",), "bowls_per_sample": 10, "coffees": tuple("abcdef")}, "70 bowls"),
    ({"samples_each": 1}, "Each taster is to get 1 of 3 samples"),
    ({"samples_each": 4}, "Each taster is to get 4 of 3 samples"),
    ({"samples_each": -1}, "Each taster is to get -1 of 3 samples"),
    ({"samples_each": 2, "tasters": ("Ann",)}, "1 taster with 2 of 3 samples each cannot link"),
    (
        {"samples_each": 2, "blinding": Blinding.SHUFFLE, "bowls_per_sample": 2},
        "nobody knows which bowls are one sample",
    ),
    ({"flight": 1}, "number of samples in a flight is 1; 2 to 40 can be planned"),
    ({"flight": 41}, "number of samples in a flight is 41; 2 to 40 can be planned"),
    ({"pourers": 0}, "people who pour is 0; 1 to 6 can be planned"),
    ({"pourers": 7}, "people who pour is 7; 1 to 6 can be planned"),
    ({"pour_s": 1.0}, "time to pour a bowl is 1 s"),
    ({"break_s": 121.0}, "time to break a bowl is 121 s"),
    ({"skim_s": math.nan}, "time to skim a bowl is not a finite number"),
    ({"altitude_m": -431.0}, "altitude is -431 m"),
    ({"altitude_m": 5501.0}, "altitude is 5501 m"),
    ({"room_c": 4.0}, "temperature of the room is 4 °C"),
    ({"room_c": 46.0}, "temperature of the room is 46 °C"),
    ({"taste_from_c": 39.0}, "temperature of the first taste is 39 °C"),
    ({"taste_from_c": 76.0}, "temperature of the first taste is 76 °C"),
    ({"swallowed": -0.1}, "share that is swallowed is -0.1"),
    ({"swallowed": 1.1}, "share that is swallowed is 1.1"),
]


@pytest.mark.parametrize(("change", "sentence"), REFUSALS)
def test_a_plan_that_cannot_be_poured_is_refused_with_its_own_sentence(change: dict[str, Any], sentence: str):
    with pytest.raises(Refused, match=sentence) as refusal:
        checked_plan(replace(PLAN, **change))

    assert refusal.value.todo


@pytest.mark.parametrize(
    "change",
    [
        {"bowl_ml": 50.0},
        {"bowl_ml": 1000.0},
        {"grams_per_litre": 20.0},
        {"grams_per_litre": 120.0},
        {"scale_step_g": 0.01},
        {"scale_step_g": 1.0},
        {"kettle_c": 70.0},
        {"kettle_c": 100.0},
        {"bowls_per_sample": 10},
        {"coffees": tuple(f"c{n}" for n in range(40))},
        {"coffees": tuple(f"c{n}" for n in range(12)), "bowls_per_sample": 5},
        {"tasters": tuple(f"T{n}" for n in range(200))},
        {"tasters": ()},
        {"tasters": (), "samples_each": 2},
        {"samples_each": 2},
        {"samples_each": 3},
        {"duplicates": ("c1", "c2", "c3")},
        {"flight": 2, "pourers": 6, "altitude_m": -430.0, "room_c": 45.0, "swallowed": 1.0},
        {"purge_g": 0.0},
    ],
)
def test_a_plan_on_the_very_bound_is_taken(change: dict[str, Any]):
    plan = replace(PLAN, **change)

    assert checked_plan(plan) == plan


def test_a_checked_plan_has_tidy_names():
    plan = checked_plan(replace(PLAN, name=" Morning  table ", tasters=(" Ann", "Ben\n")))

    assert (plan.name, plan.tasters) == ("Morning table", ("Ann", "Ben"))


def test_a_draft_table_stands_at_plan_and_gives_away_nothing():
    table = lay(PLAN)

    assert (table.step, table.commitment, table.placings) == (Step.PLAN, "", ())
    assert (table.id, table.created, table.sheet) == ("t1", CREATED, SHEET)


def test_codes_are_one_a_sample_where_they_stand_on_the_bowls():
    table = lay(replace(PLAN, bowls_per_sample=5))

    assert len(table.codes) == 3
    assert table.places == table.codes
    assert len(table.bowls) == 15


def test_codes_are_one_a_bowl_where_bowls_are_shuffled_and_tasters_see_positions():
    table = lay(replace(PLAN, blinding=Blinding.SHUFFLE, bowls_per_sample=2))

    assert len(table.codes) == 6
    assert table.places == ("1", "2", "3", "4", "5", "6")
    assert len(table.bowls) == 6


def test_an_open_table_has_plain_numbers_for_places():
    table = lay(replace(PLAN, blinding=Blinding.OPEN))

    assert table.places == ("1", "2", "3")


@pytest.mark.parametrize("blinding", list(Blinding))
def test_every_taster_has_a_seat_with_an_order_of_all_places(blinding: Blinding):
    table = lay(replace(PLAN, blinding=blinding))

    assert [(seat.id, seat.name) for seat in table.seats] == [("seat-1", "Ann"), ("seat-2", "Ben")]
    assert all(sorted(seat.order) == sorted(table.places) for seat in table.seats)
    assert table.seats[0].order != table.seats[1].order


def test_a_hidden_duplicate_has_a_code_of_its_own_and_the_codes_do_not_tell():
    # given four coffees, and three of which one stands twice
    four, twice = replace(PLAN, coffees=tuple("abcd")), replace(PLAN, duplicates=("c1",))

    # then both tables look the same
    assert (lay(four).codes, lay(four).seats) == (lay(twice).codes, lay(twice).seats)


def test_every_taster_goes_flight_after_flight():
    table = lay(replace(PLAN, coffees=tuple("abcdefg"), flight=4))

    assert [len(flight) for flight in table.flights] == [3, 4]
    for seat in table.seats:
        assert sorted(seat.order[:3]) == sorted(table.flights[0])
        assert sorted(seat.order[3:]) == sorted(table.flights[1])


def test_every_taster_gets_only_as_many_samples_as_planned():
    table = lay(replace(PLAN, coffees=tuple("abcdefg"), tasters=tuple("ABCDEFG"), samples_each=3))

    assert all(len(set(seat.order)) == 3 for seat in table.seats)
    assert {place for seat in table.seats for place in seat.order} == set(table.places)


@given(chance=st.integers(), other=st.integers())
def test_a_seed_in_the_plan_fixes_codes_and_orders_but_never_the_join_code(chance: int, other: int):
    # given the same plan laid twice by differing chance
    plan = replace(PLAN, seed=7)
    one, two = lay(plan, chance), lay(plan, other)

    # then
    assert (one.codes, one.seats) == (two.codes, two.seats)
    if abs(chance) != abs(other):  # random.Random seeds by absolute value
        assert one.join_code != two.join_code


def test_without_a_seed_every_table_is_drawn_afresh():
    one, two = lay(PLAN, 1), lay(PLAN, 2)

    assert one.codes != two.codes


def test_codes_do_not_depend_on_which_coffees_are_on_the_table():
    # then codes cannot carry anything about them
    assert lay(PLAN, 1).codes == lay(replace(PLAN, coffees=("x", "y", "z")), 1).codes


@given(seed=st.integers())
def test_a_join_code_has_six_letters_that_are_not_mistaken_for_each_other(seed: int):
    code = join_code(random.Random(seed))

    assert len(code) == 6
    assert set(code) <= set("ABCDEFGHJKLMNPQRSTUVWXYZ23456789")


def test_join_letters_are_32_without_0_O_1_and_I():
    assert len(set(JOIN_LETTERS)) == 32
    assert not set("0O1I") & set(JOIN_LETTERS)
