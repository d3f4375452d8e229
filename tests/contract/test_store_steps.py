"""The steps on the real stores: a whole table from plan to report, and what is read on the way."""

from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from sqlalchemy import event
from tests.fakes.tools import bench
from tests.unit.steps.laying import saved_file, sealed, tasting, written

from cupwright.core.plan.table import Blinding
from cupwright.core.taste.late import LateCount
from cupwright.steps.analyse import analysis
from cupwright.steps.demo import load_demo
from cupwright.steps.diary import diary
from cupwright.steps.plan import delete_table, get_table, list_tables
from cupwright.steps.report import report
from cupwright.steps.reveal import comparison, open_key
from cupwright.steps.taste import (
    join,
    notes_of_seat,
    progress_of,
    take_notes_file,
    taken_seats,
    who_sits,
    write_notes,
)
from cupwright.store.sql import SqlStore


@contextmanager
def listening(store: SqlStore) -> Iterator[list[str]]:
    """Every statement the store sends."""
    said: list[str] = []

    def hear(_connection: object, _cursor: object, statement: str, *_rest: object) -> None:
        said.append(statement)

    event.listen(store.engine, "before_cursor_execute", hear)
    yield said
    event.remove(store.engine, "before_cursor_execute", hear)


def test_the_demo_comes_out_of_a_real_store_as_out_of_the_fake(sql_store: SqlStore) -> None:
    real, fake = bench(store=sql_store).tools, bench().tools

    tables = load_demo(real)

    assert tables == load_demo(fake)
    assert list_tables(real) == list_tables(fake)
    finished = tables[0].id
    assert comparison(real, finished) == comparison(fake, finished)
    assert report(real, finished) == report(fake, finished)
    assert analysis(real, finished).written == analysis(fake, finished).written
    assert [e.digest for e in diary(real, finished)] == [e.digest for e in diary(fake, finished)]


@pytest.mark.parametrize("blinding", [Blinding.CODES, Blinding.SHUFFLE])
def test_nothing_a_taster_asks_for_reads_keys_or_coffees(sql_store: SqlStore, blinding: Blinding) -> None:
    tools = bench(store=sql_store).tools
    table = tasting(tools, blinding=blinding)

    with listening(sql_store) as said:
        seated = join(tools, table.join_code, "Ada", "hash")
        who_sits(tools, "hash")
        write_notes(tools, table.id, seated.seat.id, [written(table, seated.seat)])
        notes_of_seat(tools, table.id, seated.seat.id)
        progress_of(tools, table.id)
        taken_seats(tools, table.id)
        get_table(tools, table.id)

    assert len(said) > 10
    assert [statement for statement in said if "keys" in statement or "coffees" in statement] == []


def test_the_listener_hears_the_key_being_read(sql_store: SqlStore) -> None:
    tools = bench(store=sql_store).tools
    table = tasting(tools)

    with listening(sql_store) as said:
        open_key(tools, table.id)

    assert any("FROM keys" in statement for statement in said)


def test_a_removed_table_keeps_its_notes_and_frees_its_name(sql_store: SqlStore) -> None:
    tools = bench(store=sql_store).tools
    table = sealed(tools)
    note = written(table, table.seats[0])
    write_notes(tools, table.id, table.seats[0].id, [note])

    delete_table(tools, table.id, confirm_name="Monday")

    with sql_store.reading() as work:
        assert [numbered.note for numbered in work.notes.of(table.id)] == [note]
        assert work.tables.by_name("Monday") is None
        assert work.events.of(table.id)[-1].kind == "removed"


def test_late_notes_are_known_by_the_diary_of_either_database(sql_store: SqlStore) -> None:
    tools = bench(store=sql_store).tools
    table = tasting(tools)
    ada = table.seats[0]
    in_time, late = written(table, ada, 1), written(table, ada, 2, place=table.places[1], value="tobacco")
    write_notes(tools, table.id, ada.id, [in_time])
    open_key(tools, table.id)

    for _ in range(2):
        take_notes_file(tools, saved_file(table, ada, in_time, late), "ada.json")

    assert [one.note for one in notes_of_seat(tools, table.id, ada.id)] == [in_time, late]
    assert [one.text for one in analysis(tools, table.id).written] == ["cherry"]
    assert analysis(tools, table.id).late == LateCount(answers=1, tasters=1)
    assert [event.kind for event in diary(tools, table.id)].count("late notes taken") == 1
