"""Plan: drafts, briefs, the seal, and what each step of the flow allows."""

from dataclasses import replace

import pytest
from tests.fakes.tools import bench
from tests.unit.steps.laying import a_plan, drafted, sealed, tasting, written

from cupwright.core.flow import Step
from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Blinding, Plan
from cupwright.core.reveal.seal import commitment, verify
from cupwright.errors import Clash, NotFound, Refused, WrongStep
from cupwright.steps.diary import diary
from cupwright.steps.plan import (
    brief,
    delete_table,
    find_table,
    get_table,
    list_tables,
    plan_table,
    plan_with_coffees,
    preview_brief,
    replan_table,
    seal_table,
)
from cupwright.steps.taste import write_notes


def test_a_planned_table_is_kept_with_codes_seats_and_a_join_code() -> None:
    on = bench()

    table = drafted(on.tools)

    assert get_table(on.tools, table.id) == table
    assert table.step is Step.PLAN
    assert len(set(table.codes)) == 3
    assert [seat.name for seat in table.seats] == ["Ada", "Ben"]
    assert table.created == on.clock()
    assert on.news == [(table.id, "plan")]


def test_a_plan_with_an_unknown_coffee_or_sheet_keeps_nothing() -> None:
    tools = bench().tools
    plan = a_plan(tools)

    with pytest.raises(NotFound):
        plan_table(tools, replace(plan, coffees=("none",)))
    with pytest.raises(NotFound):
        plan_table(tools, replace(plan, sheet="none"))
    with pytest.raises(Refused):
        plan_table(tools, replace(plan, bowls_per_sample=0))

    assert list_tables(tools) == ()


def test_a_name_that_is_taken_is_refused() -> None:
    tools = bench().tools
    plan = drafted(tools).plan

    with pytest.raises(Clash):
        plan_table(tools, replace(plan, name="monday"))


def test_a_draft_can_be_planned_anew_and_keeps_who_it_is() -> None:
    on = bench()
    before = drafted(on.tools)
    on.clock.forward(hours=1)

    after = replan_table(on.tools, before.id, replace(before.plan, tasters=("Cleo",), bowls_per_sample=2))

    assert (after.id, after.created, after.join_code) == (before.id, before.created, before.join_code)
    assert [seat.name for seat in after.seats] == ["Cleo"]
    assert get_table(on.tools, before.id) == after


def test_a_sealed_table_cannot_be_planned_anew() -> None:
    tools = bench().tools
    table = sealed(tools)

    with pytest.raises(WrongStep):
        replan_table(tools, table.id, replace(table.plan, name="Other"))

    assert get_table(tools, table.id).plan.name == "Monday"


def test_coffees_by_name_are_taken_from_the_shelf_or_put_there() -> None:
    tools = bench().tools
    plan = a_plan(tools)

    table = plan_with_coffees(tools, plan, [Coffee("", "lot 2"), Coffee("", "Lot 4", origin="Peru")])

    assert table.plan.coffees[0] == plan.coffees[1]
    assert brief(tools, table.id).coffees[1].name == "Lot 4"


def test_a_table_is_found_by_name_or_id() -> None:
    tools = bench().tools
    table = drafted(tools)

    assert find_table(tools, "MONDAY") == find_table(tools, table.id) == table
    for missing in ("", "Friday"):
        with pytest.raises(NotFound):
            find_table(tools, missing)


def test_the_seal_lays_every_coffee_under_one_code_and_keeps_the_key_apart() -> None:
    tools = bench().tools

    table = sealed(tools)

    with tools.store.reading() as work:
        key = work.keys.get(table.id)
    assert table.step is Step.POUR
    verify(key, table.commitment)
    assert tuple(code for code, _ in key.pairs) == table.codes
    assert sorted(coffee for _, coffee in key.pairs) == sorted(table.plan.coffees)
    assert not any(coffee in repr(replace(table, plan=None)) for coffee in table.plan.coffees)


