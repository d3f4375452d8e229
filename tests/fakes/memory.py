"""A store in memory. It implements steps.ports.Store and passes the same tests as the real ones."""

import copy
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.names import folded
from cupwright.core.plan.table import Table
from cupwright.core.reveal.diary import BEGINNING, digest
from cupwright.core.reveal.seal import Key
from cupwright.core.taste.correction import Correction
from cupwright.core.taste.note import Note
from cupwright.errors import Clash, NotFound
from cupwright.steps.ports import Event, Form, Holder, Kept, KeptWord, Numbered


@dataclass
class Shelves:
    """Everything kept. A transaction works on a copy that takes the place of the old one at its end."""

    coffees: dict[str, Coffee] = field(default_factory=dict)
    tables: dict[str, Table] = field(default_factory=dict)
    keys: dict[str, Key] = field(default_factory=dict)
    notes: list[tuple[str, Note]] = field(default_factory=list)
    tokens: dict[str, Holder] = field(default_factory=dict)
    events: list[Event] = field(default_factory=list)
    passphrase_hash: str | None = None
    sessions: dict[str, datetime] = field(default_factory=dict)
    own_words: list[KeptWord] = field(default_factory=list)
    corrections: list[tuple[datetime, Correction]] = field(default_factory=list)
    forms: list[tuple[Form, bool]] = field(default_factory=list)  # and whether it was put out of sight


class MemoryCoffees:
    def __init__(self, kept: Shelves) -> None:
        self._kept = kept

    def add(self, coffees: Iterable[Coffee]) -> None:
        for coffee in coffees:
            self._require_free(coffee)
            self._kept.coffees[coffee.id] = coffee

    def get(self, coffee_id: str) -> Coffee:
        if coffee_id not in self._kept.coffees:
            raise NotFound("There is no such coffee on the shelf.")
        return self._kept.coffees[coffee_id]

    def all(self) -> tuple[Coffee, ...]:
        return tuple(sorted(self._kept.coffees.values(), key=lambda c: (folded(c.name), c.id)))

    def replace(self, coffee: Coffee) -> None:
        self.get(coffee.id)
        self._require_free(coffee)
        self._kept.coffees[coffee.id] = coffee

    def remove(self, coffee_id: str) -> None:
        self.get(coffee_id)
        del self._kept.coffees[coffee_id]

    def _require_free(self, coffee: Coffee) -> None:
        for other in self._kept.coffees.values():
            if folded(other.name) == folded(coffee.name) and other.id != coffee.id:
                raise Clash(f"A coffee '{other.name}' is on the shelf already.")


class MemoryTables:
    def __init__(self, kept: Shelves) -> None:
        self._kept = kept

    def add(self, table: Table) -> None:
        self._require_free(table)
        self._kept.tables[table.id] = table

    def get(self, table_id: str) -> Table:
        if table_id not in self._kept.tables:
            raise NotFound("There is no such table.")
        return self._kept.tables[table_id]

    def by_name(self, name: str) -> Table | None:
        return next((t for t in self.all() if folded(t.plan.name) == folded(name)), None)

    def by_join_code(self, join_code: str) -> Table | None:
        return next((t for t in self.all() if t.join_code and t.join_code == join_code), None)

    def all(self) -> tuple[Table, ...]:
        return tuple(sorted(self._kept.tables.values(), key=lambda t: (-t.created.timestamp(), t.id)))

    def save(self, table: Table) -> None:
        self.get(table.id)
        self._require_free(table)
        self._kept.tables[table.id] = table

    def remove(self, table_id: str, at: datetime) -> None:
        self.get(table_id)
        del self._kept.tables[table_id]

    def _require_free(self, table: Table) -> None:
        for other in (self.by_name(table.plan.name), self.by_join_code(table.join_code)):
            if other and other.id != table.id:
                raise Clash(f"There is a table '{other.plan.name}' already.")


class MemoryKeys:
    def __init__(self, kept: Shelves) -> None:
        self._kept = kept

    def put(self, table_id: str, key: Key) -> None:
        if table_id in self._kept.keys:
            raise Clash("This table's key is sealed already.")
        self._kept.keys[table_id] = key

    def get(self, table_id: str) -> Key:
        if table_id not in self._kept.keys:
            raise NotFound("This table has no key yet.")
        return self._kept.keys[table_id]


class MemoryNotes:
    def __init__(self, kept: Shelves) -> None:
        self._kept = kept

    def add(self, table_id: str, notes: Sequence[Note], received: datetime) -> Kept:
        known = {note.id: (at, note) for at, note in self._kept.notes}
        before = len(known)
        for note in notes:
            if note.id not in known:
                self._kept.notes.append((table_id, note))
            if known.setdefault(note.id, (table_id, note)) != (table_id, note):
                raise Clash("A note of that id is kept already and says something else.")
        new = len(known) - before
        last = max((numbered.sequence for numbered in self.of(table_id)), default=0)
        return Kept(tuple(dict.fromkeys(note.id for note in notes)), last, new)

    def of(self, table_id: str, *, seat: str | None = None, after: int = 0) -> tuple[Numbered, ...]:
        return tuple(
            Numbered(sequence, note)
            for sequence, (at, note) in enumerate(self._kept.notes, start=1)
            if at == table_id and seat in (None, note.seat) and sequence > after
        )


