"""Backup: the steps hand on to the archive what was asked for."""

from pathlib import Path

import pytest
from tests.fakes.tools import bench

from cupwright.errors import Clash
from cupwright.steps.backup import backup, restore


def test_a_copy_is_made_once_under_a_name() -> None:
    on = bench()

    assert backup(on.tools, Path("monday.copy")) == Path("monday.copy")
    with pytest.raises(Clash):
        backup(on.tools, Path("monday.copy"))

    assert on.archive.copies == [Path("monday.copy")]


def test_a_copy_replaces_something_only_if_that_was_asked_for() -> None:
    on = bench()

    restore(on.tools, Path("monday.copy"))
    restore(on.tools, Path("monday.copy"), overwrite=True)

    assert on.archive.restored == [(Path("monday.copy"), False), (Path("monday.copy"), True)]
