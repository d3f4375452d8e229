"""The command line in this process, over one data folder a test."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from cupwright.cli.joint import Joint
from cupwright.cli.program import main
from cupwright.main import open_tools


@dataclass(frozen=True)
class Answer:
    """What a command said and how it ended."""

    code: int
    out: str
    err: str


def never(*_: object) -> None:
    raise NotImplementedError


@pytest.fixture
def cli(tmp_path: Path, monkeypatch, capsys) -> Callable[..., Answer]:
    """Runs one command; wrong use ends it as it would end the program."""
    monkeypatch.setenv("CUPWRIGHT_DATA", str(tmp_path / "data"))

    def run(*arguments: str) -> Answer:
        try:
            code = main(arguments, Joint(open_tools, never))
        except SystemExit as leaving:
            code = leaving.code
        said = capsys.readouterr()
        return Answer(code, said.out, said.err)

    return run


@pytest.fixture
def table_file(tmp_path: Path) -> Callable[..., str]:
    """A table file; lines given replace or follow the usual ones."""

    def write(*lines: str, coffees: tuple[str, ...] = ("Hill lot 7", "River lot 2")) -> str:
        usual = ['name = "Thursday"', 'tasters = ["Ada", "Ben"]']
        rows = [f'[[coffee]]\nname = "{coffee}"' for coffee in coffees]
        path = tmp_path / "table.toml"
        path.write_text("\n".join([*(lines or usual), *rows]) + "\n", encoding="utf-8")
        return str(path)

    return write
