"""What a table's totals, picks and repeats are, said after the reveal; and which pass a note is from."""

import json
from pathlib import Path

import pytest

from cupwright.core.taste.note import Note, Value
from cupwright.core.taste.stamp import Stamp
from cupwright.main import open_tools
from cupwright.steps.plan import find_table
from cupwright.steps.taste import write_notes


@pytest.fixture
def lay(cli, tmp_path: Path):
    """A sealed table of two coffees, the first under two codes."""

    def laid(sheet: str):
        file = tmp_path / "table.toml"
        coffees = '[[coffee]]\nname = "Hill lot 7"\ntwice = true\n[[coffee]]\nname = "River lot 2"\n'
        file.write_text(
            f'name = "T"\ntasters = ["Ada", "Ben"]\nsheet = "{sheet}"\n{coffees}', encoding="utf-8"
        )
        assert cli("plan", str(file), "--seal").code == 0

    return laid


def answer(tmp_path: Path, say) -> None:
    """Everybody at the table answers what `say` makes of (seat and place as numbers, pass, field, table)."""
    with open_tools(tmp_path / "data") as tools:
        table = find_table(tools, "T")
        for index, seat in enumerate(table.seats):
            made: list[Note] = []
            for part in table.sheet.passes:
                places = ("table",) if part.over == "table" else table.places
                for number, place in enumerate(places):
                    for field in part.fields:
                        value: Value | None = say(index, number, part, field, table)
                        if value is not None:
                            mark = f"00000000-0000-4000-8000-{len(made):04d}{index:08d}"
                            made.append(
                                Note(mark, seat.id, place, part.id, field.id, value, Stamp(1, "d"), 0)
                            )
            write_notes(tools, table.id, seat.id, made)


def scored(index, place, part, field, _table):
    if field.kind == "points":
        return str(5 + (index + place) % 2)
    if field.kind == "words" and part.id == "aroma":
        return "plum; cocoa"
    return None


@pytest.mark.parametrize("command", [("reveal", "T", "--yes"), ("analyse", "T")])
def test_totals_are_said_and_are_in_the_data(cli, lay, tmp_path, command):
    lay("affective")
    answer(tmp_path, scored)
    cli("reveal", "T", "--yes")

    said, data = cli(*command).out, json.loads(cli(*command, "--json").out)

    # 52.75 + 0.65625 x 8 x 5 and x 6 [SCA-104-2024, from memory].
    assert "79.00" in said
    assert "84.25" in said
    assert {one["total"] for one in data["totals"]} == {79.0, 84.25}
    assert {one["name"] for one in data["totals"]} == {"Ada", "Ben"}


def test_the_same_coffee_again_is_told_of_with_how_far_it_scatters(cli, lay, tmp_path):
    lay("affective")
    answer(tmp_path, scored)

    said = cli("reveal", "T", "--yes").out
    data = json.loads(cli("reveal", "T", "--json").out)

    assert "The same coffee again" in said
    total = next(one for one in data["repeats"]["scales"] if one["field"] == "total")
    assert len(total["repeats"]) == 2
    assert all(len(one["places"]) == 2 for one in total["repeats"])


def test_a_note_is_said_with_its_pass_and_its_place_where_there_are_several(cli, lay, tmp_path):
    lay("affective")
    answer(tmp_path, scored)

    said = cli("reveal", "T", "--yes").out

    river = said[said.index("River lot 2") :]
    assert "    Ada, Aroma: plum; cocoa\n" in river
    with open_tools(tmp_path / "data") as tools:
        places = find_table(tools, "T").places
    assert sum(f"Ada, Aroma, {place}: plum; cocoa" in said for place in places) == 2


@pytest.mark.parametrize("command", [("reveal", "T", "--yes"), ("analyse", "T")])
def test_odd_ones_are_counted_and_how_sure_that_is_can_be_asked(cli, lay, tmp_path, command):
    lay("odd-one-out")
    answer(tmp_path, lambda _i, _p, _part, field, table: table.places[0] if field.kind == "odd" else None)
    cli("reveal", "T", "--yes")

    said, data = cli(*command).out, json.loads(cli(*command, "--json").out)

    (odd,) = data["odd"]
    assert odd["of"] == 2
    assert odd["right"] in (0, 2)
    assert f"{odd['right']} of 2 tasters picked" in said
    assert f"cupwright size triangle --right {odd['right']} --of 2" in said


def test_an_odd_one_that_nobody_chose_is_said(cli, lay):
    lay("odd-one-out")

    said = cli("reveal", "T", "--yes").out

    assert "Nobody chose an odd one." in said
    assert "size triangle" not in said
