"""When the disk is full or the database is away: a sentence, nothing half-kept, and on again afterwards."""

import sqlite3
import threading
from pathlib import Path

import pytest
from sqlalchemy import text
from tests.contract.test_store import with_table
from tests.fakes.values import NOON, a_note

from cupwright.errors import Unavailable
from cupwright.store.opening import FILE_NAME, open_store
from cupwright.store.sql import SqlStore

BATCH = 50


def let_grow(store: SqlStore, pages: int) -> None:
    """Give the file of a store room for so many pages, as if the disk ended there."""
    with store.engine.connect() as connection:
        connection.execute(text(f"PRAGMA max_page_count = {pages}"))


def write_on_and_on(store: SqlStore, acknowledged: set[str]) -> None:
    for start in range(0, 100_000, BATCH):
        with store.work() as work:
            kept = work.notes.add("table-1", [a_note(n) for n in range(start, start + BATCH)], NOON)
        acknowledged |= set(kept.ids)


def test_a_full_disk_refuses_a_batch_whole_and_keeps_what_was_acknowledged(sqlite_store: SqlStore) -> None:
    with_table(sqlite_store)
    with sqlite_store.engine.connect() as connection:
        pages = connection.execute(text("PRAGMA page_count")).scalar_one()
    let_grow(sqlite_store, pages + 20)
    acknowledged: set[str] = set()

    with pytest.raises(Unavailable, match="full"):
        write_on_and_on(sqlite_store, acknowledged)

    with sqlite_store.reading() as work:
        there = {numbered.note.id for numbered in work.notes.of("table-1")}
    assert there == acknowledged
    assert len(there) % BATCH == 0


def test_writing_goes_on_when_there_is_room_again(sqlite_store: SqlStore) -> None:
    with_table(sqlite_store)
    let_grow(sqlite_store, 1)
    notes = [a_note(n, value="x" * 4000) for n in range(20)]
    with pytest.raises(Unavailable), sqlite_store.work() as work:
        work.notes.add("table-1", notes, NOON)
    let_grow(sqlite_store, 1_000_000)

    with sqlite_store.work() as work:
        assert work.notes.add("table-1", notes, NOON).new == 20


def test_a_writer_that_is_kept_waiting_too_long_is_told(tmp_path: Path) -> None:
    store = with_table(open_store(tmp_path))
    other = sqlite3.connect(tmp_path / FILE_NAME, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with store.engine.connect() as connection:
        connection.execute(text("PRAGMA busy_timeout = 50"))

    with pytest.raises(Unavailable, match="locked"), store.work():
        pass
    other.execute("ROLLBACK")
    other.close()

    with store.work() as work:
        assert work.notes.add("table-1", [a_note()], NOON).new == 1
    store.close()


@pytest.mark.postgres
def test_a_connection_the_server_dropped_is_replaced(postgres_store: SqlStore) -> None:
    with_table(postgres_store)
    with postgres_store.engine.connect() as connection:
        connection.execute(text("SELECT 1"))
    _drop_connections(postgres_store)

    with postgres_store.work() as work:
        assert work.notes.add("table-1", [a_note()], NOON).new == 1


@pytest.mark.postgres
def test_a_transaction_whose_connection_is_dropped_keeps_nothing(postgres_store: SqlStore) -> None:
    with_table(postgres_store)

    def write_and_be_dropped() -> None:
        with postgres_store.work() as work:
            work.notes.add("table-1", [a_note()], NOON)
            _drop_connections(postgres_store)

    with pytest.raises(Unavailable):
        write_and_be_dropped()

    with postgres_store.reading() as work:
        assert work.notes.of("table-1") == ()


def _drop_connections(store: SqlStore) -> None:
    """Have the server end every connection to this database but the one that asks, in a thread of its own."""

    def drop() -> None:
        with store.engine.connect() as connection:
            connection.execute(
                text(
                    "SELECT pg_terminate_backend(pid, 5000) FROM pg_stat_activity "
                    "WHERE datname = current_database() AND pid <> pg_backend_pid()"
                )
            )
            connection.invalidate()

    thread = threading.Thread(target=drop)
    thread.start()
    thread.join()
