"""The store on SQLite or PostgreSQL: transactions, and the shelves inside them."""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cached_property
from typing import Any

from sqlalchemy import Connection, Engine
from sqlalchemy.exc import OperationalError

from cupwright.errors import Unavailable
from cupwright.store.coffees import SqlCoffees
from cupwright.store.corrections import SqlCorrections
from cupwright.store.desk import SqlDesk
from cupwright.store.engine import WRITING
from cupwright.store.events import SqlEvents
from cupwright.store.forms import SqlForms
from cupwright.store.keys import SqlKeys
from cupwright.store.notes import SqlNotes
from cupwright.store.own_words import SqlOwnWords
from cupwright.store.tables import SqlTables
from cupwright.store.tokens import SqlTokens


@contextmanager
def _said_plainly() -> Iterator[None]:
    """A full disk or a server that is away becomes a sentence; whatever was under way is not kept."""
    try:
        yield
    except OperationalError as fault:
        raise Unavailable(
            f"The store cannot be used now: {fault.orig}.",
            todo="Nothing was changed; check the disk or the database server and try again.",
        ) from fault


class SqlWork:
    """Implements steps.ports.Work on one connection inside one transaction."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection

    @cached_property
    def coffees(self) -> SqlCoffees:
        return SqlCoffees(self.connection)

    @cached_property
    def tables(self) -> SqlTables:
        return SqlTables(self.connection)

    @cached_property
    def keys(self) -> SqlKeys:
        return SqlKeys(self.connection)

    @cached_property
    def notes(self) -> SqlNotes:
        return SqlNotes(self.connection)

    @cached_property
    def tokens(self) -> SqlTokens:
        return SqlTokens(self.connection)

    @cached_property
    def events(self) -> SqlEvents:
        return SqlEvents(self.connection)

    @cached_property
    def desk(self) -> SqlDesk:
        return SqlDesk(self.connection)

    @cached_property
    def own_words(self) -> SqlOwnWords:
        return SqlOwnWords(self.connection)

    @cached_property
    def corrections(self) -> SqlCorrections:
        return SqlCorrections(self.connection)

    @cached_property
    def forms(self) -> SqlForms:
        return SqlForms(self.connection)


class SqlStore:
    """Implements steps.ports.Store. Made by `opening.open_store`, which brings the schema up to date."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine

    @contextmanager
    def work(self) -> Iterator[SqlWork]:
        with _said_plainly():
            connecting = self.engine.connect().execution_options(**{WRITING: True})
            with connecting as connection, connection.begin():
                yield SqlWork(connection)

    @contextmanager
    def reading(self) -> Iterator[SqlWork]:
        with _said_plainly():
            connecting = self.engine.connect().execution_options(**self._one_moment())
            with connecting as connection, connection.begin() as transaction:
                yield SqlWork(connection)
                transaction.rollback()

    def _one_moment(self) -> dict[str, Any]:
        """SQLite's readers see one moment's state anyway; PostgreSQL's have to ask for it."""
        if self.engine.dialect.name == "sqlite":
            return {}
        return {"isolation_level": "REPEATABLE READ", "postgresql_readonly": True}

    def close(self) -> None:
        self.engine.dispose()
