"""Own protocols: kept with their versions, planned with, and put away without touching a table."""

from dataclasses import replace
from datetime import date

import pytest
from tests.fakes.tools import bench
from tests.unit.steps.laying import a_plan

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.protocol_file import builtin_names, builtin_text
from cupwright.core.plan.table import Plan
from cupwright.core.pour.timing import CueKind
from cupwright.errors import BadProtocol, Clash, NotFound, Refused
from cupwright.steps.plan import brief, get_table, plan_table, plan_with_coffees, preview_brief, replan_table
from cupwright.steps.protocols import (
    find_protocol,
    keep_protocol,
    list_protocols,
    read_protocol,
    remove_protocol,
)

HOUSE = builtin_text("home").replace('name = "home"', 'name = "house"')
NEXT = HOUSE.replace("version = 1", "version = 2").replace("grams = 6\n", "grams = 7\n")


def test_an_own_protocol_is_listed_after_those_of_the_program() -> None:
    tools = bench().tools

    keep_protocol(tools, HOUSE)

    assert [one.protocol.name for one in list_protocols(tools)] == [*builtin_names(), "house"]
    assert find_protocol(tools, "house").own
    assert find_protocol(tools, "house").text == HOUSE
    assert not find_protocol(tools, "home").own


def test_a_table_keeps_the_protocol_it_was_laid_by() -> None:
    tools = bench().tools
    keep_protocol(tools, HOUSE)
    table = plan_table(tools, a_plan(tools, protocol="house"))

    keep_protocol(tools, NEXT)
    kept = get_table(tools, table.id).protocol
    assert (kept.name, kept.version) == ("house", 1)
    assert replan_table(tools, table.id, table.plan).protocol.version == 2

    remove_protocol(tools, "house")
    assert get_table(tools, table.id).protocol.version == 2
    with pytest.raises(NotFound, match=r"no protocol called 'house'. Choose one of: brew, cupping, home"):
        plan_table(tools, replace(table.plan, name="Another"))


def test_a_plan_with_an_unknown_protocol_keeps_nothing() -> None:
    tools = bench().tools

    with pytest.raises(NotFound, match="cuping"):
        plan_table(tools, a_plan(tools, protocol="cuping"))
    with pytest.raises(NotFound, match="cuping"):
        find_protocol(tools, "cuping")


def test_the_programs_own_can_neither_be_replaced_nor_removed() -> None:
    tools = bench().tools

    with pytest.raises(Clash, match="'home' comes with the program"):
        keep_protocol(tools, builtin_text("home"))
    with pytest.raises(Refused, match="'home' comes with the program"):
        remove_protocol(tools, "home")
    with pytest.raises(NotFound):
        remove_protocol(tools, "house")


def test_a_version_that_is_there_already_says_something_else_only_under_the_next_number() -> None:
    tools = bench().tools
    keep_protocol(tools, HOUSE)

    with pytest.raises(Clash, match="Version 1 of the protocol 'house'"):
        keep_protocol(tools, HOUSE.replace("grams = 6\n", "grams = 7\n"))


def test_a_text_is_read_without_being_kept() -> None:
    tools = bench().tools

    assert read_protocol(HOUSE).protocol.name == "house"
    with pytest.raises(BadProtocol, match=r"house\.toml, line 3"):
        read_protocol(HOUSE.replace("version = 1", "version = none"), "house.toml")

    assert len(list_protocols(tools)) == len(builtin_names())


def test_the_brief_follows_the_protocol() -> None:
    tools = bench().tools

    plan = a_plan(tools)
    brewed, cupped = preview_brief(tools, replace(plan, protocol="brew")), preview_brief(tools, plan)

    assert {"Break the crust", "Skim"}.isdisjoint(task.title for task in brewed.tasks)
    assert {"Break the crust", "Skim"} <= {task.title for task in cupped.tasks}
    assert [one.what for one in cupped.deviations if one.known] == ["Bowls"]
    assert {one.about for one in cupped.limits} >= {"caffeine", "palate", "time", "allergens", "hot coffee"}


def test_what_the_brief_tells_as_a_deviation_it_does_not_warn_of_as_well() -> None:
    tools = bench().tools
    plan = a_plan(tools, grams_per_litre=70.0, kettle_c=98.0, bowl_ml=400.0)

    found = preview_brief(tools, plan)

    assert {"Ratio", "Water", "Size of the bowl"} <= {one.what for one in found.deviations if one.known}
    assert not [one for one in found.warnings if "compare" in one or "outside" in one]


def test_rest_is_reckoned_to_the_moment_of_the_first_pour_or_to_now() -> None:
    on = bench()
    old = Coffee("", "Old lot", roast_date=date(2020, 1, 1))
    table = plan_with_coffees(on.tools, Plan(name="T", coffees=()), [old])

    assert "Rest of Old lot" in [one.what for one in brief(on.tools, table.id).deviations]


def test_a_table_without_a_break_has_no_cue_for_one() -> None:
    tools = bench().tools

    table = plan_table(tools, a_plan(tools, protocol="brew"))

    assert table.protocol.timing.acts == (CueKind.POUR, CueKind.TASTE)
