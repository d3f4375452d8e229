"""The guide says what the program does."""

import re
from pathlib import Path

import pytest

GUIDE = (Path(__file__).parents[3] / "docs" / "guide" / "command_line.md").read_text(encoding="utf-8")
NAMED = re.findall(r"^\| `cupwright ([a-z-]+)", GUIDE, re.MULTILINE)


def test_the_guide_lists_the_commands_that_there_are(cli):
    there = re.findall(r"^    ([a-z-]+)(?:\s{2,}\S|$)", cli("--help").out, re.MULTILINE)

    assert sorted(NAMED) == sorted(there)


@pytest.mark.parametrize("row", re.findall(r"^\| `cupwright .*", GUIDE, re.MULTILINE))
def test_every_option_in_the_guide_is_one_of_its_command(cli, row):
    told = cli(row.split("`")[1].split()[1], "--help").out

    for option in re.findall(r"(?<![\w-])(--[a-z-]+|-o\b)", row):
        assert option in told


def test_the_table_file_of_the_guide_can_be_planned(cli, tmp_path):
    file = tmp_path / "thursday.toml"
    file.write_text(re.search(r"```toml\n(.*?)```", GUIDE, re.DOTALL)[1], encoding="utf-8")

    answer = cli("plan", str(file), "--seal")

    assert answer.code == 0, answer.err
    assert "Thursday (pour)" in answer.out


def test_the_table_file_of_the_guide_shows_every_key(cli, tmp_path):
    file = tmp_path / "odd.toml"
    file.write_text('name = "Odd"\nnothing = 1\n', encoding="utf-8")
    keys = re.search(r"The keys are (.*)\.", cli("plan", str(file)).err)[1].split(", ")
    shown = re.search(r"```toml\n(.*?)```", GUIDE, re.DOTALL)[1]

    assert [key for key in keys if not re.search(rf"^(?:\[\[)?{key}\b", shown, re.MULTILINE)] == []
