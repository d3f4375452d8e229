"""Copies: complete, checked, made while somebody writes, and put back."""

import os
import random
import sqlite3
import threading
from datetime import UTC, datetime
from pathlib import Path

import pytest
from tests.contract.test_store import KEY, with_table
from tests.contract.test_store_forms import FIRST
from tests.contract.test_store_words import MEMBRILLO, SODA
from tests.fakes.values import NOON, a_coffee, a_correction, a_note, a_table

from cupwright.errors import BadFile, Clash, Refused
from cupwright.store.backup import SqliteArchive
from cupwright.store.opening import FILE_NAME, open_store
from cupwright.store.sql import SqlStore

EMPTY = ((), (), [], [], [], (), (), ())


def filled(store: SqlStore) -> SqlStore:
    with_table(store)
    with store.work() as work:
        work.keys.put("table-1", KEY)
        work.notes.add("table-1", [a_note(n) for n in range(500)], NOON)
        work.events.append("table-1", "sealed", NOON, {"commitment": "c0ffee"})
        work.own_words.add([SODA])
        work.corrections.add([a_correction()], NOON)
        work.forms.keep(FIRST.kind, FIRST.name, FIRST.version, FIRST.text, FIRST.kept)
    return store


def content(store: SqlStore) -> tuple[object, ...]:
    with store.reading() as work:
        tables = work.tables.all()
        return (
            work.coffees.all(),
            tables,
            [work.keys.get(table.id) for table in tables],
            [work.notes.of(table.id) for table in tables],
            [work.events.of(table.id) for table in tables],
            work.own_words.all(),
            work.corrections.of(["ada"]),
            work.forms.all("sheet"),
        )


def shelf(store: SqlStore) -> tuple[object, ...]:
    with store.reading() as work:
        return work.coffees.all(), work.tables.all()


def test_a_restored_copy_holds_everything(sqlite_store: SqlStore, tmp_path: Path) -> None:
    SqliteArchive(filled(sqlite_store)).backup(tmp_path / "copy")
    other = open_store(tmp_path / "other")

    SqliteArchive(other).restore(tmp_path / "copy")

    assert content(other) == content(sqlite_store)
    other.close()
    reopened = open_store(tmp_path / "other")
    assert content(reopened) == content(sqlite_store)
    reopened.close()


def test_a_copy_is_one_file_that_only_its_owner_reads(sqlite_store: SqlStore, tmp_path: Path) -> None:
    (tmp_path / "copies").mkdir()

    SqliteArchive(filled(sqlite_store)).backup(tmp_path / "copies" / "monday")

    assert os.listdir(tmp_path / "copies") == ["monday"]
    assert (tmp_path / "copies" / "monday").stat().st_mode & 0o077 == 0


def test_copies_made_while_somebody_writes_hold_whole_batches(sqlite_store: SqlStore, tmp_path: Path) -> None:
    with_table(sqlite_store)
    over = threading.Event()

    def write() -> None:
        number = 0
        while not over.is_set():
            with sqlite_store.work() as work:
                work.notes.add("table-1", [a_note(number + n) for n in range(7)], datetime.now(UTC))
            number += 7

    writer = threading.Thread(target=write)
    writer.start()
    try:
        for number in range(5):
            SqliteArchive(sqlite_store).backup(tmp_path / f"copy-{number}")
    finally:
        over.set()
        writer.join()

    counts = []
    for number in range(5):
        connection = sqlite3.connect(tmp_path / f"copy-{number}")
        counts.append(connection.execute("SELECT count(*) FROM notes").fetchone()[0])
        connection.close()
    assert [count % 7 for count in counts] == [0] * 5
    assert counts == sorted(counts)
    assert counts[-1] > 0


def test_a_file_that_is_there_is_not_overwritten(sqlite_store: SqlStore, tmp_path: Path) -> None:
    (tmp_path / "copy").write_text("dear")

    with pytest.raises(Clash):
        SqliteArchive(sqlite_store).backup(tmp_path / "copy")

    assert (tmp_path / "copy").read_text() == "dear"


def test_a_copy_that_cannot_be_written_leaves_nothing(sqlite_store: SqlStore, tmp_path: Path) -> None:
    with pytest.raises(Refused, match="cannot be written"):
        SqliteArchive(sqlite_store).backup(tmp_path / "no such folder" / "copy")

    assert sorted(os.listdir(tmp_path)) == ["data"]


def test_what_is_kept_is_only_replaced_when_asked_for(sqlite_store: SqlStore, tmp_path: Path) -> None:
    SqliteArchive(filled(sqlite_store)).backup(tmp_path / "copy")
    other = open_store(tmp_path / "other")
    with other.work() as work:
        work.coffees.add([a_coffee(7)])
    before = content(other)

    with pytest.raises(Clash):
        SqliteArchive(other).restore(tmp_path / "copy")
    assert content(other) == before
    SqliteArchive(other).restore(tmp_path / "copy", overwrite=True)

    assert content(other) == content(sqlite_store)
    other.close()


def test_a_restored_store_can_be_written_and_keeps_its_guards(sqlite_store: SqlStore, tmp_path: Path) -> None:
    SqliteArchive(filled(sqlite_store)).backup(tmp_path / "copy")
    other = open_store(tmp_path / "other")
    SqliteArchive(other).restore(tmp_path / "copy")

    with other.work() as work:
        work.tables.add(a_table(2))
        kept = work.notes.add("table-1", [a_note(1), a_note(9999)], NOON)

    assert kept.new == 1
    with pytest.raises(Exception, match="append-only"), other.work() as work:
        work.connection.exec_driver_sql("DELETE FROM notes")
    other.close()


