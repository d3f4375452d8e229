"""Kin of words, and two texts side by side, from the command line."""

import json

import pytest


def test_two_words_are_explained(cli):
    answer = cli("kin", "lemons", "Lime")

    assert answer.code == 0
    assert answer.out.startswith("Lemon and lime: near (0.")
    assert "Both belong to citrus." in answer.out


def test_one_word_is_given_its_nearest_kin(cli):
    lines = cli("kin", "dark chocolate").out.splitlines()

    assert lines[0].startswith("kin of dark chocolate")
    assert len(lines) == 11
    assert any(line.startswith("cocoa") for line in lines)


def test_kin_as_data(cli):
    pair = json.loads(cli("kin", "lemon", "lime", "--json").out)
    nearest = json.loads(cli("kin", "lemon", "--json").out)

    assert (pair["a"], pair["b"]) == (["lemon"], ["lime"])
    assert 0.5 < pair["kinship"] < 1
    assert nearest["concepts"] == ["lemon"]
    assert nearest["kin"][0]["kinship"] >= nearest["kin"][-1]["kinship"]
    assert all(one["why"] for one in nearest["kin"])


def test_a_phrase_of_several_words_has_kin_too(cli):
    near = cli("kin", "quince jelly", "poached quince")
    far = cli("kin", "quince jelly", "smoke")

    assert near.code == far.code == 0
    assert "very near" in near.out
    assert "strangers" in far.out
    assert cli("kin", "quince jelly").out.startswith("kin of quince with fruit jelly")


def test_a_word_of_ones_own_has_kin_too(cli):
    cli("own-words", "add", "quince soda", "--under", "quince")

    assert "belongs to quince" in cli("kin", "quince soda", "quince").out


def test_a_word_nobody_knows_is_refused(cli):
    answer = cli("kin", "xyzzy")

    assert (answer.code, answer.out) == (1, "")
    assert "No word of the lexicon is called 'xyzzy'" in answer.err


def test_two_texts_are_laid_side_by_side(cli):
    answer = cli("match", "--mine", "lemon, dark chocolate, thin", "--theirs", "lemon, cocoa and jasmine")

    assert answer.code == 0
    assert answer.out.splitlines()[0] == "shared  lemon"
    assert "dark chocolate ~ cocoa" in answer.out
    assert "missed  jasmine" in answer.out
    assert "own     thin" in answer.out


def test_a_match_as_data(cli):
    matched = json.loads(cli("match", "--mine", "lemon", "--theirs", "lemon", "--json").out)

    assert matched == {"shared": ["lemon"], "near": [], "missed": [], "own": [], "score": 1.0}


@pytest.mark.parametrize("arguments", [["kin"], ["match", "--mine", "lemon"], ["kin", "a", "b", "c"]])
def test_wrong_use_is_told_from_a_refusal(cli, arguments):
    assert cli(*arguments).code == 2
