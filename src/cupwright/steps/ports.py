"""Ports: what the steps need from outside, as protocols.

    Store       one transaction at a time           store/sql.py, tests/fakes/memory.py
    Archive     a copy of everything kept           store/backup.py
    Spreadsheets  files of rows                     store/spreadsheet.py
    Columns       scores of opened tables as arrays  store/columns.py
    Passphrases   slow hashes                       store/passphrases.py
    RenderPort  paper, screen, data                 render/

`main.py` fills a `Tools` with the real ones; tests fill it with fakes.
"""

import random
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Table
from cupwright.core.pour.labels import LabelSheet
from cupwright.core.pour.pour_list import PourLine
from cupwright.core.report.document import Document, Figure
from cupwright.core.reveal.seal import Key
from cupwright.core.rows import Rows
from cupwright.core.taste.correction import Correction
from cupwright.core.taste.note import Note
from cupwright.core.words.own_words import Addition

if TYPE_CHECKING:
    from cupwright.core.analyse.season_columns import SeasonColumns
    from cupwright.core.analyse.text_columns import TextColumns


@dataclass(frozen=True, slots=True)
class Kept:
    """What the store has of the notes it was given. `sequence` is the last one it gave out at that table.

    `ids` lists every note that is now safe, those kept before included; `new` counts those kept just now.
    """

    ids: tuple[str, ...]
    sequence: int
    new: int


@dataclass(frozen=True, slots=True)
class Numbered:
    """A note and the sequence number the store gave it (rising within the store)."""

    sequence: int
    note: Note


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happened at a table. `at` is UTC; `digest` chains it to the event before."""

    sequence: int
    table_id: str
    kind: str
    at: datetime
    detail: Mapping[str, Any]
    digest: str


@dataclass(frozen=True, slots=True)
class Holder:
    """Whose token it is."""

    table_id: str
    seat_id: str


@dataclass(frozen=True, slots=True)
class KeptWord:
    """An own word as it is kept; `added` is UTC."""

    id: str
    addition: Addition
    added: datetime


@dataclass(frozen=True, slots=True)
class Form:
    """A sheet or protocol of a user's own, as it was written; `kept` is UTC."""

    kind: str
    name: str
    version: int
    text: str
    kept: datetime


class Coffees(Protocol):
    """The shelf."""

    def add(self, coffees: Iterable[Coffee]) -> None:
        """Keep new coffees. Raises Clash for a name that is taken (letter case does not count)."""

    def get(self, coffee_id: str) -> Coffee:
        """One coffee. Raises NotFound."""
        ...

    def all(self) -> tuple[Coffee, ...]:
        """Every coffee, by name."""
        ...

    def replace(self, coffee: Coffee) -> None:
        """Change a coffee. Raises NotFound, or Clash for a name that is taken."""

    def remove(self, coffee_id: str) -> None:
        """Take a coffee off the shelf. Raises NotFound."""


class Tables(Protocol):
    """The tables, without their keys."""

    def add(self, table: Table) -> None:
        """Keep a new table. Raises Clash for a name that is taken."""

    def get(self, table_id: str) -> Table:
        """One table. Raises NotFound."""
        ...

    def by_name(self, name: str) -> Table | None:
        """The table of that name, if any (letter case does not count)."""
        ...

    def by_join_code(self, join_code: str) -> Table | None:
        """The table that a join code leads to, if any."""
        ...

    def all(self) -> tuple[Table, ...]:
        """Every table, the newest first."""
        ...

    def save(self, table: Table) -> None:
        """Change a table. Raises NotFound, or Clash for a name that is taken."""

    def remove(self, table_id: str, at: datetime) -> None:
        """Put a table out of sight and free its name; its notes and events stay. Raises NotFound."""


