"""The recipe from the command line."""

import json

import pytest


def test_amounts_come_in_both_systems_of_units(cli):
    answer = cli("recipe", "--samples", "4", "--bowls", "3", "--bowl", "7floz", "--ratio", "55g/L")

    assert answer.code == 0
    assert "11.4 g (0.402 oz) a bowl" in answer.out
    assert "12 of 207 mL (7.0 fl oz)" in answer.out
    assert "95 °C (203.0 °F)" in answer.out
    assert "Acidity, body, balance: about 71 °C" in answer.out
    assert "Brim" not in answer.out


def test_the_same_figures_come_as_data(cli):
    found = json.loads(cli("recipe", "--ratio", "18:1", "--altitude", "4900ft", "--json").out)

    assert found["recipe"]["dose_g"] == 11.1
    assert found["recipe"]["boiling"]["boils_c"] == pytest.approx(95.0, abs=0.05)
    assert found["imperial"]["altitude_ft"] == pytest.approx(4900)
    assert found["imperial"]["dose_oz"] == pytest.approx(0.3915, abs=1e-4)
    assert len(found["cooling"]["minutes"]) == len(found["cooling"]["celsius"])
    assert [window["from_c"] for window in found["cooling"]["windows"]] == [71, 71, 38]


def test_a_high_table_boils_as_hot_as_it_can_and_tells_what_was_wished(cli):
    usual = json.loads(cli("recipe", "--altitude", "3000m", "--json").out)
    asked = cli("recipe", "--altitude", "3000m", "--kettle", "95C")

    assert usual["recipe"]["boiling"]["reached_c"] == pytest.approx(89.97, abs=0.01)
    assert asked.code == 0
    assert "boiling, 90.0 °C (194.0 °F) there; 95 °C was wished" in asked.out
    assert "at 3000 m water boils at 90.0 °C" in asked.out


def test_a_full_bowl_and_a_later_start_are_told(cli):
    said = cli("recipe", "--brim", "--taste-from", "55C").out

    assert "8.2 mL less water goes in: 57.4 g/L" in said
    assert "Flavour and aftertaste: about 55 °C" in said
    assert "Caution: The first taste" not in said


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("--bowl", "200"), "has no unit"),
        (("--bowl", "7oz"), "an ounce of weight"),
        (("--bowl", "0ml"), "not above 0"),
        (("--bowl", "-5ml"), "not above 0"),
        (("--altitude", "-3000m"), "altitude is -3000 m; -430 to 5500 m can be planned"),
        (("--ratio", "nan"), "not a number with its unit"),
        (("--kettle", "93"), "has no unit"),
        (("--kettle", "105C"), "70 to 100 °C can be planned"),
        (("--altitude", "9000m"), "altitude is 9000 m; -430 to 5500 m can be planned"),
        (("--vessel", "thimble"), "no vessel"),
        (("--protocol", "thimble"), "no protocol"),
        (("--samples", "0"), "1 sample or more"),
        (("--bowls", "0"), "0 bowls per sample"),
        (("--water-step", "100ml"), "steps of 100 mL"),
        (("--scale-step", "9g"), "step of the scale"),
    ],
)
def test_what_cannot_be_is_one_sentence(cli, arguments: tuple[str, ...], says: str):
    answer = cli("recipe", *arguments)

    assert (answer.code, answer.out) == (1, "")
    assert says in answer.err
    assert answer.err.count("\n") == 1


def test_amounts_given_in_other_units_are_not_printed_with_digits_nobody_measured(cli):
    out = cli("recipe", "--bowl", "7floz", "--room", "72F").out

    assert "207 g on a scale instead" in out
    assert "in a room of 22.2 °C" in out
