"""Notes read from the command line."""

import io
import json

import pytest
from tests.fakes.values import a_correction

from cupwright.core.taste.joining import Seated
from cupwright.main import open_tools
from cupwright.steps.plan import find_table
from cupwright.steps.words import write_corrections


def test_a_note_is_read_word_by_word(cli):
    answer = cli("read", "no acidity, very sweet; maybe plum on the finish, chocolste")

    assert answer.code == 0
    assert answer.out.splitlines() == [
        "no acidity, very sweet; maybe plum on the finish, chocolste",
        "    acidity    not acidity",
        "    sweet      sweet, very",
        "    plum       plum, not sure, on the finish",
        "    chocolste  chocolate, read with certainty 0.8",
    ]


def test_a_comparison_names_the_other_cup_and_what_was_not_read_is_shown(cli):
    lines = cli("read", "sweeter than B, xyzzy").out.splitlines()

    assert lines[1:] == ["    sweeter  sweet, much, more than B", "    not read: xyzzy"]


def test_as_data_every_note_is_one_object_a_line(cli):
    first, second = map(json.loads, cli("read", "--json", "Plum, xyzzy", "not sweet").out.splitlines())

    assert first == {
        "note": "Plum, xyzzy",
        "words": [
            {
                "concept": "plum",
                "label": "plum",
                "start": 0,
                "end": 4,
                "certainty": 1.0,
                "negated": False,
                "degree": "plain",
                "comparison": "",
                "against": "",
                "hedged": False,
                "stage": "",
            }
        ],
        "unread": ["xyzzy"],
    }
    assert second["words"][0]["negated"] is True


def test_notes_come_from_standard_input_one_a_line(cli, monkeypatch):
    monkeypatch.setattr(
        "sys.stdin", io.TextIOWrapper(io.BytesIO("plum\r\n\nlim\xf3n \xff honey".encode("latin-1")))
    )

    notes = [json.loads(line) for line in cli("read", "--json").out.splitlines()]

    assert [note["note"] for note in notes] == ["plum", "", "lim\ufffdn \ufffd honey"]
    assert [word["concept"] for word in notes[2]["words"]] == ["honey"]


def test_notes_come_from_a_file_one_a_line(cli, tmp_path):
    file = tmp_path / "notes.txt"
    file.write_text("plum\njasmine, silky\n", encoding="utf-8")

    notes = [json.loads(line) for line in cli("read", "--json", "--file", str(file)).out.splitlines()]

    assert [[word["concept"] for word in note["words"]] for note in notes] == [["plum"], ["jasmine", "silky"]]


def test_own_words_are_read_too(cli):
    cli("own-words", "add", "quince soda", "--under", "quince")

    assert "quince soda" in cli("read", "some quince sodas").out.splitlines()[1]


def test_a_note_is_read_as_its_taster_has_corrected_it(cli, table_file, tmp_path):
    cli("plan", table_file())
    with open_tools(str(tmp_path / "data")) as tools:
        table = find_table(tools, "Thursday")
        write_corrections(tools, Seated(table, table.seats[0]), [a_correction(1)])

    plain, corrected = (
        json.loads(cli("read", "grippy", "--json", *who).out) for who in ((), ("--taster", "ada"))
    )

    assert [word["concept"] for word in plain["words"]] == ["astringent"]
    assert [word["concept"] for word in corrected["words"]] == ["drying"]


def test_a_taster_nobody_knows_is_refused(cli):
    answer = cli("read", "plum", "--taster", "Zoe")

    assert (answer.code, answer.out) == (1, "")
    assert "No taster here is called 'Zoe'" in answer.err


def test_a_field_says_which_of_two_meanings_is_meant(cli):
    fruit, colour = (
        cli("read", "orange", "--json").out,
        cli("read", "orange", "--field", "colour", "--json").out,
    )

    assert json.loads(fruit)["words"][0]["concept"] == "orange"
    assert json.loads(colour)["words"][0]["concept"] == "orange_colour"


@pytest.mark.parametrize("note", ["", "\x00", "<script>", "🍋", "x" * 100_000, "\u202e", "\udcff lemon"])
def test_no_note_is_refused(cli, note):
    answer = cli("read", "--json", note)

    assert (answer.code, answer.err) == (0, "")
    assert "words" in json.loads(answer.out)


def test_a_field_that_is_no_family_is_refused(cli):
    answer = cli("read", "plum", "--field", "sound")

    assert (answer.code, answer.out) == (1, "")
    assert "no family 'sound'" in answer.err


def test_a_file_that_is_not_there_or_not_in_utf_8_is_refused(cli, tmp_path):
    file = tmp_path / "notes.txt"
    file.write_bytes(b"plum\nlim\xf3n\n")

    assert cli("read", "--file", str(tmp_path / "none.txt")).code == 1
    assert "line 2" in cli("read", "--file", str(file)).err


def test_notes_and_a_file_together_are_wrong_use(cli, tmp_path):
    assert cli("read", "plum", "--file", str(tmp_path / "notes.txt")).code == 2