class Keys(Protocol):
    """Which coffee stands under which code. Never joined to anything, and loaded only to be shown."""

    def put(self, table_id: str, key: Key) -> None:
        """Keep the key of a table. Raises Clash if it has one."""

    def get(self, table_id: str) -> Key:
        """The key of a table. Raises NotFound."""
        ...


class Notes(Protocol):
    """What tasters wrote; append-only."""

    def add(self, table_id: str, notes: Sequence[Note], received: datetime) -> Kept:
        """Keep notes; one kept before as it is counts as kept. Raises Clash for the same id, other body."""
        ...

    def of(self, table_id: str, *, seat: str | None = None, after: int = 0) -> tuple[Numbered, ...]:
        """The notes of a table (or one seat of it) with a sequence number above `after`, in that order."""
        ...


class Tokens(Protocol):
    """Who sits where. Only hashes of tokens are known here."""

    def put(self, token_hash: str, holder: Holder) -> None:
        """Keep a seat's token. Raises Clash if the seat has one."""

    def find(self, token_hash: str) -> Holder | None:
        """Whose token that is, if anybody's."""
        ...

    def taken(self, table_id: str) -> frozenset[str]:
        """The ids of the seats that have a token."""
        ...

    def free(self, table_id: str, seat_id: str) -> None:
        """Forget a seat's token."""


class Events(Protocol):
    """The diary of a table; append-only and chained by digests."""

    def append(self, table_id: str, kind: str, at: datetime, detail: Mapping[str, Any]) -> Event:
        """Write down what happened."""
        ...

    def of(self, table_id: str) -> tuple[Event, ...]:
        """What happened, in order."""
        ...


class Desk(Protocol):
    """The desk's passphrase and the browsers that gave it."""

    def passphrase_hash(self) -> str | None:
        """The slow hash of the passphrase, or None while none is set."""
        ...

    def put_passphrase_hash(self, slow_hash: str) -> None:
        """Set the passphrase and end every session."""

    def open_session(self, session_hash: str, expires: datetime) -> None:
        """Let a browser in until `expires`."""

    def session_is_open(self, session_hash: str, now: datetime) -> bool:
        """Whether a browser is let in."""
        ...

    def close_session(self, session_hash: str) -> None:
        """Let a browser out."""


class OwnWords(Protocol):
    """What users of this installation added to the lexicon."""

    def add(self, words: Iterable[KeptWord]) -> None:
        """Keep new words. Whether they fit the lexicon is the step's to see."""

    def all(self) -> tuple[KeptWord, ...]:
        """Every own word, in the order in which they came."""
        ...

    def remove(self, word_id: str) -> None:
        """Forget a word. Raises NotFound."""


class Corrections(Protocol):
    """What tasters said that their words mean; append-only."""

    def add(self, corrections: Sequence[Correction], received: datetime) -> tuple[str, ...]:
        """Keep corrections; the ids that are now safe. Raises Clash for the same id, other body."""
        ...

    def of(self, tasters: Iterable[str], *, until: datetime | None = None) -> tuple[Correction, ...]:
        """Those of tasters (folded names), received not later than `until`, in the order received."""
        ...


class Forms(Protocol):
    """Users' own sheets ("sheet") and protocols ("protocol"), each with its versions; append-only."""

    def keep(self, kind: str, name: str, version: int, text: str, kept_at: datetime) -> None:
        """Keep a version; one that stands already, word for word, is kept once.

        Raises Clash if that version was ever kept with another text, or if a newer one stands.
        """

    def get(self, kind: str, name: str) -> Form | None:
        """The newest version of one that has not been removed, if there is one."""
        ...

    def all(self, kind: str) -> tuple[Form, ...]:
        """The newest version of each that has not been removed, by name."""
        ...

    def remove(self, kind: str, name: str, at: datetime) -> None:
        """Put it out of sight; what was kept stays in the record. Raises NotFound."""


