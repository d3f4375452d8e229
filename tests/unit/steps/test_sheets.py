"""Own sheets: kept with their versions, planned with, and put away without touching a table."""

from dataclasses import replace

import pytest
from tests.fakes.tools import bench
from tests.unit.steps.laying import a_plan

from cupwright.core.taste.points_columns import Columns
from cupwright.core.taste.sheet_file import builtin_names, builtin_sheet
from cupwright.errors import BadSheet, Clash, NotFound, Refused
from cupwright.steps.plan import get_table, plan_table, replan_table
from cupwright.steps.sheets import (
    checked_sheet,
    fitting_sheet,
    get_sheet,
    keep_sheet,
    list_sheets,
    own_sheets,
    points_of_file,
    remove_sheet,
    text_of_sheet,
)

HOUSE = """\
name = "house"
version = 1
title = "House sheet"

[[passes]]
id = "all"
title = "All"
ask = "How is it?"
moment = "hot"
fields = [{ id = "words", kind = "words", label = "Words" }]
"""


def test_an_own_sheet_is_listed_after_those_that_come_with_the_program() -> None:
    tools = bench().tools

    keep_sheet(tools, HOUSE)

    assert [sheet.name for sheet in list_sheets(tools)] == [*builtin_names(), "house"]
    assert [form.text for form in own_sheets(tools)] == [HOUSE]
    assert text_of_sheet(tools, "house") == HOUSE
    assert get_sheet(tools, "house").title == "House sheet"


def test_a_sheet_that_comes_with_the_program_is_printed_too_to_begin_ones_own_with() -> None:
    text = text_of_sheet(bench().tools, "hundred-point")

    own = text.replace('name = "hundred-point"', 'name = "house-points"')
    assert own != text
    assert checked_sheet(own).passes == builtin_sheet("hundred-point").passes


def test_a_name_that_comes_with_the_program_is_refused_when_checked_as_when_kept() -> None:
    tools = bench().tools
    text = text_of_sheet(tools, "open")

    with pytest.raises(Clash) as checked:
        checked_sheet(text)
    with pytest.raises(Clash) as kept:
        keep_sheet(tools, text)
    assert str(checked.value) == str(kept.value)


def test_a_table_is_planned_with_an_own_sheet_and_keeps_it_through_later_versions() -> None:
    tools = bench().tools
    keep_sheet(tools, HOUSE)
    table = plan_table(tools, a_plan(tools, sheet="house"))

    keep_sheet(tools, HOUSE.replace("version = 1", "version = 2").replace("House sheet", "Newer"))
    assert get_table(tools, table.id).sheet.title == "House sheet"
    assert replan_table(tools, table.id, table.plan).sheet.title == "Newer"

    remove_sheet(tools, "house")
    assert get_table(tools, table.id).sheet.title == "Newer"
    with pytest.raises(NotFound, match="There is no sheet called 'house'"):
        plan_table(tools, replace(table.plan, name="Another"))


def test_a_changed_sheet_needs_the_next_version() -> None:
    tools = bench().tools
    keep_sheet(tools, HOUSE)

    with pytest.raises(Clash, match="Version 1 of the sheet 'house'"):
        keep_sheet(tools, HOUSE.replace("House", "Another"))


@pytest.mark.parametrize("name", ["open", "hundred-point"])
def test_the_name_of_a_sheet_of_the_program_cannot_be_taken_or_put_away(name: str) -> None:
    tools = bench().tools

    with pytest.raises(Clash, match="comes with the program"):
        keep_sheet(tools, HOUSE.replace('"house"', f'"{name}"'))
    with pytest.raises(Refused, match="comes with the program"):
        remove_sheet(tools, name)


def test_a_text_that_is_no_sheet_is_refused_with_its_line_and_not_kept() -> None:
    tools = bench().tools

    with pytest.raises(BadSheet, match=r"house\.toml, line 9"):
        keep_sheet(tools, HOUSE.replace('"hot"', '"lukewarm"'), "house.toml")

    assert own_sheets(tools) == ()


@pytest.mark.parametrize(("sheet", "samples", "fits"), [("odd-one-out", 3, True), ("odd-one-out", 2, False)])
def test_the_odd_one_is_asked_of_three_bowls_only(sheet: str, samples: int, fits: bool) -> None:
    if fits:
        assert fitting_sheet(builtin_sheet(sheet), samples).name == sheet
        return
    with pytest.raises(Refused, match=r"asks for the odd one of 3 bowls; the plan has 2.*second code"):
        fitting_sheet(builtin_sheet(sheet), samples)


def test_one_sample_cannot_be_ranked() -> None:
    with pytest.raises(Refused, match="asks for an order"):
        fitting_sheet(builtin_sheet("ranking"), 1)


def test_points_of_a_file_come_by_the_sheets_rule() -> None:
    data = b"fragrance_aroma,flavour,aftertaste,acidity,body,balance,overall,uniformity,clean_cup,sweetness\n"
    data += b"7.75,8,7.75,8,7.75,7.75,8,10,10,10\n"

    found = points_of_file(bench().tools, builtin_sheet("hundred-point"), data, "a.csv", Columns())

    assert str(found.rows[0].points.total) == "85.00"


@pytest.mark.parametrize("cups", [0, 61])
def test_a_sample_of_no_cups_or_too_many_is_refused(cups: int) -> None:
    with pytest.raises(Refused, match="Give 1 to 60"):
        points_of_file(
            bench().tools, builtin_sheet("hundred-point"), b"a\n1\n", "a.csv", Columns(), cups=cups
        )
