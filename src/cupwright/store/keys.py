"""Keys in rows of their own. No query here or elsewhere joins this table to another."""

from sqlalchemy import Connection, insert, select

from cupwright.core.reveal.seal import Key
from cupwright.errors import Clash, NotFound
from cupwright.store.schema import keys


class SqlKeys:
    """Implements steps.ports.Keys."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def put(self, table_id: str, key: Key) -> None:
        if self._connection.execute(select(keys.c.table_id).where(keys.c.table_id == table_id)).first():
            raise Clash("This table's key is sealed already.", todo="Go on with the table as it is.")
        row = {"table_id": table_id, "pairs": [list(pair) for pair in key.pairs], "nonce": key.nonce}
        self._connection.execute(insert(keys).values(row))

    def get(self, table_id: str) -> Key:
        row = self._connection.execute(select(keys).where(keys.c.table_id == table_id)).first()
        if row is None:
            raise NotFound("This table has no key yet.", todo="Seal the table first.")
        return Key(tuple((code, coffee_id) for code, coffee_id in row.pairs), row.nonce)
