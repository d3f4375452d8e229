"""Who sits where, in rows. What is kept is the hash of a token, never the token."""

from sqlalchemy import Connection, delete, insert, select

from cupwright.errors import Clash
from cupwright.steps.ports import Holder
from cupwright.store.schema import seat_tokens


class SqlTokens:
    """Implements steps.ports.Tokens."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def put(self, token_hash: str, holder: Holder) -> None:
        if holder.seat_id in self.taken(holder.table_id):
            raise Clash("Somebody sits on this seat already.", todo="Have the desk free the seat.")
        row = {"token_hash": token_hash, "table_id": holder.table_id, "seat_id": holder.seat_id}
        self._connection.execute(insert(seat_tokens).values(row))

    def find(self, token_hash: str) -> Holder | None:
        found = select(seat_tokens).where(seat_tokens.c.token_hash == token_hash)
        row = self._connection.execute(found).first()
        return Holder(row.table_id, row.seat_id) if row else None

    def taken(self, table_id: str) -> frozenset[str]:
        found = select(seat_tokens.c.seat_id).where(seat_tokens.c.table_id == table_id)
        return frozenset(self._connection.execute(found).scalars())

    def free(self, table_id: str, seat_id: str) -> None:
        of_seat = (seat_tokens.c.table_id == table_id, seat_tokens.c.seat_id == seat_id)
        self._connection.execute(delete(seat_tokens).where(*of_seat))
