"""The schema: migrations and tables agree on both databases, and what must not change cannot."""

from pathlib import Path

import pytest
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import (
    URL,
    Connection,
    MetaData,
    Table,
    create_engine,
    delete,
    event,
    insert,
    inspect,
    text,
    update,
)
from sqlalchemy.exc import DBAPIError
from tests.contract.test_store import KEY, with_table
from tests.fakes.values import NOON, a_note, a_table

import cupwright.store.migrations
from cupwright.core.plan.protocol_file import builtin_protocol
from cupwright.core.pour.clock import Clock
from cupwright.core.taste.sheet_file import sheet_as_data
from cupwright.errors import Refused
from cupwright.store.engine import database_url, durable_engine, require_durable
from cupwright.store.opening import FILE_NAME, HEAD, bring_up_to_date, open_store, revision
from cupwright.store.plan_data import plan_as_data
from cupwright.store.schema import events, keys, metadata, notes
from cupwright.store.sql import SqlStore


def test_the_migrations_make_exactly_the_schema(sql_store: SqlStore) -> None:
    with sql_store.engine.connect() as connection:
        found = compare_metadata(MigrationContext.configure(connection), metadata)

    assert found == []


def test_the_comparison_sees_a_column_that_is_missing(sql_store: SqlStore) -> None:
    with sql_store.work() as work:
        work.connection.execute(text("ALTER TABLE coffees DROP COLUMN variety"))

    with sql_store.engine.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), metadata) != []


def test_the_newest_migration_is_the_one_the_start_looks_for() -> None:
    config = Config()
    config.set_main_option("script_location", str(Path(cupwright.store.migrations.__file__).parent))

    assert ScriptDirectory.from_config(config).get_current_head() == HEAD


@pytest.mark.parametrize("table", [notes, events, keys], ids=str)
@pytest.mark.parametrize("act", ["update", "delete"])
def test_append_only_rows_cannot_be_changed_or_deleted(sql_store: SqlStore, table: object, act: str) -> None:
    with_table(sql_store)
    with sql_store.work() as work:
        work.notes.add("table-1", [a_note()], NOON)
        work.events.append("table-1", "sealed", NOON, {})
        work.keys.put("table-1", KEY)
    statement = delete(table) if act == "delete" else update(table).values(table_id="table-1")

    with pytest.raises(DBAPIError, match="append-only"), sql_store.work() as work:
        work.connection.execute(statement)


def test_a_note_for_a_seat_of_another_table_cannot_be_kept(sql_store: SqlStore) -> None:
    with_table(sql_store)

    with pytest.raises(DBAPIError, match=r"(?i)foreign key"), sql_store.work() as work:
        work.notes.add("table-1", [a_note(seat="seat-9-1")], NOON)


def test_data_of_the_first_schema_are_brought_up_to_date_and_kept(
    tmp_path: Path, empty_postgres: str
) -> None:
    sqlite = URL.create("sqlite", database=str(tmp_path / FILE_NAME))
    for url in (sqlite, database_url(empty_postgres)):
        store = SqlStore(durable_engine(url))
        with store.work() as work:
            _migrate(work.connection, "0001")
            _add_as_it_was(work.connection)

        with store.work() as work:
            bring_up_to_date(work.connection)

        with store.reading() as work:
            assert revision(work.connection) == HEAD
            assert work.tables.get("table-1").clock == Clock(5, ((1, 20_000),))
            assert work.tables.get("table-1").protocol == builtin_protocol("cupping")
            assert work.own_words.all() == ()
            assert work.forms.all("sheet") == ()
        store.close()


def _add_as_it_was(connection: Connection) -> None:
    """A table with the columns that tables had at first."""
    table = a_table()
    row = {
        "id": table.id,
        "name": table.plan.name,
        "name_folded": table.plan.name.casefold(),
        "created_us": 0,
        "step": "plan",
        "plan": plan_as_data(table.plan),
        "sheet": sheet_as_data(table.sheet),
        "codes": list(table.codes),
        "commitment": "",
        "join_code": table.join_code,
        "started_at_ms": 5,
        "pours": [[1, 20_000]],
        "placings": [],
    }
    connection.execute(insert(Table("tables", MetaData(), autoload_with=connection)).values(row))


def test_opening_twice_changes_nothing(tmp_path: Path) -> None:
    first = with_table(open_store(tmp_path / "data"))
    first.close()

    again = open_store(tmp_path / "data")

    with again.reading() as work:
        assert work.tables.get("table-1").id == "table-1"
    again.close()


def test_the_data_folder_is_made_and_is_its_owners_alone(tmp_path: Path) -> None:
    open_store(tmp_path / "deep" / "da ta?%41#").close()

    assert (tmp_path / "deep" / "da ta?%41#" / FILE_NAME).is_file()
    assert (tmp_path / "deep" / "da ta?%41#").stat().st_mode & 0o077 == 0


def test_data_of_a_newer_program_is_refused_and_left_alone(sql_store: SqlStore) -> None:
    with sql_store.work() as work:
        work.connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))

    with pytest.raises(Refused, match="newer version"), sql_store.work() as work:
        bring_up_to_date(work.connection)

    with sql_store.engine.connect() as connection:
        assert revision(connection) == "9999"


