"""Connections that can be trusted: durable, with foreign keys, and writers one at a time.

SQLite: WAL with synchronous=FULL. FULL is asked for on every connection and checked, because the default
differs between builds and NORMAL may lose the last commits when the power fails.
PostgreSQL: refuses to work with fsync or synchronous_commit off.
"""

import sqlite3

from sqlalchemy import Connection, Engine, create_engine, event, text
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError
from sqlalchemy.pool import ConnectionPoolEntry

from cupwright.errors import Refused

WRITING = "cupwright_writing"
APPLICATION_ID = 0x43555057  # "CUPW": tells our files from other SQLite files
BUSY_TIMEOUT_MS = 10_000

# Any constant will do: it is the key of the lock that lets one writer in at a time.
_WRITERS = APPLICATION_ID
_FULL = 2
_TOO_WEAK = {"fsync": ("off",), "synchronous_commit": ("off",)}


def durable_engine(url: URL) -> Engine:
    """An engine for a sqlite or postgresql URL.

    Raises
    ------
    Refused
        If the database would not keep what it acknowledges, or its driver is not installed.
    """
    try:
        # A connection that went stale while nobody wrote is replaced before it is used.
        engine = create_engine(url, pool_pre_ping=url.get_backend_name() == "postgresql")
    except ModuleNotFoundError:
        raise Refused(
            "The driver for PostgreSQL is not installed.", todo="Install cupwright[postgres]."
        ) from None
    if engine.dialect.name == "sqlite":
        event.listen(engine, "connect", _prepare_sqlite)
        event.listen(engine, "begin", _begin_sqlite)
    else:
        event.listen(engine, "begin", _begin_postgresql)
    with engine.connect() as connection:
        require_durable(connection)
    return engine


def database_url(text: str) -> URL:
    """The URL of a SQLite or PostgreSQL database, as a user writes it. Raises Refused for anything else."""
    try:
        url = make_url(text)
    except ArgumentError:
        raise _no_such_database() from None
    if url.get_backend_name() not in ("sqlite", "postgresql"):
        raise _no_such_database()
    return url.set(drivername="postgresql+psycopg") if url.drivername == "postgresql" else url


def _no_such_database() -> Refused:
    return Refused("That is no address of a database.", todo="Give sqlite:///FILE or postgresql://HOST/NAME.")


def require_durable(connection: Connection) -> None:
    """Raises Refused unless a commit that returned survives a loss of power."""
    if connection.dialect.name == "sqlite":
        synchronous = connection.execute(text("PRAGMA synchronous")).scalar()
        journal = connection.execute(text("PRAGMA journal_mode")).scalar()
        if synchronous != _FULL or journal != "wal":
            raise Refused(
                f"SQLite would write with synchronous={synchronous} and journal_mode={journal}.",
                todo="Put the data folder on a local disk, where synchronous=FULL and WAL work.",
            )
        return
    for setting, weak in _TOO_WEAK.items():
        value = connection.execute(text(f"SHOW {setting}")).scalar()
        if value in weak:
            raise Refused(
                f"The PostgreSQL server runs with {setting}={value} and may lose acknowledged notes.",
                todo=f"Switch {setting} on.",
            )


def _prepare_sqlite(connection: sqlite3.Connection, _entry: ConnectionPoolEntry) -> None:
    # The driver's own transactions begin late and end at DDL; ours begin and end where we say.
    connection.isolation_level = None
    for pragma in (
        f"busy_timeout = {BUSY_TIMEOUT_MS}",
        "journal_mode = WAL",
        "synchronous = FULL",
        "foreign_keys = ON",
    ):
        connection.execute(f"PRAGMA {pragma}").close()


def _begin_sqlite(connection: Connection) -> None:
    # A writer that begins by reading and then waits for another writer would work on old rows.
    immediate = connection.get_execution_options().get(WRITING, False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if immediate else "BEGIN")


def _begin_postgresql(connection: Connection) -> None:
    if connection.get_execution_options().get(WRITING, False):
        # One writer at a time here too: numbers are then given out in the order of commits, so a reader
        # that has seen number n has seen all below it.
        connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({_WRITERS})")
