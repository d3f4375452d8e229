"""Corrections in rows: appended, numbered, never changed; known by their id when they arrive again."""

from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, Connection, Row, insert, select

from cupwright.core.taste.correction import Correction
from cupwright.core.taste.stamp import Stamp
from cupwright.errors import Clash
from cupwright.store.moments import microseconds
from cupwright.store.schema import corrections

# Well under the number of parameters that either database takes in one statement.
_AT_ONCE = 5000


class SqlCorrections:
    """Implements steps.ports.Corrections."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def add(self, added: Sequence[Correction], received: datetime) -> tuple[str, ...]:
        known = {one.id: one for one in self._where(corrections.c.id, [one.id for one in added])}
        rows = []
        for one in added:
            if one.id not in known:
                known[one.id] = one
                rows.append(_row(one, received))
            elif known[one.id] != one:
                raise Clash(
                    "A correction of that id is kept already and says something else; neither was changed.",
                    todo="Correct the word anew.",
                )
        if rows:
            self._connection.execute(insert(corrections), rows)
        return tuple(dict.fromkeys(one.id for one in added))

    def of(self, tasters: Iterable[str], *, until: datetime | None = None) -> tuple[Correction, ...]:
        early = () if until is None else (corrections.c.received_us <= microseconds(until),)
        return tuple(self._where(corrections.c.taster, sorted(set(tasters)), *early))

    def _where(
        self, column: ColumnElement[str], values: Sequence[str], *conditions: ColumnElement[bool]
    ) -> list[Correction]:
        found: list[Row[Any]] = []
        for start in range(0, len(values), _AT_ONCE):
            asked = select(corrections).where(column.in_(values[start : start + _AT_ONCE]), *conditions)
            found += self._connection.execute(asked)
        return [_correction(row) for row in sorted(found, key=lambda row: row.sequence)]


def _row(correction: Correction, received: datetime) -> dict[str, Any]:
    return {
        "id": correction.id,
        "taster": correction.taster,
        "surface": correction.surface,
        "concept": correction.concept,
        "counter": correction.stamp.counter,
        "device": correction.stamp.device,
        "written_at_ms": correction.written_at,
        "received_us": microseconds(received),
    }


def _correction(row: Row[Any]) -> Correction:
    return Correction(
        id=row.id,
        taster=row.taster,
        surface=row.surface,
        concept=row.concept,
        stamp=Stamp(row.counter, row.device),
        written_at=row.written_at_ms,
    )
