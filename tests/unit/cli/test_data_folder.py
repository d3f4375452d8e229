"""Where the data lie."""

from pathlib import Path

import pytest

from cupwright.cli.data_folder import data_folder


@pytest.fixture(autouse=True)
def plain_environment(monkeypatch):
    for name in ("CUPWRIGHT_DATA", "XDG_DATA_HOME"):
        monkeypatch.delenv(name, raising=False)


def test_what_is_said_on_the_command_line_comes_first(monkeypatch):
    monkeypatch.setenv("CUPWRIGHT_DATA", "/b")

    assert data_folder("/a") == "/a"


def test_then_the_environment(monkeypatch):
    monkeypatch.setenv("CUPWRIGHT_DATA", "/b")

    assert data_folder(None) == "/b"


def test_else_it_is_the_users_own_and_never_the_folder_one_stands_in(monkeypatch, tmp_path):
    monkeypatch.setattr("sys.platform", "linux")
    monkeypatch.setenv("HOME", str(tmp_path))

    assert data_folder(None) == str(tmp_path / ".local" / "share" / "cupwright")


def test_the_demo_keeps_out_of_the_users_own_folder_unless_a_folder_is_named(monkeypatch, tmp_path):
    monkeypatch.setattr("sys.platform", "linux")
    monkeypatch.setenv("HOME", str(tmp_path))

    assert data_folder(None, demo=True) == str(tmp_path / ".local" / "share" / "cupwright-demo")
    assert data_folder("/a", demo=True) == "/a"


def test_the_base_directory_of_the_desktop_standard_is_kept(monkeypatch, tmp_path):
    """XDG Base Directory Specification 0.8: $XDG_DATA_HOME."""
    monkeypatch.setattr("sys.platform", "linux")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))

    assert Path(data_folder(None)) == tmp_path / "cupwright"
