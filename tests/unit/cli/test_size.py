"""Sizes from the command line."""

import json

import pytest


def test_a_size_is_told_in_sentences_first(cli):
    answer = cli("size", "triangle", "--power", "0.9", "--discriminators", "0.3")

    assert answer.code == 0
    assert answer.out.startswith("53 tasters are the fewest with whom a triangle test finds the difference")
    assert "from 57 tasters on every number does." in answer.out


def test_a_size_as_data(cli):
    told = json.loads(cli("size", "triangle", "--dprime", "1", "--power", "0.8", "--json").out)

    assert (told["first"]["tasters"], told["lasting"]["tasters"]) == (202, 220)
    assert told["effect"]["share"] == pytest.approx(0.41804667, abs=1e-8)
    assert told["sentences"][0].startswith("202 tasters")


def test_a_result_is_told_how_sure_it_is(cli):
    answer = cli("size", "triangle", "--right", "15", "--of", "30")

    assert answer.code == 0
    assert "(p = 0.0435)" in answer.out


def test_a_number_of_tasters_alone_gives_the_count_that_shows_a_difference(cli):
    assert "Of 20, 15 right answers or more show a difference" in cli("size", "duo-trio", "--of", "20").out


def test_a_difference_in_points_gives_a_table_after_the_sentences(cli):
    answer = cli("size", "difference", "--points", "1", "--taster-sd", "0.5", "--residual-sd", "1")

    assert answer.code == 0
    assert "assumptions" not in answer.out
    rows = answer.out.split("\n\n")[1].splitlines()
    assert rows[0].split() == ["bowls", "of", "each", "tasters", "power"]
    assert [row.split()[0] for row in rows[1:]] == ["1", "2", "3", "4", "5"]


def test_a_difference_as_data_holds_what_the_panel_can_do(cli):
    told = json.loads(
        cli("size", "difference", "--points", "1", "--tasters", "8", "--bowls", "3", "--json").out
    )

    assert told["reach"]["repeats"] == 3
    assert told["assumed_spread"] is True


def test_a_simulation_is_told_and_given_as_data(cli):
    asked = ("size", "simulate", "--points", "2", "--tasters", "8", "--coffees", "5", "--samples-each", "3")

    assert "8 tasters, 3 of 5 coffees each" in cli(*asked, "--draws", "200").out
    told = json.loads(cli(*asked, "--draws", "200", "--step", "0.25", "--lost", "0.1", "--json").out)
    assert (told["draws"], told["seed"], told["design"]["lost"]) == (200, 1, 0.1)


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (("triangle", "--dprime", "-1"), "A distance d' of -1 is not a number from 0 upwards."),
        (("triangle", "--dprime", "nan"), "A distance d' of nan is not"),
        (
            ("triangle", "--discriminators", "1.3"),
            "A share of tasters who can tell of 1.3 is not between 0 and 1.",
        ),
        (("triangle", "--dprime", "1", "--power", "1"), "A power of 1 is not between 0 and 1."),
        (("2-afc", "--right", "31", "--of", "30"), "31 right of 30 is not a result."),
        (("2-afc", "--of", "0"), "0 is not a number of answers between 1 and 100,000."),
        (("difference", "--points", "nan"), "A difference of nan points is none that can be found."),
        (("difference", "--points", "1", "--taster-sd", "-1"), "A spread of -1 points, taster by coffee,"),
        (("difference", "--points", "1", "--tasters", "0"), "0 is not a number of tasters between 2"),
        (("simulate", "--points", "1", "--tasters", "8", "--lost", "1"), "A share of 1 of lost scores"),
    ],
)
def test_what_makes_no_sense_is_refused_in_one_sentence(cli, arguments, sentence):
    answer = cli("size", *arguments)

    assert (answer.code, answer.out) == (1, "")
    assert answer.err.startswith(sentence)
    assert answer.err.count("\n") == 1


@pytest.mark.parametrize(
    "arguments",
    [
        ("triangle",),
        ("triangle", "--right", "15"),
        ("triangle", "--right", "15", "--of", "30", "--dprime", "1"),
        ("triangle", "--dprime", "1", "--discriminators", "0.3"),
        ("triangle", "--dprime", "one"),
        ("pentagon", "--dprime", "1"),
        ("difference",),
    ],
)
def test_a_question_that_is_half_asked_is_wrong_use(cli, arguments):
    assert cli("size", *arguments).code == 2
