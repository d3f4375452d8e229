"""Columns beside the store: what was kept comes back mapped; damage and other states are as nothing."""

from pathlib import Path

import numpy as np
import pytest

from cupwright.core.analyse.scores import scores_of
from cupwright.core.analyse.season_columns import SeasonColumns, TableScores, season_columns
from cupwright.store.columns import FileColumns


@pytest.fixture
def season() -> SeasonColumns:
    scores = scores_of(np.arange(6.0).reshape(3, 2), coffees=("Ä", "B", "C"), tasters=("Ada", "Bo"))
    return season_columns([TableScores("May", "Sheet", {"body": scores}, {})])


def test_what_was_kept_comes_back_mapped_from_its_files(tmp_path: Path, season: SeasonColumns):
    columns = FileColumns(tmp_path)
    columns.keep("one", season)

    found = columns.read("one")

    assert found is not None
    assert isinstance(found.scores.value, np.memmap)
    assert found.scores.value.tolist() == season.scores.value.tolist()
    assert (found.scores.coffees, found.tables) == (("Ä", "B", "C"), ("May",))
    assert found.of("body").value.tolist() == season.of("body").value.tolist()


def test_another_state_is_not_served_and_takes_the_place_of_the_old(tmp_path: Path, season: SeasonColumns):
    columns = FileColumns(tmp_path)
    columns.keep("one", season)
    assert columns.read("two") is None

    columns.keep("two", season)

    assert columns.read("one") is None
    assert columns.read("two") is not None


def test_a_state_that_is_kept_twice_stands(tmp_path: Path, season: SeasonColumns):
    columns = FileColumns(tmp_path)
    columns.keep("one", season)
    columns.keep("one", season)

    assert columns.read("one") is not None
    assert [path.name for path in (tmp_path / "columns").iterdir()] == ["one"]


@pytest.mark.parametrize("name", ["value.npy", "table.npy", "names.json"])
@pytest.mark.parametrize("damage", ["missing", "empty", "other"])
def test_a_damaged_file_is_as_good_as_none(tmp_path: Path, season: SeasonColumns, name: str, damage: str):
    columns = FileColumns(tmp_path)
    columns.keep("one", season)
    path = tmp_path / "columns" / "one" / name
    if damage == "missing":
        path.unlink()
    elif damage == "empty":
        path.write_bytes(b"")
    elif name.endswith(".npy"):
        np.save(path, np.zeros(2))
    else:
        path.write_text('{"coffees": []}')

    assert columns.read("one") is None


def test_numbers_without_a_name_are_damage(tmp_path: Path, season: SeasonColumns):
    columns = FileColumns(tmp_path)
    columns.keep("one", season)
    np.save(tmp_path / "columns" / "one" / "coffee.npy", np.full(6, 3, dtype=np.int32))

    assert columns.read("one") is None


def test_nothing_was_kept_in_a_new_folder(tmp_path: Path):
    assert FileColumns(tmp_path).read("one") is None
