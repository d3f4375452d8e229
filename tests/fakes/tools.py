"""Tools for tests: everything in memory, a clock that only moves when told, chance from a seed."""

import hashlib
import random
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from cupwright.core.analyse.text_columns import TextColumns, columns_of
from cupwright.core.ids import time_ordered_id
from cupwright.core.plan.table import Table
from cupwright.core.pour.labels import LabelSheet
from cupwright.core.pour.pour_list import PourLine
from cupwright.core.report.document import Document, Figure
from cupwright.core.rows import Row, Rows
from cupwright.errors import Clash
from cupwright.steps.ports import Store, Tools
from tests.fakes.memory import MemoryStore
from tests.fakes.values import NOON


@dataclass
class FakeClock:
    """Noon until moved."""

    time: datetime = NOON

    def __call__(self) -> datetime:
        return self.time

    def forward(self, **how_far: float) -> None:
        self.time += timedelta(**how_far)


class FakeRender:
    """Says what it was asked to draw."""

    def html(self, document: Document) -> str:
        return f"html of {document.title}"

    def pdf(self, document: Document) -> bytes:
        return f"pdf of {document.title}".encode()

    def data(self, document: Document) -> dict[str, Any]:
        return {"title": document.title}

    def labels_pdf(self, labels: LabelSheet, size: str) -> bytes:
        return " ".join([size, *(label.code for label in labels.labels)]).encode()

    def pour_list_pdf(self, table: Table, lines: Sequence[PourLine], size: str) -> bytes:
        return " ".join([size, *(f"{line.code}:{line.coffee.name}" for line in lines)]).encode()

    def paper_sheet_pdf(self, table: Table, size: str) -> bytes:
        return f"{size} sheet of {table.plan.name}".encode()

    def figure_svg(self, figure: Figure) -> str:
        return f"<svg>{figure.name}</svg>"


@dataclass
class FakeArchive:
    """Remembers which copies were made and put back."""

    copies: list[Path] = field(default_factory=list)
    restored: list[tuple[Path, bool]] = field(default_factory=list)

    def backup(self, path: Path) -> Path:
        if path in self.copies:
            raise Clash("There is a file of that name already.")
        self.copies.append(path)
        return path

    def restore(self, path: Path, *, overwrite: bool = False) -> None:
        self.restored.append((path, overwrite))


class FakeSpreadsheets:
    """Plain lines with commas; no quotes, no encodings."""

    def read(self, data: bytes, file: str) -> Rows:
        headings, *lines = [tuple(line.split(",")) for line in data.decode().splitlines()]
        return Rows(file, headings, tuple(Row(number, line) for number, line in enumerate(lines, start=2)))

    def columns(self, data: bytes, file: str) -> TextColumns:
        return columns_of(self.read(data, file))


class FakePassphrases:
    """Quick, and good for nothing but tests."""

    def hash(self, passphrase: str) -> str:
        return hashlib.md5(passphrase.encode()).hexdigest()

    def fits(self, passphrase: str, slow_hash: str) -> bool:
        return self.hash(passphrase) == slow_hash


@dataclass
class Bench:
    """Tools, and what a test may turn or read beside them."""

    tools: Tools
    clock: FakeClock
    archive: FakeArchive
    news: list[tuple[str, str]]


def bench(*, seed: int = 1, store: Store | None = None) -> Bench:
    """Fresh tools; the same seed gives the same codes, orders, keys and ids."""
    rng, clock, archive, news = random.Random(seed), FakeClock(), FakeArchive(), list[tuple[str, str]]()
    tools = Tools(
        store=store or MemoryStore(),
        now=clock,
        rng=rng,
        new_id=lambda: time_ordered_id(int(clock().timestamp() * 1000), rng),
        render=FakeRender(),
        archive=archive,
        spreadsheets=FakeSpreadsheets(),
        passphrases=FakePassphrases(),
        announce=lambda table_id, kind: news.append((table_id, kind)),
    )
    return Bench(tools, clock, archive, news)
