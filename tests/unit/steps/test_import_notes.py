"""Import notes: a file becomes a closed table, or nothing at all."""

import pytest
from tests.fakes.tools import bench
from tests.unit.steps.laying import shelved, written

from cupwright.core.analyse.summary import analyse
from cupwright.core.flow import Step
from cupwright.core.plan.table import Blinding
from cupwright.core.taste.note_rows import NotesColumns
from cupwright.errors import BadFile, Clash, WrongStep
from cupwright.steps.analyse import analysis
from cupwright.steps.coffees import list_coffees
from cupwright.steps.import_notes import import_notes_file
from cupwright.steps.plan import get_table, list_tables
from cupwright.steps.ports import Tools
from cupwright.steps.reveal import comparison, opened
from cupwright.steps.taste import join, write_notes

FILE = b"""taster,coffee,acidity,preference,note
Ada,Lot 1,4,5,cherry and cocoa
Ada,Lot 2,,2,
ben,Lot 2,3,1,woody
ben,Lot 1,5,4,cherry"""


def imported(tools: Tools, data: bytes = FILE, name: str = "Home") -> str:
    return import_notes_file(tools, data, "home.csv", NotesColumns(), name).id


def test_a_file_becomes_a_revealed_table_with_a_sealed_key() -> None:
    on = bench()
    (known,) = shelved(on.tools, "lot 2")

    table = get_table(on.tools, imported(on.tools))

    assert (table.step, table.plan.blinding) == (Step.REVEAL, Blinding.OPEN)
    assert [seat.name for seat in table.seats] == ["Ada", "ben"]
    assert table.seats[1].order == ("2", "1")
    assert table.plan.coffees[1] == known.id
    assert [coffee.name for coffee in list_coffees(on.tools)] == ["Lot 1", "lot 2"]
    assert opened(on.tools, table.id).commitment == table.commitment
    assert on.news[-1] == (table.id, "reveal")


def test_empty_cells_are_no_answers_and_the_rest_can_be_analysed() -> None:
    tools = bench().tools
    table_id = imported(tools)

    with tools.store.reading() as work:
        notes = [numbered.note for numbered in work.notes.of(table_id)]
    counted = analyse(analysis(tools, table_id))

    assert len(notes) == 3 + 4 + 3
    assert counted.liking is not None
    means = [one.mean.estimate for one in counted.liking.means if one.mean]
    assert means == [4.5, 1.5]
    assert counted.wrote == (2, 1)
    assert len(comparison(tools, table_id).coffees) == 2


@pytest.mark.parametrize(
    "data",
    [
        FILE.replace(b"Ada,Lot 2,,2", b"Ada,Lot 2,sour,2"),
        FILE + b"\nAda,Lot 1,1,1,again",
        FILE + b"\n,Lot 1,1,1,nobody",
        FILE + b"\nCleo,,1,1,nothing",
        FILE + b"\nCleo,Lot 1,1,1," + b"x" * 5000,
    ],
    ids=["no number", "twice", "no taster", "no coffee", "too long"],
)
def test_a_file_with_one_bad_line_keeps_nothing(data: bytes) -> None:
    on = bench()

    with pytest.raises(BadFile) as refusal:
        imported(on.tools, data)

    assert refusal.value.where is not None
    assert refusal.value.where.line is not None
    assert list_tables(on.tools) == ()
    assert list_coffees(on.tools) == ()
    assert on.news == []


def test_a_name_that_is_taken_keeps_nothing() -> None:
    tools = bench().tools
    imported(tools)

    with pytest.raises(Clash):
        imported(tools, FILE.replace(b"Lot 1", b"Lot 7"), "HOME")

    assert [coffee.name for coffee in list_coffees(tools)] == ["Lot 1", "Lot 2"]


def test_nothing_can_be_written_to_it() -> None:
    tools = bench().tools
    table = get_table(tools, imported(tools))

    with pytest.raises(WrongStep):
        write_notes(tools, table.id, table.seats[0].id, [written(table, table.seats[0])])
    with pytest.raises(Exception, match="join code"):
        join(tools, table.join_code, "Ada", "hash")