class MemoryTokens:
    def __init__(self, kept: Shelves) -> None:
        self._kept = kept

    def put(self, token_hash: str, holder: Holder) -> None:
        if holder.seat_id in self.taken(holder.table_id):
            raise Clash("Somebody sits on this seat already.")
        self._kept.tokens[token_hash] = holder

    def find(self, token_hash: str) -> Holder | None:
        return self._kept.tokens.get(token_hash)

    def taken(self, table_id: str) -> frozenset[str]:
        return frozenset(h.seat_id for h in self._kept.tokens.values() if h.table_id == table_id)

    def free(self, table_id: str, seat_id: str) -> None:
        gone = [token for token, holder in self._kept.tokens.items() if holder == Holder(table_id, seat_id)]
        for token in gone:
            del self._kept.tokens[token]


class MemoryEvents:
    def __init__(self, kept: Shelves) -> None:
        self._kept = kept

    def append(self, table_id: str, kind: str, at: datetime, detail: Mapping[str, Any]) -> Event:
        before = self.of(table_id)[-1].digest if self.of(table_id) else BEGINNING
        sequence = len(self._kept.events) + 1
        event = Event(sequence, table_id, kind, at, dict(detail), digest(before, table_id, kind, at, detail))
        self._kept.events.append(event)
        return event

    def of(self, table_id: str) -> tuple[Event, ...]:
        return tuple(event for event in self._kept.events if event.table_id == table_id)


class MemoryDesk:
    def __init__(self, kept: Shelves) -> None:
        self._kept = kept

    def passphrase_hash(self) -> str | None:
        return self._kept.passphrase_hash

    def put_passphrase_hash(self, slow_hash: str) -> None:
        self._kept.passphrase_hash = slow_hash
        self._kept.sessions.clear()

    def open_session(self, session_hash: str, expires: datetime) -> None:
        self._kept.sessions[session_hash] = expires

    def session_is_open(self, session_hash: str, now: datetime) -> bool:
        return session_hash in self._kept.sessions and self._kept.sessions[session_hash] > now

    def close_session(self, session_hash: str) -> None:
        self._kept.sessions.pop(session_hash, None)


class MemoryOwnWords:
    def __init__(self, kept: Shelves) -> None:
        self._kept = kept

    def add(self, words: Iterable[KeptWord]) -> None:
        self._kept.own_words.extend(words)

    def all(self) -> tuple[KeptWord, ...]:
        return tuple(self._kept.own_words)

    def remove(self, word_id: str) -> None:
        if all(word.id != word_id for word in self._kept.own_words):
            raise NotFound("There is no such own word.")
        self._kept.own_words = [word for word in self._kept.own_words if word.id != word_id]


class MemoryCorrections:
    def __init__(self, kept: Shelves) -> None:
        self._kept = kept

    def add(self, corrections: Sequence[Correction], received: datetime) -> tuple[str, ...]:
        known = {one.id: one for _, one in self._kept.corrections}
        for one in corrections:
            if one.id not in known:
                self._kept.corrections.append((received, one))
            if known.setdefault(one.id, one) != one:
                raise Clash("A correction of that id is kept already and says something else.")
        return tuple(dict.fromkeys(one.id for one in corrections))

    def of(self, tasters: Iterable[str], *, until: datetime | None = None) -> tuple[Correction, ...]:
        asked = set(tasters)
        return tuple(
            one
            for received, one in self._kept.corrections
            if one.taster in asked and (until is None or received <= until)
        )


class MemoryForms:
    def __init__(self, kept: Shelves) -> None:
        self._kept = kept

    def keep(self, kind: str, name: str, version: int, text: str, kept_at: datetime) -> None:
        standing = self.get(kind, name)
        if standing and (standing.version, standing.text) == (version, text):
            return
        ours = [
            form for form, gone in self._kept.forms if (form.kind, form.name) == (kind, name) and not gone
        ]
        if any(form.version == version and form.text != text for form in ours):
            raise Clash(f"Version {version} of the {kind} '{name}' was kept already.")
        if standing and standing.version > version:
            raise Clash(f"Version {standing.version} of the {kind} '{name}' is kept already.")
        self._kept.forms.append((Form(kind, name, version, text, kept_at), False))

    def get(self, kind: str, name: str) -> Form | None:
        return next((form for form in self.all(kind) if form.name == name), None)

    def all(self, kind: str) -> tuple[Form, ...]:
        newest = {form.name: (form, gone) for form, gone in self._kept.forms if form.kind == kind}
        return tuple(newest[name][0] for name in sorted(newest) if not newest[name][1])

    def remove(self, kind: str, name: str, at: datetime) -> None:
        standing = self.get(kind, name)
        if standing is None:
            raise NotFound(f"There is no own {kind} '{name}'.")
        self._kept.forms.append((standing, True))


class MemoryWork:
    def __init__(self, kept: Shelves) -> None:
        self.coffees = MemoryCoffees(kept)
        self.tables = MemoryTables(kept)
        self.keys = MemoryKeys(kept)
        self.notes = MemoryNotes(kept)
        self.tokens = MemoryTokens(kept)
        self.events = MemoryEvents(kept)
        self.desk = MemoryDesk(kept)
        self.own_words = MemoryOwnWords(kept)
        self.corrections = MemoryCorrections(kept)
        self.forms = MemoryForms(kept)


class MemoryStore:
    """Implements steps.ports.Store."""

    def __init__(self) -> None:
        self.kept = Shelves()

    @contextmanager
    def work(self) -> Iterator[MemoryWork]:
        copied = copy.copy(self.kept)
        for name, value in vars(copied).items():
            setattr(copied, name, copy.copy(value))
        yield MemoryWork(copied)
        self.kept = copied

    @contextmanager
    def reading(self) -> Iterator[MemoryWork]:
        yield MemoryWork(copy.deepcopy(self.kept))

    def close(self) -> None:
        """Nothing to let go of."""