class Work(Protocol):
    """One transaction: all of it is kept, or none."""

    @property
    def coffees(self) -> Coffees: ...
    @property
    def tables(self) -> Tables: ...
    @property
    def keys(self) -> Keys: ...
    @property
    def notes(self) -> Notes: ...
    @property
    def tokens(self) -> Tokens: ...
    @property
    def events(self) -> Events: ...
    @property
    def desk(self) -> Desk: ...
    @property
    def own_words(self) -> OwnWords: ...
    @property
    def corrections(self) -> Corrections: ...
    @property
    def forms(self) -> Forms: ...


class Store(Protocol):
    """Where everything is kept."""

    def work(self) -> AbstractContextManager[Work]:
        """A transaction that writes, one at a time: durable when left without an error, else it never was."""
        ...

    def reading(self) -> AbstractContextManager[Work]:
        """A transaction that only reads, from one moment's state."""
        ...

    def close(self) -> None:
        """Let go of files and connections."""


class Archive(Protocol):
    """A copy of everything kept, made while the program runs."""

    def backup(self, path: Path) -> Path:
        """Write a checked copy to `path`, wholly or not at all. Raises Clash if the file is there."""
        ...

    def restore(self, path: Path, *, overwrite: bool = False) -> None:
        """Put a copy in place. Raises BadFile if it is none, Clash over a store that is not empty."""


class Spreadsheets(Protocol):
    """Files of rows: CSV in the usual encodings, XLSX."""

    def read(self, data: bytes, file: str) -> Rows:
        """The rows of a file whose name is `file`. Raises BadFile (file, line, column) or TooLarge."""
        ...

    def columns(self, data: bytes, file: str) -> "TextColumns":
        """The same column by column, for files of up to millions of lines."""
        ...


class Columns(Protocol):
    """The scores of all opened tables as columns, beside the store, which stays the truth."""

    def read(self, state: str) -> "SeasonColumns | None":
        """The columns that were made from this state of the store; None if there are none."""
        ...

    def keep(self, state: str, columns: "SeasonColumns") -> None:
        """Put them in the place of all others."""


class NoColumns:
    """Where no files can stand beside the store: columns are made each time."""

    def read(self, _state: str) -> None:
        """Nothing."""

    def keep(self, _state: str, _columns: "SeasonColumns") -> None:
        """Let them go."""


class Passphrases(Protocol):
    """Slow hashes of passphrases."""

    def hash(self, passphrase: str) -> str:
        """A salted slow hash."""
        ...

    def fits(self, passphrase: str, slow_hash: str) -> bool:
        """Whether the passphrase is the one that was hashed."""
        ...


class RenderPort(Protocol):
    """Paper, screen and data."""

    def html(self, document: Document) -> str:
        """A page that stands alone."""
        ...

    def pdf(self, document: Document) -> bytes:
        """The same on paper."""
        ...

    def data(self, document: Document) -> dict[str, Any]:
        """The same as JSON-able data."""
        ...

    def labels_pdf(self, labels: LabelSheet, size: str) -> bytes:
        """Labels for the undersides of the bowls; `size` is "a4" or "letter", here and below."""
        ...

    def pour_list_pdf(self, table: Table, lines: Sequence[PourLine], size: str) -> bytes:
        """Which coffee goes under which code, with its dose, for the pourer alone."""
        ...

    def paper_sheet_pdf(self, table: Table, size: str) -> bytes:
        """The sheet to fill in by hand."""
        ...

    def figure_svg(self, figure: Figure) -> str:
        """One picture."""
        ...


def unheard(_table_id: str, _kind: str) -> None:
    """News nobody waits for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tools:
    """Everything a step may reach. Clock, chance and ids come in here, so a test can fix them."""

    store: Store
    now: Callable[[], datetime]
    rng: random.Random
    new_id: Callable[[], str]
    render: RenderPort
    archive: Archive
    spreadsheets: Spreadsheets
    passphrases: Passphrases
    columns: Columns = field(default_factory=NoColumns)
    announce: Callable[[str, str], None] = unheard
