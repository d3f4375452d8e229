"""Users' own sheets and protocols in rows: appended, never changed; without text, out of sight."""

from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, Connection, Row, insert, select

from cupwright.errors import Clash, NotFound
from cupwright.steps.ports import Form
from cupwright.store.moments import microseconds, moment
from cupwright.store.schema import forms


class SqlForms:
    """Implements steps.ports.Forms."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def keep(self, kind: str, name: str, version: int, text: str, kept_at: datetime) -> None:
        before = self._rows(forms.c.kind == kind, forms.c.name == name)
        standing = _standing(before).get(name)
        if standing and (standing.version, standing.text) == (version, text):
            return
        if any(row.version == version and row.text not in (None, text) for row in before):
            raise Clash(
                f"Version {version} of the {kind} '{name}' was kept already and says something else.",
                todo="Give the changed one the next version.",
            )
        if standing and standing.version > version:
            raise Clash(
                f"Version {standing.version} of the {kind} '{name}' is kept already.",
                todo=f"Give this one version {standing.version + 1}.",
            )
        self._append(kind, name, version, text, kept_at)

    def get(self, kind: str, name: str) -> Form | None:
        return _standing(self._rows(forms.c.kind == kind, forms.c.name == name)).get(name)

    def all(self, kind: str) -> tuple[Form, ...]:
        standing = _standing(self._rows(forms.c.kind == kind))
        return tuple(standing[name] for name in sorted(standing))

    def remove(self, kind: str, name: str, at: datetime) -> None:
        standing = self.get(kind, name)
        if standing is None:
            raise NotFound(f"There is no own {kind} '{name}'.", todo="Look at the list.")
        self._append(kind, name, standing.version, None, at)

    def _append(self, kind: str, name: str, version: int, text: str | None, at: datetime) -> None:
        row = {"kind": kind, "name": name, "version": version, "text": text, "kept_us": microseconds(at)}
        self._connection.execute(insert(forms).values(row))

    def _rows(self, *conditions: ColumnElement[bool]) -> list[Row[Any]]:
        return list(self._connection.execute(select(forms).where(*conditions).order_by(forms.c.sequence)))


def _standing(rows: list[Row[Any]]) -> dict[str, Form]:
    """name -> what was kept last under it, unless it was put out of sight since."""
    newest = {row.name: row for row in rows}
    return {
        name: Form(row.kind, name, row.version, row.text, moment(row.kept_us))
        for name, row in newest.items()
        if row.text is not None
    }
