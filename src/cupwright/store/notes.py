"""Notes in rows: appended, numbered, never changed.

A note that arrives again is known by its id. The id is the device's, so two different notes under one id
are an error that has to be seen, not settled.
"""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, func, insert, select

from cupwright.core.taste.note import Note
from cupwright.core.taste.stamp import Stamp
from cupwright.errors import Clash
from cupwright.steps.ports import Kept, Numbered
from cupwright.store.moments import microseconds
from cupwright.store.schema import notes

# Well under the number of parameters that either database takes in one statement.
_IDS_AT_ONCE = 5000


class SqlNotes:
    """Implements steps.ports.Notes."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def add(self, table_id: str, added: Sequence[Note], received: datetime) -> Kept:
        known = self._known([note.id for note in added])
        rows = []
        for note in added:
            if note.id not in known:
                known[note.id] = (table_id, note)
                rows.append(_row(table_id, note, received))
            elif known[note.id] != (table_id, note):
                raise _clash()
        if rows:
            self._connection.execute(insert(notes), rows)
        return Kept(tuple(dict.fromkeys(note.id for note in added)), self._last_sequence(table_id), len(rows))

    def of(self, table_id: str, *, seat: str | None = None, after: int = 0) -> tuple[Numbered, ...]:
        found = select(notes).where(notes.c.table_id == table_id, notes.c.sequence > after)
        if seat is not None:
            found = found.where(notes.c.seat_id == seat)
        rows = self._connection.execute(found.order_by(notes.c.sequence))
        return tuple(Numbered(row.sequence, _note(row)) for row in rows)

    def _known(self, ids: Sequence[str]) -> dict[str, tuple[str, Note]]:
        """Note id -> (table id, note), for those of the ids that are kept already."""
        known: dict[str, tuple[str, Note]] = {}
        for start in range(0, len(ids), _IDS_AT_ONCE):
            found = select(notes).where(notes.c.id.in_(ids[start : start + _IDS_AT_ONCE]))
            known.update({row.id: (row.table_id, _note(row)) for row in self._connection.execute(found)})
        return known

    def _last_sequence(self, table_id: str) -> int:
        last = select(func.max(notes.c.sequence)).where(notes.c.table_id == table_id)
        return self._connection.execute(last).scalar() or 0


def _row(table_id: str, note: Note, received: datetime) -> dict[str, Any]:
    return {
        "id": note.id,
        "table_id": table_id,
        "seat_id": note.seat,
        "place": note.place,
        "part": note.part,
        "field": note.field,
        "value": note.value,
        "counter": note.stamp.counter,
        "device": note.stamp.device,
        "written_at_ms": note.written_at,
        "received_us": microseconds(received),
    }


def _note(row: Row[Any]) -> Note:
    return Note(
        id=row.id,
        seat=row.seat_id,
        place=row.place,
        part=row.part,
        field=row.field,
        value=row.value,
        stamp=Stamp(row.counter, row.device),
        written_at=row.written_at_ms,
    )


def _clash() -> Clash:
    return Clash(
        "A note of that id is kept already and says something else; neither was changed.",
        todo="Save this device's notes to a file and reload.",
    )
