"""Own words in rows. A row without a label is a form that was added to a concept."""

from collections.abc import Iterable
from typing import Any

from sqlalchemy import Connection, Row, delete, insert, select

from cupwright.core.words.own_words import Addition, OwnConcept, OwnForm
from cupwright.errors import NotFound
from cupwright.steps.ports import KeptWord
from cupwright.store.moments import microseconds, moment
from cupwright.store.schema import own_words


class SqlOwnWords:
    """Implements steps.ports.OwnWords."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def add(self, words: Iterable[KeptWord]) -> None:
        rows = [_row(word) for word in words]
        if rows:
            self._connection.execute(insert(own_words), rows)

    def all(self) -> tuple[KeptWord, ...]:
        rows = self._connection.execute(select(own_words).order_by(own_words.c.sequence))
        return tuple(KeptWord(row.id, _addition(row), moment(row.added_us)) for row in rows)

    def remove(self, word_id: str) -> None:
        gone = self._connection.execute(delete(own_words).where(own_words.c.id == word_id))
        if gone.rowcount == 0:
            raise NotFound("There is no such own word.", todo="Look at the list of own words.")


def _row(word: KeptWord) -> dict[str, Any]:
    row: dict[str, Any] = {"id": word.id, "added_us": microseconds(word.added)}
    match word.addition:
        case OwnConcept(concept, label, parents, forms):
            return row | {
                "concept": concept,
                "label": label,
                "parents": list(parents),
                "forms": list(forms),
            }
        case OwnForm(concept, form):
            return row | {"concept": concept, "label": "", "parents": [], "forms": [form]}


def _addition(row: Row[Any]) -> Addition:
    if row.label:
        return OwnConcept(row.concept, row.label, tuple(row.parents), tuple(row.forms))
    return OwnForm(row.concept, row.forms[0])
