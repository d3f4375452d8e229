"""The key is not opened by a slip of the hand: a terminal is asked first."""

import io
import json

import pytest


class Terminal(io.StringIO):
    """Somebody who types."""

    def isatty(self) -> bool:
        return True


@pytest.fixture
def sealed(cli, table_file):
    cli("plan", table_file(), "--seal")


def step_of(cli) -> str:
    return json.loads(cli("tables", "--json").out)[0]["step"]


def test_at_a_terminal_anything_but_yes_leaves_the_key_closed(cli, sealed, monkeypatch):
    monkeypatch.setattr("sys.stdin", Terminal("no\n"))

    answer = cli("reveal", "Thursday")

    assert answer.code == 1
    assert "Not finished yet: Ada, Ben." in answer.err
    assert "stays closed" in answer.err
    assert step_of(cli) != "reveal"


def test_at_a_terminal_yes_opens_it(cli, sealed, monkeypatch):
    monkeypatch.setattr("sys.stdin", Terminal("yes\n"))

    assert cli("reveal", "Thursday").code == 0
    assert step_of(cli) == "reveal"


def test_an_open_key_is_shown_again_without_asking(cli, sealed, monkeypatch):
    cli("reveal", "Thursday", "--yes")
    monkeypatch.setattr("sys.stdin", Terminal(""))

    assert cli("reveal", "Thursday").code == 0
