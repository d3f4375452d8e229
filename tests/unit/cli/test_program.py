"""Exit codes, help, and what is never shown."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from cupwright.cli.joint import Joint
from cupwright.cli.program import main

COMMANDS = (
    *("serve", "coffees", "plan", "tables", "brief", "sheets", "seal", "pour-list", "labels"),
    *("paper", "reveal", "report", "import", "backup", "restore"),
)


def test_help_lists_every_command(cli):
    answer = cli("--help")

    assert answer.code == 0
    for command in COMMANDS:
        assert re.search(rf"^    {command}\b", answer.out, re.MULTILINE), command


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help_and_takes_a_data_folder(cli, command):
    answer = cli(command, "--help")

    assert answer.code == 0
    assert "--data" in answer.out


@pytest.mark.parametrize(
    "arguments",
    [
        (),
        ("brew",),
        ("plan",),
        ("report", "Thursday"),
        ("report", "Thursday", "-o", "report.docx"),
        ("reveal", "Thursday", "--placing", "421"),
        ("reveal", "Thursday", "--placing", "1=421", "--placing", "1=422"),
        ("serve", "--port", "70000"),
        ("serve", "--host", "0.0.0.0"),
        ("tables", "--jason"),
    ],
)
def test_wrong_use_ends_with_2_and_says_what_is_wrong(cli, arguments):
    answer = cli(*arguments)

    assert answer.code == 2
    assert "error: " in answer.err
    assert answer.out == ""


def test_refused_input_ends_with_1_and_one_sentence(cli):
    answer = cli("report", "Nowhere", "--json")

    assert answer.code == 1
    assert answer.out == ""
    assert answer.err == "There is no table 'Nowhere'. 'cupwright tables' lists those that are there.\n"


def test_a_fault_of_our_own_is_one_sentence_and_its_details_are_in_a_file(capsys):
    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError("the secret of the fault")

    code = main(["tables"], Joint(broken, broken))

    said = capsys.readouterr()
    assert code == 1
    assert "the secret of the fault" not in said.err
    name = re.search(r"the details are in (.+)\.\n$", said.err)[1]
    assert "the secret of the fault" in Path(name).read_text()
    Path(name).unlink()


def test_a_reader_who_had_enough_is_no_fault(tmp_path):
    reading, writing = os.pipe()
    os.close(reading)
    start = "from cupwright.main import run; run()"

    done = subprocess.run(
        [sys.executable, "-c", start, "coffees", "--data", str(tmp_path / "data"), "--json"],
        stdout=writing,
        stderr=subprocess.PIPE,
        check=False,
    )

    os.close(writing)
    assert (done.returncode, done.stderr) == (0, b"")


def test_the_version_is_told(cli):
    assert cli("--version").out.startswith("cupwright 0.")
