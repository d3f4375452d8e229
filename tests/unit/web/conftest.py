"""The web side over a store in memory, with a fixed clock and chance that repeats."""

import itertools
import random
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient
from tests.fakes.memory import MemoryStore

from cupwright.core.analyse.text_columns import TextColumns, columns_of
from cupwright.core.plan.table import Table
from cupwright.core.pour.labels import LabelSheet
from cupwright.core.pour.pour_list import PourLine
from cupwright.core.report.document import Document, Figure
from cupwright.core.rows import Row, Rows
from cupwright.steps.ports import Tools
from cupwright.web.app import make_app
from cupwright.web.settings import Settings

HOME = "http://127.0.0.1:8000"
NOON = datetime(2026, 3, 1, 12, 0, tzinfo=UTC)


class PlainRender:
    """Paper as text."""

    def html(self, document: Document) -> str:
        return f"<!doctype html><title>{len(document.blocks)}</title>"

    def pdf(self, document: Document) -> bytes:
        return b"%PDF-"

    def data(self, document: Document) -> dict[str, Any]:
        return {"title": document.title}

    def labels_pdf(self, labels: LabelSheet, size: str) -> bytes:
        return b"%PDF-"

    def pour_list_pdf(self, table: Table, lines: Sequence[PourLine], size: str) -> bytes:
        return b"%PDF-"

    def paper_sheet_pdf(self, table: Table, size: str) -> bytes:
        return b"%PDF-"

    def figure_svg(self, figure: Figure) -> str:
        return "<svg/>"


class CommaFiles:
    """Rows of a file without quotes."""

    def read(self, data: bytes, file: str) -> Rows:
        lines = [tuple(line.split(",")) for line in data.decode().splitlines()]
        return Rows(file, lines[0], tuple(Row(number, cells) for number, cells in enumerate(lines[1:], 2)))

    def columns(self, data: bytes, file: str) -> TextColumns:
        return columns_of(self.read(data, file))


class NoArchive:
    """No copies."""

    def backup(self, path: Path) -> Path:
        raise NotImplementedError

    def restore(self, path: Path, *, overwrite: bool = False) -> None:
        raise NotImplementedError


class QuickHashes:
    """Hashes that cost nothing."""

    def hash(self, passphrase: str) -> str:
        return f"hash of {passphrase}"

    def fits(self, passphrase: str, slow_hash: str) -> bool:
        return slow_hash == f"hash of {passphrase}"


class Ticks:
    """A clock that a test moves by hand."""

    def __init__(self) -> None:
        self.seconds = 0.0

    def __call__(self) -> float:
        return self.seconds


def make_tools(seed: int = 1) -> Tools:
    ids = itertools.count(1)
    return Tools(
        store=MemoryStore(),
        now=lambda: NOON,
        rng=random.Random(seed),
        new_id=lambda: f"id-{next(ids)}",
        render=PlainRender(),
        archive=NoArchive(),
        spreadsheets=CommaFiles(),
        passphrases=QuickHashes(),
    )


@pytest.fixture
def tools() -> Tools:
    return make_tools()


@pytest.fixture
def ticks() -> Ticks:
    return Ticks()


@pytest.fixture
def static(tmp_path: Path) -> Path:
    """A client as a build leaves it."""
    folder = tmp_path / "static"
    (folder / "assets").mkdir(parents=True)
    (folder / "index.html").write_text("<!doctype html><title>Cupwright</title>")
    (folder / "icon.svg").write_text("<svg xmlns='http://www.w3.org/2000/svg'/>")
    (folder / "assets" / "index-abc123.js").write_text("export {}")
    return folder


@pytest.fixture
def open_house(tools: Tools, ticks: Ticks, static: Path) -> Callable[..., TestClient]:
    """A browser at the door of a server with these settings."""

    def opened(home: str = HOME, **settings: Any) -> TestClient:
        app = make_app(tools, replace(Settings(static=static, ticks=ticks), **settings))
        return TestClient(app, base_url=home, headers={"Origin": home}, raise_server_exceptions=False)

    return opened


@pytest.fixture
def browser(open_house: Callable[..., TestClient]) -> TestClient:
    """The desk's own browser on this machine."""
    return open_house()
