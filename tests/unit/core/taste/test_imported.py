"""An imported table: every taster and coffee of the file, closed, with one note an answer."""

import itertools
from collections.abc import Callable

import pytest
from tests.fakes.values import NOON

from cupwright.core.flow import Step
from cupwright.core.plan.table import Blinding
from cupwright.core.rows import Row, Rows
from cupwright.core.taste.checking import check_value
from cupwright.core.taste.imported import imported_notes, imported_table
from cupwright.core.taste.note_rows import NotesColumns, NotesFile, notes_file
from cupwright.errors import Refused

LINES = (("Ada", "B", "3", "cherry"), ("Ben", "A", "5", ""), ("Ada", "A", "4", "cocoa"))
COFFEES = {"A": "id-a", "B": "id-b"}


def a_file() -> NotesFile:
    rows = tuple(Row(number, line) for number, line in enumerate(LINES, start=2))
    return notes_file(Rows("home.csv", ("taster", "coffee", "acidity", "note"), rows), NotesColumns())


def ids() -> Callable[[], str]:
    numbers = itertools.count(1)
    return lambda: f"id-{next(numbers)}"


def test_places_are_numbers_in_the_order_in_which_coffees_come_up() -> None:
    table = imported_table(a_file(), " Home ", COFFEES, table_id="t", created=NOON, ids=ids())

    assert (table.step, table.plan.blinding, table.plan.name) == (Step.REVEAL, Blinding.OPEN, "Home")
    assert (table.codes, table.plan.coffees) == (("1", "2"), ("id-b", "id-a"))
    assert [(seat.name, seat.order) for seat in table.seats] == [("Ada", ("1", "2")), ("Ben", ("2",))]
    assert table.join_code == ""


def test_every_answer_becomes_a_note_that_fits_its_field() -> None:
    table = imported_table(a_file(), "Home", COFFEES, table_id="t", created=NOON, ids=ids())

    notes = imported_notes(a_file(), table, at_ms=7, ids=ids())

    ada, ben = (seat.id for seat in table.seats)
    assert [(note.seat, note.place, note.field, note.value) for note in notes] == [
        (ada, "1", "note", "cherry"),
        (ada, "1", "acidity", 3.0),
        (ben, "2", "acidity", 5.0),
        (ada, "2", "note", "cocoa"),
        (ada, "2", "acidity", 4.0),
    ]
    assert [note.stamp.counter for note in notes] == [1, 2, 3, 4, 5]
    assert len({note.id for note in notes}) == 5
    for note in notes:
        field = table.sheet.field(note.part, note.field)
        assert field is not None
        check_value(note.value, field, cups=1)


def test_a_table_without_a_name_is_refused() -> None:
    with pytest.raises(Refused, match="no name"):
        imported_table(a_file(), " ", COFFEES, table_id="t", created=NOON, ids=ids())
