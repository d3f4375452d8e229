"""Copies of everything kept: made while the program runs, checked, whole or not there at all.

A copy is one SQLite file, made by SQLite's own online copy. It is written under another name beside its
goal, checked, flushed and then renamed: a crash leaves the old state or the new one, nothing between.
It carries a digest of all its rows, because SQLite's own check does not see a letter changed inside a text.
"""

import hashlib
import os
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import cast

from sqlalchemy import URL, literal, select

from cupwright.errors import BadFile, Clash, Place, Refused
from cupwright.store.engine import APPLICATION_ID, durable_engine
from cupwright.store.opening import FILE_NAME, bring_up_to_date
from cupwright.store.schema import coffees, forms, own_words, tables
from cupwright.store.sql import SqlStore

_OWNER_ONLY = 0o600


class SqliteArchive:
    """Implements steps.ports.Archive for a store on SQLite."""

    def __init__(self, store: SqlStore) -> None:
        self._store = store

    def backup(self, path: Path) -> Path:
        self._require_sqlite()
        if path.exists():
            raise Clash(f"There is a file {path} already.", todo="Choose another name.")
        part = path.with_name(f".{path.name}.part")
        try:
            part.unlink(missing_ok=True)
            os.close(os.open(part, os.O_CREAT | os.O_EXCL, _OWNER_ONLY))
            self._copy_to(part)
            _flush(part)
            part.rename(path)
            _flush(path.parent)
        except (OSError, sqlite3.Error) as fault:
            raise Refused(f"The copy cannot be written to {path}: {fault}.") from fault
        finally:
            part.unlink(missing_ok=True)
        return path

    def restore(self, path: Path, *, overwrite: bool = False) -> None:
        self._require_sqlite()
        if not overwrite and self._holds_something():
            raise Clash(
                "The data folder holds coffees, tables, own words or own sheets; a copy would replace them.",
                todo="Choose an empty data folder, or say that it may be overwritten (--overwrite).",
            )
        with _own_copy(path) as copied, closing(sqlite3.connect(copied)) as source:
            self._replace_by(source)

    def _copy_to(self, part: Path) -> None:
        with closing(sqlite3.connect(part)) as goal, closing(self._store.engine.raw_connection()) as kept:
            cast(sqlite3.Connection, kept.driver_connection).backup(goal)
            # One file is easier to carry than one with a journal beside it.
            goal.execute("PRAGMA journal_mode = DELETE")
            found = _digest(goal)
            with goal:
                goal.execute("CREATE TABLE copy_digest (sha256 TEXT NOT NULL)")
                goal.execute("INSERT INTO copy_digest VALUES (?)", (found,))

    def _replace_by(self, source: sqlite3.Connection) -> None:
        with closing(self._store.engine.raw_connection()) as kept:
            source.backup(cast(sqlite3.Connection, kept.driver_connection))

    def _holds_something(self) -> bool:
        with self._store.engine.connect() as connection:
            kept_here = (tables, coffees, own_words, forms)
            found = (select(literal(1)).select_from(kept).limit(1) for kept in kept_here)
            return any(connection.execute(query).first() for query in found)

    def _require_sqlite(self) -> None:
        if self._store.engine.dialect.name != "sqlite":
            raise Refused(
                "A PostgreSQL database is copied by its own tools.", todo="Use pg_dump and pg_restore."
            )


@contextmanager
def _own_copy(path: Path) -> Iterator[Path]:
    """A sound, migrated copy of a copy; the original (and a journal beside it) is only read."""
    with tempfile.TemporaryDirectory() as folder:
        copied = Path(folder) / FILE_NAME
        try:
            shutil.copyfile(path, copied)
            journal = path.with_name(f"{path.name}-wal")
            if journal.exists():
                shutil.copyfile(journal, copied.with_name(f"{copied.name}-wal"))
        except OSError as fault:
            raise BadFile(f"It cannot be read: {fault.strerror}.", where=Place(str(path))) from fault
        _require_sound(copied, said=path)
        engine = durable_engine(URL.create("sqlite", database=str(copied)))
        with SqlStore(engine).work() as work:
            bring_up_to_date(work.connection)
        engine.dispose()
        yield copied


def _require_sound(file: Path, *, said: Path) -> None:
    """Raises BadFile unless the file is a store of ours and every row of it is in order; drops its digest."""
    where = Place(str(said))
    try:
        with closing(sqlite3.connect(file)) as connection:
            if connection.execute("PRAGMA application_id").fetchone()[0] != APPLICATION_ID:
                raise BadFile("This is not a copy made by cupwright backup.", where=where)
            if not _is_sound(connection):
                raise BadFile("The copy is damaged.", todo="Take an older one.", where=where)
    except sqlite3.DatabaseError as fault:
        raise BadFile(
            f"This is not a copy made by cupwright backup, or it is damaged: {fault}.", where=where
        ) from fault


def _is_sound(connection: sqlite3.Connection) -> bool:
    if connection.execute("PRAGMA integrity_check(1)").fetchone()[0] != "ok":
        return False
    # A copied data folder has no digest; SQLite's check has to do.
    if not connection.execute("SELECT 1 FROM sqlite_master WHERE name = 'copy_digest'").fetchone():
        return True
    (promised,) = connection.execute("SELECT sha256 FROM copy_digest").fetchone() or ("",)
    with connection:
        connection.execute("DROP TABLE copy_digest")
    return _digest(connection) == promised


def _digest(connection: sqlite3.Connection) -> str:
    """SHA-256 over the SQL that would make everything anew: tables, triggers, indexes and rows."""
    digest = hashlib.sha256()
    for statement in connection.iterdump():
        digest.update(statement.encode("utf-8", "surrogateescape"))
    return digest.hexdigest()


def _flush(path: Path) -> None:
    """Have a file, or the names in a folder, on the disk."""
    descriptor = os.open(path, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
