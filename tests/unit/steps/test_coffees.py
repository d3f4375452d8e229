"""The shelf: what a user can do with coffees, and what is refused."""

from dataclasses import replace
from datetime import date

import pytest
from tests.fakes.tools import bench
from tests.unit.steps.laying import drafted, on_shelf, sealed, shelved, tasting

from cupwright.core.plan.coffee import Coffee
from cupwright.core.rows import Row, Rows
from cupwright.errors import BadFile, Clash, NotFound, Refused, WrongStep
from cupwright.steps.coffees import (
    add_coffee,
    change_coffee,
    import_coffees,
    import_coffees_file,
    list_coffees,
    remove_coffee,
)
from cupwright.steps.plan import delete_table
from cupwright.steps.reveal import open_key


def test_a_coffee_gets_its_id_here_and_can_be_changed() -> None:
    tools = bench().tools

    added = add_coffee(tools, Coffee(id="chosen by the client", name="  Lot 1 "))
    change_coffee(tools, Coffee(id=added.id, name="Lot 1", grams_left=3))

    assert added.id != "chosen by the client"
    assert on_shelf(tools, added.id) == Coffee(id=added.id, name="Lot 1", grams_left=3)


def test_a_coffee_that_cannot_be_kept_changes_nothing() -> None:
    tools = bench().tools
    added = add_coffee(tools, Coffee(id="", name="Lot 1"))

    with pytest.raises(Refused):
        add_coffee(tools, Coffee(id="", name="Lot 2", grams_left=-1))
    with pytest.raises(Refused):
        change_coffee(tools, Coffee(id=added.id, name=" "))
    with pytest.raises(Clash):
        add_coffee(tools, Coffee(id="", name="LOT 1"))
    with pytest.raises(NotFound):
        change_coffee(tools, Coffee(id="none", name="Lot 3"))

    assert list_coffees(tools) == (added,)


def test_a_coffee_in_use_stays_on_the_shelf() -> None:
    tools = bench().tools
    table = drafted(tools)

    with pytest.raises(Clash, match="Monday"):
        remove_coffee(tools, table.plan.coffees[0])

    (spare,) = shelved(tools, "Spare")
    remove_coffee(tools, spare.id)
    assert [coffee.name for coffee in list_coffees(tools)] == ["Lot 1", "Lot 2", "Lot 3"]


SEALED = {"sealed": sealed, "being tasted": tasting}


@pytest.mark.parametrize("step", SEALED)
def test_what_a_coffee_is_cannot_change_while_it_stands_on_a_sealed_table(step: str) -> None:
    tools = bench().tools
    table = SEALED[step](tools)
    coffee = on_shelf(tools, table.plan.coffees[0])

    for changed in (
        {"name": "Lot 9"},
        {"published_notes": "plum"},
        {"origin": "elsewhere"},
        {"roast_date": date(2026, 1, 2)},
    ):
        with pytest.raises(WrongStep) as refusal:
            change_coffee(tools, replace(coffee, **changed))
        assert refusal.value.sentence() == (
            f"'{coffee.name}' stands on the sealed table 'Monday', so only its grams can change now. "
            "Open that table's key first."
        )
    with pytest.raises(WrongStep, match="'Monday', so it cannot be removed now"):
        remove_coffee(tools, coffee.id)

    assert on_shelf(tools, coffee.id) == coffee


def test_its_grams_can_and_so_can_every_other_coffee() -> None:
    tools = bench().tools
    table = sealed(tools)
    (spare,) = shelved(tools, "Spare")
    coffee = on_shelf(tools, table.plan.coffees[0])

    change_coffee(tools, replace(coffee, grams_left=12.5))
    change_coffee(tools, replace(spare, name="Spare lot"))

    assert on_shelf(tools, coffee.id).grams_left == 12.5
    assert on_shelf(tools, spare.id).name == "Spare lot"


def test_once_the_key_is_open_or_the_table_gone_a_coffee_can_be_put_right() -> None:
    for let_go in (
        lambda tools, table: open_key(tools, table.id),
        lambda tools, table: delete_table(tools, table.id, confirm_name="Monday"),
    ):
        tools = bench().tools
        table = sealed(tools)
        coffee = on_shelf(tools, table.plan.coffees[0])

        let_go(tools, table)
        change_coffee(tools, replace(coffee, name="Lot one"))

        assert on_shelf(tools, coffee.id).name == "Lot one"


def test_a_file_of_coffees_is_put_on_the_shelf() -> None:
    tools = bench().tools

    result = import_coffees_file(tools, b"name,roaster\nLot 1,Example\nLot 2,Example", "coffees.csv")

    assert [coffee.name for coffee in result.added] == ["Lot 1", "Lot 2"]
    assert list_coffees(tools) == result.added


def test_a_file_with_one_bad_line_adds_nothing_and_names_every_bad_line() -> None:
    tools = bench().tools
    shelved(tools, "Lot 1")
    rows = Rows(
        "coffees.csv",
        ("name", "grams_left"),
        (Row(2, ("Lot 9", "5")), Row(3, ("lot 1", "5")), Row(4, ("Lot 8", "-2")), Row(5, ("", "1"))),
    )

    result = import_coffees(tools, rows)

    assert result.added == ()
    assert [(refused.line, refused.column) for refused in result.refused] == [
        (3, "name"),
        (4, "grams_left"),
        (5, "name"),
    ]
    assert [coffee.name for coffee in list_coffees(tools)] == ["Lot 1"]


def test_a_file_without_names_is_refused() -> None:
    with pytest.raises(BadFile, match="no column 'name'"):
        import_coffees_file(bench().tools, b"title\nLot 1", "coffees.csv")
