"""Own words from the command line."""

import json

import pytest


def listed(cli):
    return [one["kept"]["addition"] for one in json.loads(cli("own-words", "list", "--json").out)]


def test_a_concept_and_a_form_are_added_and_listed(cli):
    assert cli("own-words", "add", "quince soda", "--under", "Quinces", "--form", "quince pop").code == 0
    assert cli("own-words", "add", "membrillo paste", "--of", "quince").code == 0

    shown = cli("own-words", "list").out

    assert "a kind of quince" in shown
    assert "a way to write quince" in shown
    assert listed(cli) == [
        {"id": "quince_soda", "label": "quince soda", "parents": ["quince"], "forms": ["quince pop"]},
        {"concept": "quince", "form": "membrillo paste"},
    ]


def test_without_own_words_the_list_says_so(cli):
    assert cli("own-words", "list").out == "There are no own words.\n"


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["quince", "--under", "fruit"], "'quince' already"),
        (["soda", "--under", "xyzzy"], "No word of the lexicon is called 'xyzzy'"),
        (["quince", "--of", "plum"], "a way to write 'quince' already"),
    ],
)
def test_a_word_that_does_not_fit_is_refused_in_a_sentence(cli, arguments, says):
    answer = cli("own-words", "add", *arguments)

    assert (answer.code, answer.out) == (1, "")
    assert says in answer.err
    assert listed(cli) == []


@pytest.mark.parametrize(
    "arguments",
    [
        [],
        ["add", "soda"],
        ["add", "soda", "--of", "plum", "--under", "plum"],
        ["add", "soda", "--of", "plum", "--form", "pop"],
        ["dance"],
    ],
)
def test_wrong_use_is_told_from_a_refusal(cli, arguments):
    assert cli("own-words", *arguments).code == 2


@pytest.mark.parametrize("named", ["QUINCE soda", "id"])
def test_a_word_is_removed_by_what_it_is_called_or_by_its_id(cli, named):
    kept = json.loads(cli("own-words", "add", "quince soda", "--under", "quince", "--json").out)

    answer = cli("own-words", "remove", kept["id"] if named == "id" else named)

    assert (answer.code, answer.out) == (0, "Removed 'quince soda'.\n")
    assert listed(cli) == []


def test_a_word_that_is_not_there_cannot_be_removed(cli):
    answer = cli("own-words", "remove", "quince soda")

    assert answer.code == 1
    assert "no own word 'quince soda'" in answer.err


def test_words_go_out_to_a_file_and_come_in_elsewhere(cli, tmp_path):
    cli("own-words", "add", "quince soda", "--under", "quince")
    file, other = str(tmp_path / "words.toml"), str(tmp_path / "other")
    assert cli("own-words", "export", "-o", file).code == 0

    first = cli("own-words", "import", file, "--data", other, "--json")
    second = cli("own-words", "import", file, "--data", other)

    assert json.loads(first.out) == {"added": 1, "known": 0}
    assert second.out == "0 own words were added; 1 were here already.\n"
    assert cli("own-words", "export", "--data", other).out == (tmp_path / "words.toml").read_text()


def test_a_file_that_is_none_names_itself(cli, tmp_path):
    (tmp_path / "words.toml").write_text("[[concept]]\n")

    answer = cli("own-words", "import", str(tmp_path / "words.toml"))

    assert answer.code == 1
    assert answer.err.startswith("words.toml: [[concept]] 1 has no 'label'.")


def test_own_words_are_part_of_a_backup(cli, tmp_path):
    cli("own-words", "add", "quince soda", "--under", "quince")
    copy, other = str(tmp_path / "copy"), str(tmp_path / "other")
    cli("backup", copy)

    assert cli("restore", copy, "--data", other).code == 0

    assert "quince soda" in cli("own-words", "list", "--data", other).out
