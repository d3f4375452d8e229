"""The desk's passphrase (its slow hash) and sessions (their hashes) in rows."""

from datetime import datetime

from sqlalchemy import Connection, delete, insert, select

from cupwright.store.moments import microseconds
from cupwright.store.schema import desk, desk_sessions

_ONLY_ROW = 1


class SqlDesk:
    """Implements steps.ports.Desk."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def passphrase_hash(self) -> str | None:
        return self._connection.execute(select(desk.c.passphrase_hash)).scalar()

    def put_passphrase_hash(self, slow_hash: str) -> None:
        self._connection.execute(delete(desk))
        self._connection.execute(insert(desk).values(id=_ONLY_ROW, passphrase_hash=slow_hash))
        self._connection.execute(delete(desk_sessions))

    def open_session(self, session_hash: str, expires: datetime) -> None:
        row = {"session_hash": session_hash, "expires_us": microseconds(expires)}
        self._connection.execute(insert(desk_sessions).values(row))

    def session_is_open(self, session_hash: str, now: datetime) -> bool:
        found = select(desk_sessions.c.expires_us).where(desk_sessions.c.session_hash == session_hash)
        expires = self._connection.execute(found).scalar()
        return expires is not None and expires > microseconds(now)

    def close_session(self, session_hash: str) -> None:
        self._connection.execute(delete(desk_sessions).where(desk_sessions.c.session_hash == session_hash))
