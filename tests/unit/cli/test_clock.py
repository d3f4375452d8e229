"""`cupwright clock`: the schedule as text, as data and as a calendar."""

import json
from pathlib import Path

import pytest
from tests.reference.ical_reader import moment, parsed


def test_the_schedule_of_any_hands_is_printed(cli):
    answer = cli("clock", "--bowls", "8", "--people", "2", "--start", "14:00")

    assert answer.code == 0, answer.err
    lines = answer.out.splitlines()
    assert lines[0].split() == ["at", "o'clock", "person", "act", "bowl"]
    assert lines[1].split() == ["0:00", "14:00:00", "1", "pour", "bowl", "1"]
    assert lines[-3:] == [
        "First taste from 8:00.",
        "Every bowl steeps 4:00.",
        "These hands can keep 24 bowls of one flight.",
    ]


def test_hands_that_cannot_keep_it_are_refused_in_a_sentence(cli):
    answer = cli("clock", "--bowls", "20", "--people", "1", "--pour-s", "15")

    assert (answer.code, answer.out) == (1, "")
    assert answer.err.strip() == (
        "One person can keep 12 bowls of one flight within the protocol's times, and 20 bowls need 2 people. "
        "Let more people help, or pour in smaller flights."
    )


def test_numbers_come_as_data_too(cli):
    said = json.loads(cli("clock", "--flights", "3,3", "--start", "2026-11-30 14:00", "--json").out)

    assert said["start"] == "2026-11-30T14:00"
    assert [flight["after"] for flight in said["schedule"]["flights"]] == [3, 6]
    assert said["largest"] == 12


def test_a_table_goes_by_its_plan_unless_told_otherwise(cli, table_file):
    cli("plan", table_file())

    said = json.loads(cli("clock", "Thursday", "--json").out)
    slow = json.loads(cli("clock", "Thursday", "--pour-s", "60", "--json").out)

    assert said["name"] == "Thursday"
    assert len(said["bowls"]) == 2
    assert [act["end_s"] for act in said["schedule"]["acts"] if act["kind"] == "pour"] == [15, 30]
    assert [act["end_s"] for act in slow["schedule"]["acts"] if act["kind"] == "pour"] == [60, 120]


def test_a_calendar_is_written_in_floating_time(cli, tmp_path: Path):
    file = tmp_path / "pour.ics"

    answer = cli("clock", "--bowls", "3", "--start", "2026-11-30 14:00", "--ics", str(file))

    assert answer.code == 0, answer.err
    first = moment(parsed(file.read_bytes()).inside[0].one("DTSTART"))
    assert (first.isoformat(), first.tzinfo) == ("2026-11-30T14:00:00", None)


def test_other_protocols_have_other_acts(cli):
    said = json.loads(cli("clock", "--bowls", "3", "--protocol", "brew", "--json").out)

    assert {act["kind"] for act in said["schedule"]["acts"]} == {"pour"}
    assert cli("clock", "--bowls", "3", "--protocol", "nobody's").code == 1


@pytest.mark.parametrize("start", ["noon", "25:00", "2026-13-01 10:00", "14.00", "", " "])
def test_a_start_that_is_no_time_is_refused(cli, start: str):
    answer = cli("clock", "--bowls", "3", "--start", start or "-")

    assert answer.code == 1
    assert "is no time of day" in answer.err


@pytest.mark.parametrize(
    "arguments",
    [
        [],
        ["--bowls", "3", "--flights", "3"],
        ["Thursday", "--bowls", "3"],
        ["--bowls", "3", "--ics", "x.ics"],
        ["--bowls", "three"],
        ["--flights", "3,x"],
    ],
)
def test_wrong_use_is_told_apart(cli, arguments: list[str]):
    assert cli("clock", *arguments).code == 2


@pytest.mark.parametrize(
    "arguments",
    [
        ["--bowls", "0"],
        ["--bowls", "-3"],
        ["--bowls", "3", "--people", "0"],
        ["--bowls", "3", "--pour-s", "nan"],
        ["--bowls", "3", "--skim-s", "-1"],
        ["--bowls", "10000"],
        ["--bowls", "3", "--people", "1000"],
    ],
)
def test_numbers_that_cannot_be_are_refused_in_one_sentence(cli, arguments: list[str]):
    answer = cli("clock", *arguments)

    assert answer.code == 1
    assert len(answer.err.strip().splitlines()) == 1


@pytest.mark.parametrize(
    ("told", "said"),
    [
        (("--flights", "a,b"), "'a,b' does not say bowls by flight, such as 8,8"),
        (("--bowls", "5", "--flights", "3,2"), "give one of the three: a TABLE, --bowls or --flights"),
        (("--bowls", "2.5"), "'2.5' is not a whole number, such as 8"),
        (("--bowls", "3", "--pour-s", "fast"), "'fast' is not a number, such as 8 or 0.5"),
    ],
)
def test_wrong_use_is_told_in_words_and_not_in_those_of_the_code(cli, told: tuple[str, ...], said: str):
    answer = cli("clock", *told)

    assert (answer.code, answer.out) == (2, "")
    assert said in answer.err


def test_no_bowls_at_all_are_refused_as_such(cli):
    assert (
        cli("clock", "--bowls", "0").err.strip()
        == "A flight cannot have 0 bowls. Give each flight 1 bowl or more."
    )