def test_a_data_folder_copied_with_its_journal_can_be_restored(
    sqlite_store: SqlStore, tmp_path: Path
) -> None:
    filled(sqlite_store)
    (tmp_path / "copied").mkdir()
    for file in (tmp_path / "data").iterdir():
        (tmp_path / "copied" / file.name).write_bytes(file.read_bytes())
    other = open_store(tmp_path / "other")

    SqliteArchive(other).restore(tmp_path / "copied" / FILE_NAME)

    assert content(other) == content(sqlite_store)
    other.close()


@pytest.mark.parametrize("turn", range(8))
def test_a_copy_with_one_byte_changed_is_refused_or_says_the_same(
    sqlite_store: SqlStore, tmp_path: Path, turn: int
) -> None:
    SqliteArchive(filled(sqlite_store)).backup(tmp_path / "copy")
    damaged = bytearray((tmp_path / "copy").read_bytes())
    at = random.Random(turn).randrange(len(damaged))
    damaged[at] ^= 1 << turn % 8
    (tmp_path / "damaged").write_bytes(damaged)
    other = open_store(tmp_path / "other")

    refused = False
    try:
        SqliteArchive(other).restore(tmp_path / "damaged")
    except BadFile:
        refused = True

    # Not refused means that the byte lay where no row is: then nothing that is kept may differ.
    assert content(other) == (EMPTY if refused else content(sqlite_store))
    other.close()


def test_a_letter_changed_inside_a_note_is_noticed(sqlite_store: SqlStore, tmp_path: Path) -> None:
    SqliteArchive(filled(sqlite_store)).backup(tmp_path / "copy")
    damaged = (tmp_path / "copy").read_bytes().replace(b"cherry, then cocoa", b"cherry, then cacao", 1)
    (tmp_path / "damaged").write_bytes(damaged)
    other = open_store(tmp_path / "other")

    with pytest.raises(BadFile, match="damaged"):
        SqliteArchive(other).restore(tmp_path / "damaged")

    assert content(other) == EMPTY
    other.close()


def test_own_words_alone_are_not_replaced_unasked(sqlite_store: SqlStore, tmp_path: Path) -> None:
    SqliteArchive(filled(sqlite_store)).backup(tmp_path / "copy")
    other = open_store(tmp_path / "other")
    with other.work() as work:
        work.own_words.add([MEMBRILLO])

    with pytest.raises(Clash, match="own words"):
        SqliteArchive(other).restore(tmp_path / "copy")

    with other.reading() as work:
        assert work.own_words.all() == (MEMBRILLO,)
    other.close()


@pytest.mark.parametrize("data", [b"", b"not a copy", b"SQLite format 3\x00"], ids=["empty", "text", "head"])
def test_a_file_that_is_no_copy_is_refused(sqlite_store: SqlStore, tmp_path: Path, data: bytes) -> None:
    (tmp_path / "file").write_bytes(data)

    with pytest.raises(BadFile, match="not a copy"):
        SqliteArchive(sqlite_store).restore(tmp_path / "file")


def test_a_database_of_another_program_is_refused(sqlite_store: SqlStore, tmp_path: Path) -> None:
    other = sqlite3.connect(tmp_path / "theirs")
    other.execute("CREATE TABLE tables (id TEXT)")
    other.commit()
    other.close()

    with pytest.raises(BadFile, match="not a copy"):
        SqliteArchive(sqlite_store).restore(tmp_path / "theirs")


def test_a_copy_that_is_not_there_is_refused(sqlite_store: SqlStore, tmp_path: Path) -> None:
    with pytest.raises(BadFile, match="cannot be read"):
        SqliteArchive(sqlite_store).restore(tmp_path / "none")


def test_a_copy_of_a_newer_program_is_refused_before_anything_is_replaced(
    sqlite_store: SqlStore, tmp_path: Path
) -> None:
    with filled(sqlite_store).work() as work:
        work.connection.exec_driver_sql("UPDATE alembic_version SET version_num = '9999'")
    SqliteArchive(sqlite_store).backup(tmp_path / "copy")
    other = with_table(open_store(tmp_path / "other"))
    before = shelf(other)

    with pytest.raises(Refused, match="newer version"):
        SqliteArchive(other).restore(tmp_path / "copy", overwrite=True)

    assert shelf(other) == before
    other.close()


@pytest.mark.postgres
def test_a_postgresql_database_is_left_to_its_own_tools(postgres_store: SqlStore, tmp_path: Path) -> None:
    for act in (SqliteArchive(postgres_store).backup, SqliteArchive(postgres_store).restore):
        with pytest.raises(Refused, match="own tools"):
            act(tmp_path / "copy")


def test_own_sheets_alone_are_not_replaced_unasked(sqlite_store: SqlStore, tmp_path: Path) -> None:
    other = open_store(tmp_path / "other")
    SqliteArchive(other).backup(tmp_path / "copy")
    other.close()
    with sqlite_store.work() as work:
        work.forms.keep(FIRST.kind, FIRST.name, FIRST.version, FIRST.text, FIRST.kept)

    with pytest.raises(Clash, match="own sheets"):
        SqliteArchive(sqlite_store).restore(tmp_path / "copy")

    with sqlite_store.reading() as work:
        assert work.forms.all("sheet") == (FIRST,)
