"""A hidden duplicate through a whole sitting: poured twice, told to nobody, merged when the key is open."""

from collections import Counter
from dataclasses import replace

from tests.fakes.tools import bench
from tests.unit.steps.laying import a_plan, shelved, written

from cupwright.core.plan.table import Table
from cupwright.steps.analyse import analysis
from cupwright.steps.plan import brief, plan_table, seal_table
from cupwright.steps.ports import Tools
from cupwright.steps.pour import labels, pour_list, start_clock
from cupwright.steps.reveal import comparison, open_key
from cupwright.steps.taste import progress_of, write_notes


def with_a_duplicate(tools: Tools, **changes: object) -> Table:
    """Three coffees, of which the first stands under two codes; sealed."""
    plan = a_plan(tools, **changes)
    return seal_table(tools, plan_table(tools, replace(plan, duplicates=plan.coffees[:1])).id)


def codes_of(tools: Tools, table: Table, name: str) -> list[str]:
    return [line.code for line in pour_list(tools, table.id) if line.coffee.name == name]


def test_it_is_weighed_poured_and_labelled_as_a_sample_of_its_own() -> None:
    tools = bench().tools
    table = with_a_duplicate(tools, bowls_per_sample=2)

    lines = pour_list(tools, table.id)

    assert Counter(line.coffee.name for line in lines) == {"Lot 1": 2, "Lot 2": 1, "Lot 3": 1}
    assert [line.coffee.name for line in lines][:2] == ["Lot 1", "Lot 1"]  # ground one after the other
    assert {line.code for line in lines} == set(table.codes)
    assert labels(tools, table.id).decode().split()[1:] == [code for code in table.codes for _ in range(2)]
    needs = {need.name: need.grams for need in brief(tools, table.id).coffees}
    assert needs["Lot 1"] == 2 * needs["Lot 2"]


def test_after_the_reveal_both_codes_stand_beside_one_coffee() -> None:
    # given
    tools = bench().tools
    table = start_clock(tools, with_a_duplicate(tools).id)
    ada = table.seats[0]
    twice = codes_of(tools, table, "Lot 1")
    notes = [written(table, ada, n, place=place, value=f"cherry {n}") for n, place in enumerate(twice, 1)]
    write_notes(tools, table.id, ada.id, notes)

    # when
    open_key(tools, table.id)

    # then
    found = {one.coffee.name: one for one in comparison(tools, table.id).coffees}
    assert len(found) == 3
    assert sorted(found["Lot 1"].places) == sorted(twice)
    (of_ada,) = found["Lot 1"].tasters
    assert sorted(one.place for one in of_ada.written) == sorted(twice)
    answers = analysis(tools, table.id)
    assert [coffee.name for coffee in answers.coffees].count("Lot 1") == 1
    assert sorted(answers.places[answers.rows[found["Lot 1"].coffee.id]]) == sorted(twice)


def test_nobody_is_asked_for_places_that_others_taste() -> None:
    # given seven samples, three for each of seven
    tools = bench().tools
    coffees = tuple(coffee.id for coffee in shelved(tools, *"ABCDEF"))
    tasters = tuple(f"Taster {n}" for n in range(7))
    plan = a_plan(tools, coffees=coffees, tasters=tasters, samples_each=3, duplicates=coffees[:1])
    table = start_clock(tools, seal_table(tools, plan_table(tools, plan).id).id)
    seat = table.seats[0]

    # when one taster answers on all that are asked
    notes = [written(table, seat, number, place=place) for number, place in enumerate(seat.order, 1)]
    write_notes(tools, table.id, seat.id, notes)

    # then
    (flavour,) = [one for one in progress_of(tools, table.id)[0].passes if one.part == "flavour"]
    assert (flavour.done, flavour.all) == (3, 3)
