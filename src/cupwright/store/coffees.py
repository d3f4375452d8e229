"""Coffees in rows."""

from collections.abc import Iterable
from typing import Any

from sqlalchemy import Connection, RowMapping, delete, insert, select, update

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.names import folded
from cupwright.errors import Clash, NotFound
from cupwright.store.schema import coffees


class SqlCoffees:
    """Implements steps.ports.Coffees."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def add(self, added: Iterable[Coffee]) -> None:
        rows = [_row(coffee) for coffee in added]
        if not rows:
            return
        names = [row["name_folded"] for row in rows]
        self._require_free(names)
        if len(set(names)) < len(names):
            raise Clash("Two of these coffees have the same name.", todo="Give every coffee its own name.")
        self._connection.execute(insert(coffees), rows)

    def get(self, coffee_id: str) -> Coffee:
        row = self._connection.execute(select(coffees).where(coffees.c.id == coffee_id)).mappings().first()
        if row is None:
            raise _not_found()
        return _coffee(row)

    def all(self) -> tuple[Coffee, ...]:
        rows = self._connection.execute(select(coffees)).mappings()
        # Sorted here: the two databases order letters differently.
        return tuple(sorted(map(_coffee, rows), key=lambda coffee: (folded(coffee.name), coffee.id)))

    def replace(self, coffee: Coffee) -> None:
        self._require_free([folded(coffee.name)], but=coffee.id)
        changed = self._connection.execute(
            update(coffees).where(coffees.c.id == coffee.id).values(_row(coffee))
        )
        if changed.rowcount == 0:
            raise _not_found()

    def remove(self, coffee_id: str) -> None:
        gone = self._connection.execute(delete(coffees).where(coffees.c.id == coffee_id))
        if gone.rowcount == 0:
            raise _not_found()

    def _require_free(self, names: list[str], but: str = "") -> None:
        for row in self._connection.execute(select(coffees.c.id, coffees.c.name, coffees.c.name_folded)):
            if row.name_folded in names and row.id != but:
                raise Clash(f"A coffee '{row.name}' is on the shelf already.", todo="Give it another name.")


def _row(coffee: Coffee) -> dict[str, Any]:
    return {
        "id": coffee.id,
        "name": coffee.name,
        "name_folded": folded(coffee.name),
        "roaster": coffee.roaster,
        "origin": coffee.origin,
        "process": coffee.process,
        "variety": coffee.variety,
        "roast_date": coffee.roast_date,
        "published_notes": coffee.published_notes,
        "grams_left": coffee.grams_left,
    }


def _coffee(row: RowMapping) -> Coffee:
    return Coffee(
        id=row["id"],
        name=row["name"],
        roaster=row["roaster"],
        origin=row["origin"],
        process=row["process"],
        variety=row["variety"],
        roast_date=row["roast_date"],
        published_notes=row["published_notes"],
        grams_left=row["grams_left"],
    )


def _not_found() -> NotFound:
    return NotFound("There is no such coffee on the shelf.", todo="Reload the list of coffees.")
