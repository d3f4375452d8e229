"""All opened tables together, on the command line."""

import json
from itertools import count

import pytest


@pytest.fixture
def imported(cli, tmp_path):
    """Three old tables; Hill lot and River lot stood on each, and one more."""

    def lines(number: int) -> str:
        step = count(number)
        rows = [
            f"{taster},{coffee},plum,{6 + base + 0.5 * (next(step) % 3)}"
            for taster in ("Ada", "Ben", "Cy")
            for base, coffee in enumerate(("Hill lot", "River lot", f"Lot {number}"))
        ]
        return "\n".join(["taster,coffee,note,acidity", *rows])

    for number in range(3):
        file = tmp_path / f"notes{number}.csv"
        file.write_text(lines(number), encoding="utf-8")
        assert cli("import", str(file), "--table", f"Table {number}").code == 0
    return cli


def test_a_season_compares_coffees_that_never_stood_on_one_table(imported):
    said = imported("season").out

    assert "Tables: 3" in said
    assert "How do coffees compare across tables?" in said
    assert "Of 5 coffees on linked tables " in said


def test_the_season_as_data_holds_the_blocks_and_the_means(imported):
    data = json.loads(imported("season", "--json").out)

    assert sum(row["scores"] for row in data["overview"]) == 27
    assert data["title"] == "Season"


def test_columns_stand_beside_the_store_and_give_the_same_again(imported, tmp_path):
    first = imported("season").out

    assert len(list((tmp_path / "data" / "columns").iterdir())) == 1
    assert imported("season").out == first


def test_a_season_without_a_table_is_a_sentence(cli):
    answer = cli("season")

    assert answer.code == 1
    assert "No opened table has a score." in answer.err