def test_a_migration_that_fails_halfway_leaves_nothing(tmp_path: Path, empty_postgres: str) -> None:
    sqlite = URL.create("sqlite", database=str(tmp_path / FILE_NAME))
    for url in (sqlite, database_url(empty_postgres)):
        engine = durable_engine(url)
        event.listen(engine, "before_cursor_execute", _fail_at_notes)

        with pytest.raises(ZeroDivisionError), SqlStore(engine).work() as work:
            bring_up_to_date(work.connection)

        with engine.connect() as connection:
            assert inspect(connection).get_table_names() == []
        engine.dispose()


def test_a_file_that_is_no_database_is_refused(tmp_path: Path) -> None:
    (tmp_path / FILE_NAME).write_bytes(b"these are not the bytes of a database" * 100)

    with pytest.raises(Refused, match="cannot be opened"):
        open_store(tmp_path)


def test_a_data_folder_that_is_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "data").write_text("a file")

    with pytest.raises(Refused, match="cannot be used"):
        open_store(tmp_path / "data")


@pytest.mark.parametrize("url", ["mysql://host/name", "nonsense://", "sqlite3://x", "://"])
def test_an_address_of_no_database_is_refused(url: str) -> None:
    with pytest.raises(Refused, match="no address of a database"):
        open_store(url)


def test_a_server_that_is_away_is_refused_without_showing_the_password(tmp_path: Path) -> None:
    with pytest.raises(Refused, match="cannot be opened") as refusal:
        open_store(f"postgresql://ada:secret@/name?host={tmp_path}")

    assert "secret" not in str(refusal.value)


@pytest.mark.parametrize("pragma", ["synchronous = NORMAL", "synchronous = OFF", "journal_mode = DELETE"])
def test_a_sqlite_file_that_could_lose_commits_is_refused(tmp_path: Path, pragma: str) -> None:
    engine = create_engine(f"sqlite:///{tmp_path / FILE_NAME}")
    with engine.connect() as connection:
        for statement in ("journal_mode = WAL", "synchronous = FULL", pragma):
            connection.exec_driver_sql(f"PRAGMA {statement}")

        with pytest.raises(Refused, match="SQLite would write"):
            require_durable(connection)
    engine.dispose()


def test_every_sqlite_connection_is_durable_and_keeps_foreign_keys(sqlite_store: SqlStore) -> None:
    with sqlite_store.engine.connect() as first, sqlite_store.engine.connect() as second:
        for connection in (first, second):
            require_durable(connection)
            assert connection.execute(text("PRAGMA foreign_keys")).scalar() == 1


@pytest.mark.postgres
def test_a_postgresql_server_that_could_lose_commits_is_refused(postgres_store: SqlStore) -> None:
    with postgres_store.engine.connect() as connection:
        require_durable(connection)
        connection.execute(text("SET synchronous_commit = off"))

        with pytest.raises(Refused, match="synchronous_commit=off"):
            require_durable(connection)


def test_what_tasters_ask_before_the_reveal_reads_neither_keys_nor_coffees(sql_store: SqlStore) -> None:
    with_table(sql_store)
    with sql_store.work() as work:
        work.keys.put("table-1", KEY)
    said: list[str] = []
    event.listen(
        sql_store.engine, "before_cursor_execute", lambda _c, _cursor, statement, *_: said.append(statement)
    )

    with sql_store.work() as work:
        table = work.tables.get("table-1")
        work.tables.by_join_code(table.join_code)
        work.tables.save(table)
        work.notes.add(table.id, [a_note()], NOON)
        work.notes.of(table.id)
        work.tokens.find("hash")
        work.tokens.taken(table.id)
        work.events.of(table.id)

    assert len(said) > 8
    assert [statement for statement in said if "keys" in statement or "coffees" in statement] == []


def test_the_query_for_the_key_touches_no_other_table(sql_store: SqlStore) -> None:
    with_table(sql_store)
    with sql_store.work() as work:
        work.keys.put("table-1", KEY)
    said: list[str] = []
    event.listen(
        sql_store.engine, "before_cursor_execute", lambda _c, _cursor, statement, *_: said.append(statement)
    )

    with sql_store.reading() as work:
        work.keys.get("table-1")

    assert any("keys" in statement for statement in said)
    assert not any(name in statement for statement in said for name in ("tables", "coffees", "notes", "JOIN"))


def test_sequence_numbers_are_never_given_out_twice(sqlite_store: SqlStore) -> None:
    with_table(sqlite_store)
    with sqlite_store.work() as work:
        first = work.notes.add("table-1", [a_note(1)], NOON)
    # As if the last row had been lost: a plain row number would be given out again.
    with sqlite_store.work() as work:
        work.connection.execute(text("DROP TRIGGER notes_no_delete"))
        work.connection.execute(delete(notes))
        second = work.notes.add("table-1", [a_note(2)], NOON)

    assert second.sequence > first.sequence


def _migrate(connection: Connection, to: str) -> None:
    config = Config()
    config.set_main_option("script_location", str(Path(cupwright.store.migrations.__file__).parent))
    config.attributes["connection"] = connection
    command.upgrade(config, to)


def _fail_at_notes(_connection: object, _cursor: object, statement: str, *_rest: object) -> None:
    if "CREATE TABLE notes" in statement:
        raise ZeroDivisionError
