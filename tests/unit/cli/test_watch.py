"""A progress bar only for those who wait and watch."""

import io
import time

import pytest

from cupwright.cli import watch
from cupwright.cli.watch import Watch


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture
def quick(monkeypatch):
    monkeypatch.setattr(watch, "PATIENCE_S", 0.01)


def test_what_takes_long_is_shown_on_a_terminal(monkeypatch, quick):
    terminal = Terminal()
    monkeypatch.setattr("sys.stderr", terminal)

    with Watch("Reading the notes") as told:
        told(1, 2)
        deadline = time.monotonic() + 30
        while "Reading the notes" not in terminal.getvalue() and time.monotonic() < deadline:
            time.sleep(0.01)
            told(1, 2)

    assert "Reading the notes" in terminal.getvalue()
    assert "50%" in terminal.getvalue()


def test_what_is_done_at_once_is_not_shown(monkeypatch):
    terminal = Terminal()
    monkeypatch.setattr("sys.stderr", terminal)

    with Watch("Reading the notes"):
        pass

    assert terminal.getvalue() == ""


def test_a_file_or_pipe_gets_no_bar(monkeypatch, quick):
    pipe = io.StringIO()
    monkeypatch.setattr("sys.stderr", pipe)

    with Watch("Reading the notes"):
        time.sleep(0.1)

    assert pipe.getvalue() == ""


def test_an_error_inside_passes_through_and_ends_the_bar(monkeypatch, quick):
    monkeypatch.setattr("sys.stderr", Terminal())

    def broken() -> None:
        with Watch("Reading the notes"):
            time.sleep(0.1)
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        broken()