def test_a_shuffle_gives_every_bowl_a_code_of_its_own() -> None:
    tools = bench().tools

    table = sealed(tools, blinding=Blinding.SHUFFLE, bowls_per_sample=2)

    with tools.store.reading() as work:
        coffees = [coffee for _, coffee in work.keys.get(table.id).pairs]
    assert len(coffees) == 6
    assert all(coffees.count(coffee) == 2 for coffee in table.plan.coffees)


def test_which_coffee_stands_under_which_code_does_not_follow_from_the_seed_of_the_plan() -> None:
    laid = set()
    for seed in range(20):
        tools = bench(seed=seed).tools
        table = sealed(tools, seed=7)
        with tools.store.reading() as work:
            key = work.keys.get(table.id)
        laid.add(tuple(table.plan.coffees.index(coffee) for _, coffee in key.pairs))
        codes = table.codes

    assert len(laid) > 3
    assert codes == sealed(bench(seed=99).tools, seed=7).codes


def test_two_tables_with_the_same_coffees_have_different_commitments() -> None:
    tools = bench().tools
    first = sealed(tools)
    second = seal_table(tools, plan_table(tools, replace(first.plan, name="Tuesday")).id)

    assert first.commitment != second.commitment


def test_a_table_is_sealed_once() -> None:
    tools = bench().tools
    table = sealed(tools)

    with pytest.raises(WrongStep):
        seal_table(tools, table.id)

    with tools.store.reading() as work:
        assert commitment(work.keys.get(table.id)) == table.commitment


def test_the_brief_says_what_is_needed_and_what_runs_short() -> None:
    tools = bench().tools
    plan = a_plan(tools, bowls_per_sample=5, bowl_ml=1000)

    previewed = preview_brief(tools, plan)
    kept = brief(tools, plan_table(tools, plan).id)

    assert previewed.recipe == kept.recipe
    assert kept.recipe.dose_g == 55.0
    # 5 bowls of 55 g and 5 g to purge: 280 g of each coffee, 500 g on the shelf
    assert [need.grams for need in kept.coffees] == [280.0] * 3
    assert not any("are on the shelf" in warning for warning in kept.warnings)
    short = brief(tools, plan_table(tools, replace(plan, name="Big", bowls_per_sample=10)).id)
    assert sum("555 g are needed and 500 g are on the shelf" in warning for warning in short.warnings) == 3


def test_a_preview_keeps_nothing() -> None:
    on = bench()
    plan = a_plan(on.tools)

    preview_brief(on.tools, plan)

    assert list_tables(on.tools) == ()
    assert on.news == []


def test_a_draft_is_removed_at_once_and_a_sealed_table_only_by_its_name() -> None:
    tools = bench().tools
    draft = drafted(tools)
    delete_table(tools, draft.id)
    table = seal_table(tools, plan_table(tools, draft.plan).id)

    for name in ("", "monday", "Tuesday"):
        with pytest.raises(Refused):
            delete_table(tools, table.id, confirm_name=name)
    delete_table(tools, table.id, confirm_name=" Monday ")

    assert list_tables(tools) == ()
    assert plan_table(tools, draft.plan).plan.name == "Monday"


def test_the_notes_of_a_removed_table_are_not_destroyed() -> None:
    tools = bench().tools
    table = tasting(tools)
    write_notes(tools, table.id, table.seats[0].id, [written(table, table.seats[0])])

    delete_table(tools, table.id, confirm_name="Monday")

    with tools.store.reading() as work:
        assert len(work.notes.of(table.id)) == 1


def test_the_diary_tells_what_happened() -> None:
    tools = bench().tools
    table = tasting(tools)

    assert [event.kind for event in diary(tools, table.id)] == ["planned", "sealed", "clock started"]
    assert diary(tools, table.id)[1].detail == {"commitment": table.commitment}


def test_a_plan_of_an_open_table_needs_no_code_to_be_briefed() -> None:
    tools = bench().tools
    plan: Plan = a_plan(tools, blinding=Blinding.OPEN)

    assert preview_brief(tools, plan).recipe.bowls == 3
