"""The shelf: what a coffee must be, and files of coffees."""

import itertools
import math
from dataclasses import replace
from datetime import date

import pytest

from cupwright.core.plan.coffee import LONGEST_NAME, LONGEST_TEXT, Coffee
from cupwright.core.plan.shelf import MOST_COFFEES_A_FILE, ImportResult, checked_coffee, coffees_from
from cupwright.core.rows import Row, Rows
from cupwright.errors import BadFile, Refused, TooLarge

COFFEE = Coffee(id="1", name="Lot 1", grams_left=0)


def read(headings: tuple[str, ...], *lines: tuple[str, ...], taken: tuple[str, ...] = ()) -> ImportResult:
    numbers = itertools.count(1)
    rows = tuple(Row(number, line) for number, line in enumerate(lines, start=2))
    return coffees_from(Rows("coffees.csv", headings, rows), taken, lambda: f"id-{next(numbers)}")


def test_a_good_coffee_is_kept_without_its_outer_blanks() -> None:
    checked = checked_coffee(replace(COFFEE, name=" Lot  1", origin=" Peru ", published_notes="plum\n"))

    assert checked == replace(COFFEE, origin="Peru", published_notes="plum")


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"name": ""}, "name"),
        ({"name": "\t"}, "name"),
        ({"name": "x" * (LONGEST_NAME + 1)}, "name"),
        ({"name": "a\x00b"}, "name"),
        ({"roaster": "x" * (LONGEST_NAME + 1)}, "roaster"),
        ({"published_notes": "x" * (LONGEST_TEXT + 1)}, "published_notes"),
        ({"origin": "a\x00"}, "origin"),
        ({"variety": "\ud800"}, "variety"),
        ({"grams_left": -0.1}, "grams_left"),
        ({"grams_left": math.nan}, "grams_left"),
        ({"grams_left": math.inf}, "grams_left"),
        ({"grams_left": 1e9}, "grams_left"),
    ],
)
def test_a_coffee_that_cannot_be_kept_is_refused_by_field(changes: dict[str, object], field: str) -> None:
    with pytest.raises(Refused) as refusal:
        checked_coffee(replace(COFFEE, **changes))

    assert refusal.value.where is not None
    assert refusal.value.where.column == field
    assert refusal.value.todo


def test_every_column_of_a_file_finds_its_field_and_others_are_left_alone() -> None:
    result = read(
        ("Name", "Roaster", "origin", "process", "variety", "Roast Date", "Notes", "grams", "price"),
        ("Lot 1", "Example", "Peru", "washed", "mixed", "2026-11-20", "plum, cocoa", "250,5 g", "9"),
    )

    assert result.refused == ()
    assert result.unused == ("price",)
    assert result.added == (
        Coffee(
            "id-1", "Lot 1", "Example", "Peru", "washed", "mixed", date(2026, 11, 20), "plum, cocoa", 250.5
        ),
    )


def test_published_notes_go_before_notes_and_empty_cells_stay_empty() -> None:
    result = read(
        ("name", "notes", "published_notes", "grams_left", "roast_date"), ("A", "mine", "plum", "", "")
    )

    assert result.added == (Coffee("id-1", "A", published_notes="plum"),)


def test_an_id_in_the_file_is_not_taken() -> None:
    assert read(("id", "name"), ("coffee-7", "A")).added[0].id == "id-1"


def test_every_bad_line_is_reported_and_nothing_added() -> None:
    result = read(
        ("name", "roast_date", "grams_left"),
        ("Fine", "2026-11-20", "12"),
        ("Late", "yesterday", "12"),
        ("Much", "", "a bag"),
        ("Kept", "", ""),
        ("fine", "", ""),
        taken=("KEPT",),
    )

    assert result.added == ()
    assert [(line.line, line.column) for line in result.refused] == [
        (3, "roast_date"),
        (4, "grams_left"),
        (5, "name"),
        (6, "name"),
    ]
    assert "is on the shelf already" in result.refused[2].message
    assert "is in line 2 too" in result.refused[3].message


def test_a_file_that_can_hold_no_coffees_is_refused() -> None:
    with pytest.raises(BadFile, match="no column 'name'"):
        read(("title",), ("A",))
    with pytest.raises(BadFile, match="no coffee under the headings"):
        read(("name",))
    with pytest.raises(TooLarge):
        read(("name",), *((str(n),) for n in range(MOST_COFFEES_A_FILE + 1)))
