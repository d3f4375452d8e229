"""Tables and their seats in rows. The key is not here: see keys.py."""

from collections import defaultdict
from collections.abc import Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, Connection, RowMapping, and_, delete, insert, select, update

from cupwright.core.flow import Step
from cupwright.core.plan.names import folded
from cupwright.core.plan.protocol import Protocol
from cupwright.core.plan.protocol_file import builtin_protocol, protocol_as_data, protocol_from_data
from cupwright.core.plan.table import Seat, Table
from cupwright.core.pour.clock import Clock
from cupwright.core.taste.sheet_file import sheet_as_data, sheet_from_data
from cupwright.errors import Clash, NotFound
from cupwright.store.moments import microseconds, moment
from cupwright.store.plan_data import plan_as_data, plan_from_data
from cupwright.store.schema import seats, tables

_IN_SIGHT = tables.c.removed_us.is_(None)


class SqlTables:
    """Implements steps.ports.Tables."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def add(self, table: Table) -> None:
        self._require_free(table)
        self._connection.execute(insert(tables).values(_row(table)))
        self._put_seats(table)

    def get(self, table_id: str) -> Table:
        found = self._where(tables.c.id == table_id)
        if not found:
            raise _not_found()
        return found[0]

    def by_name(self, name: str) -> Table | None:
        return next(iter(self._where(tables.c.name_folded == folded(name))), None)

    def by_join_code(self, join_code: str) -> Table | None:
        return next(iter(self._where(and_(tables.c.join_code == join_code, tables.c.join_code != ""))), None)

    def all(self) -> tuple[Table, ...]:
        return self._where()

    def save(self, table: Table) -> None:
        self._require_free(table)
        changed = self._connection.execute(
            update(tables).where(tables.c.id == table.id, _IN_SIGHT).values(_row(table))
        )
        if changed.rowcount == 0:
            raise _not_found()
        self._put_seats(table)

    def remove(self, table_id: str, at: datetime) -> None:
        gone = self._connection.execute(
            update(tables).where(tables.c.id == table_id, _IN_SIGHT).values(removed_us=microseconds(at))
        )
        if gone.rowcount == 0:
            raise _not_found()

    def _where(self, *conditions: ColumnElement[bool]) -> tuple[Table, ...]:
        found = select(tables).where(_IN_SIGHT, *conditions).order_by(tables.c.created_us.desc(), tables.c.id)
        rows = self._connection.execute(found).mappings().all()
        at = self._seats([row["id"] for row in rows])
        return tuple(_table(row, at[row["id"]]) for row in rows)

    def _seats(self, table_ids: Sequence[str]) -> dict[str, list[Seat]]:
        found = (
            select(seats).where(seats.c.table_id.in_(table_ids)).order_by(seats.c.table_id, seats.c.position)
        )
        at: dict[str, list[Seat]] = defaultdict(list)
        for row in self._connection.execute(found.order_by(seats.c.table_id, seats.c.position)):
            at[row.table_id].append(Seat(row.id, row.name, tuple(row.serving_order)))
        return at

    def _put_seats(self, table: Table) -> None:
        """Make the rows those of the table, touching only what differs."""
        before = {seat.id: (place, seat) for place, seat in enumerate(self._seats([table.id])[table.id])}
        after = {seat.id: (place, seat) for place, seat in enumerate(table.seats)}
        for seat_id in before.keys() - after.keys():
            self._connection.execute(delete(seats).where(seats.c.id == seat_id))
        for seat_id in (s for s in before.keys() & after.keys() if before[s] != after[s]):
            row = _seat_row(table.id, *after[seat_id])
            self._connection.execute(update(seats).where(seats.c.id == seat_id).values(row))
        added = [_seat_row(table.id, *after[seat_id]) for seat_id in after if seat_id not in before]
        if added:
            self._connection.execute(insert(seats), added)

    def _require_free(self, table: Table) -> None:
        named = self.by_name(table.plan.name)
        if named and named.id != table.id:
            raise Clash(f"There is a table '{named.plan.name}' already.", todo="Give this one another name.")
        joined = self.by_join_code(table.join_code)
        if joined and joined.id != table.id:
            raise Clash("Another table has the join code that was drawn.", todo="Try again.")


def _row(table: Table) -> dict[str, Any]:
    return {
        "id": table.id,
        "name": table.plan.name,
        "name_folded": folded(table.plan.name),
        "created_us": microseconds(table.created),
        "step": str(table.step),
        "plan": plan_as_data(table.plan),
        "sheet": sheet_as_data(table.sheet),
        "codes": list(table.codes),
        "commitment": table.commitment,
        "join_code": table.join_code,
        "started_at_ms": table.clock.started_at,
        "pours": [list(pour) for pour in table.clock.pours],
        "done": [list(act) for act in table.clock.done],
        "readings": [list(reading) for reading in table.clock.readings],
        "placings": [list(placing) for placing in table.placings],
        "protocol": protocol_as_data(table.protocol),
    }


def _table(row: RowMapping, at: Sequence[Seat]) -> Table:
    return Table(
        id=row["id"],
        plan=plan_from_data(row["plan"]),
        sheet=sheet_from_data(row["sheet"]),
        created=moment(row["created_us"]),
        step=Step(row["step"]),
        codes=tuple(row["codes"]),
        seats=tuple(at),
        commitment=row["commitment"],
        join_code=row["join_code"],
        clock=_clock(row),
        placings=tuple((place, code) for place, code in row["placings"]),
        protocol=_protocol(row["protocol"]),
    )


def _clock(row: RowMapping) -> Clock:
    return Clock(
        row["started_at_ms"],
        tuple((bowl, at_ms) for bowl, at_ms in row["pours"]),
        tuple((kind, bowl, at_ms) for kind, bowl, at_ms in row["done"]),
        tuple((bowl, at_ms, celsius) for bowl, at_ms, celsius in row["readings"]),
    )


def _protocol(data: dict[str, Any] | None) -> Protocol:
    """As it was laid; tables from before protocols were kept went by the usual one."""
    return builtin_protocol("cupping") if data is None else protocol_from_data(data)


def _seat_row(table_id: str, position: int, seat: Seat) -> dict[str, Any]:
    return {
        "id": seat.id,
        "table_id": table_id,
        "position": position,
        "name": seat.name,
        "serving_order": list(seat.order),
    }


def _not_found() -> NotFound:
    return NotFound("There is no such table.", todo="Look at the list of tables.")
