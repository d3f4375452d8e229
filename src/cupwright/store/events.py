"""The diary in rows: appended, chained per table, never changed."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, insert, select

from cupwright.core.reveal.diary import BEGINNING, digest
from cupwright.steps.ports import Event
from cupwright.store.moments import microseconds, moment
from cupwright.store.schema import events


class SqlEvents:
    """Implements steps.ports.Events."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def append(self, table_id: str, kind: str, at: datetime, detail: Mapping[str, Any]) -> Event:
        row = {
            "table_id": table_id,
            "kind": kind,
            "at_us": microseconds(at),
            "detail": dict(detail),
            "digest": digest(self._last_digest(table_id), table_id, kind, at, detail),
        }
        added = insert(events).values(row).returning(events)
        return _event(self._connection.execute(added).one())

    def of(self, table_id: str) -> tuple[Event, ...]:
        found = select(events).where(events.c.table_id == table_id).order_by(events.c.sequence)
        return tuple(_event(row) for row in self._connection.execute(found))

    def _last_digest(self, table_id: str) -> str:
        of_table = select(events.c.digest).where(events.c.table_id == table_id)
        last = self._connection.execute(of_table.order_by(events.c.sequence.desc()).limit(1)).scalar()
        return last or BEGINNING


def _event(row: Row[Any]) -> Event:
    return Event(row.sequence, row.table_id, row.kind, moment(row.at_us), row.detail, row.digest)
