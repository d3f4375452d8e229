"""Rows: columns are found by their headings, and a complaint says where a cell stands."""

import pytest

from cupwright.core.rows import Row, Rows
from cupwright.errors import BadFile

ROWS = Rows("coffees.csv", ("Name", "roast_date"), (Row(2, ("Lot 1", "2026-11-25")),))


@pytest.mark.parametrize("heading", ["name", " NAME ", "Name"])
def test_a_column_is_found_however_its_heading_is_written(heading: str) -> None:
    assert ROWS.column(heading) == ROWS.need(heading, todo="") == 0


def test_underscores_and_blanks_are_one() -> None:
    assert ROWS.column("Roast date") == 1


def test_a_column_that_is_needed_and_not_there_is_named_with_those_that_are() -> None:
    assert ROWS.column("grams") is None
    with pytest.raises(BadFile) as refusal:
        ROWS.need("grams", todo="Weigh it.")

    assert refusal.value.sentence() == (
        "coffees.csv, line 1: There is no column 'grams'; the columns are Name, roast_date. Weigh it."
    )


def test_a_cell_has_a_place_in_its_file() -> None:
    assert str(ROWS.at(ROWS.rows[0], 1)) == "coffees.csv, line 2, column roast_date"
