"""Water from the command line."""

import json

import pytest

TAP = "tap water: hardness=12dH, alkalinity=8dKH"
TARGET = "hardness=68 mg/L CaCO3, alkalinity=40 mg/L CaCO3"
RECIPES = ("--concentrate", "A: Epsom salt 10 g/L", "--concentrate", "B: baking soda 16.8 g/L")
FILE = """
litres = 4
deionised = true

[target]
hardness = "68 mg/L CaCO3"
alkalinity = "40 mg/L CaCO3"

[[source]]
name = "tap water"
hardness = "12 dH"
alkalinity = "8 dKH"

[[concentrate]]
name = "A"
[concentrate.grams_per_litre]
"Epsom salt" = 10
"""


@pytest.fixture
def water_file(tmp_path):
    def write(text: str = FILE) -> str:
        path = tmp_path / "water.toml"
        path.write_text(text, encoding="utf-8")
        return str(path)

    return write


def test_the_mix_comes_first_in_a_sentence(cli):
    answer = cli("water", "--source", TAP, "--target", TARGET, *RECIPES, "--litres", "4")

    assert answer.code == 0, answer.err
    first, second, *rest = answer.out.splitlines()
    assert first == "For 4 L: 1.121 L of tap water, 2.872 L of deionised water and 7.9 g of concentrate A."
    assert second == "That meets all that was asked."
    assert any("cannot be computed; measure it" in line for line in rest)
    assert any(line.startswith("Caution: Use food-grade salts") for line in rest)


def test_a_file_says_the_same_as_flags(cli, water_file):
    by_flags = cli("water", "--source", TAP, "--target", TARGET, *RECIPES[:2], "--litres", "4", "--json")
    by_file = cli("water", water_file(), "--json")

    assert json.loads(by_file.out) == json.loads(by_flags.out)


def test_flags_go_before_the_file(cli, water_file):
    answer = cli("water", water_file(), "--litres", "0.5")

    first = answer.out.splitlines()[0]
    assert first == "For 500 mL: 140 mL of tap water, 359 mL of deionised water and 1 g of concentrate A."


def test_recipes_can_come_from_a_file_of_their_own(cli, water_file):
    answer = cli("water", "--source", TAP, "--target", TARGET, "--concentrate", water_file(), "--litres", "4")

    assert "7.9 g of concentrate A" in answer.out


def test_what_is_not_known_is_not_said_to_be_met(cli):
    answer = cli("water", "--source", TAP, "--range", "2009", "--litres", "4")

    second = answer.out.splitlines()[1]
    assert second.startswith("That meets what was asked as far as it is known;")
    assert second.endswith("TDS, calcium hardness and sodium could not be held.")


def test_what_cannot_be_reached_is_said_with_what_misses(cli):
    answer = cli("water", "--range", "2009", *RECIPES, "--litres", "2")

    assert answer.code == 0
    assert (
        "What is at hand cannot be mixed to that; this is the nearest: calcium hardness 0 mg/L as CaCO3, "
        "17 below 17 to 85." in answer.out
    )


def test_as_data_nothing_is_rounded_and_both_mixes_are_there(cli):
    data = json.loads(
        cli("water", "--source", TAP, "--target", TARGET, *RECIPES, "--litres", "4", "--json").out
    )

    assert data["feasible"] is True
    assert sum(part["litres"] for part in data["parts"]) == pytest.approx(4, rel=1e-9)
    assert data["parts"][-1]["measured_grams"] == 7.9
    assert data["mix"]["ranges"]["2009"][1]["parameter"] == "calcium"
    assert data["ph_in_air"] == pytest.approx(8.09, abs=0.01)


def test_without_a_target_a_water_is_held_against_both_ranges(cli):
    out = cli("water", "--source", TAP).out

    assert "Against the trade table of 2009:" in out
    assert "  Total hardness: 214 mg/L as CaCO3, 39.2 above 50 to 175." in out.splitlines()


def test_an_analysis_that_cannot_be_true_is_complained_of(cli):
    answer = cli("water", "--source", "hardness=1dH,alkalinity=8dKH")

    assert "! Source water has more alkalinity than hardness" in answer.out


def test_an_amount_is_shown_in_every_unit(cli):
    lines = cli("water", "--units", "68 mg/L CaCO3").out.splitlines()

    assert "°dH         3.81" in lines
    assert "gpg         3.972" in lines
    assert "mg/L Ca     27.23" in lines


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (("--source", "hardness=12"), "The hardness has no unit."),
        (("--source", "hardness=12 mg/L"), "does not say of what"),
        (("--source", "hardness=12dH 3f"), "mixes two numbers or units"),
        (("--source", "hardness=nan dH"), "cannot be nan"),
        (("--source", "sodium=-3 mg/L"), "cannot be -3"),
        (("--source", "hardness"), "is not of the form name=amount"),
        (("--source", "hardnes=12dH"), "Did you mean hardness?"),
        (("--source", "hardness=1dH,hardness=2dH"), "is given twice"),
        (("--source", TAP, "--range", "2009"), "Give --litres"),
        (("--source", TAP, "--range", "2009", "--litres", "0"), "A mix cannot be 0 L."),
        (("--source", TAP, "--range", "2009", "--litres", "-4"), "A mix cannot be -4 L."),
        (("--source", TAP, "--range", "2009", "--litres", "nan"), "A mix cannot be nan L."),
        (("--source", TAP, "--range", "2010", "--litres", "1"), "There is no published range '2010'."),
        (("--source", TAP, "--litres", "1"), "Nothing is wanted of the mix."),
        (("--range", "2009", "--concentrate", "A: Epson salt 10 g/L"), "Did you mean Epsom salt?"),
        (("--range", "2009", "--concentrate", "A:"), "is not a salt with its grams a litre"),
        (("--range", "2009", "--concentrate", "A: Epsom salt 10"), "is not a salt with its grams a litre"),
        (("--range", "2009", "--concentrate", "A: Epsom salt 0 g/L"), "cannot hold 0 g"),
        (("--range", "2009", "--concentrate", "Epsom salt"), "is neither a file nor a recipe"),
        (("--range", "2009", "--concentrate", "away.toml"), "cannot be read"),
        (("--units", "12 mg/L"), "does not say of what"),
        (("--units", "soft"), "is not a number with a unit"),
    ],
)
def test_bad_input_is_refused_in_one_sentence(cli, arguments, sentence):
    answer = cli("water", *arguments)

    assert answer.code == 1
    assert answer.out == ""
    assert sentence in answer.err
    assert len(answer.err.splitlines()) == 1


@pytest.mark.parametrize(
    ("changed", "line"),
    [
        (('"12 dH"', '"12 mg/L"'), 11),
        (('"12 dH"', "12"), 11),
        (('"8 dKH"', "true"), 12),
        (("litres = 4", 'litres = "4"'), 2),
        (("deionised = true", "deionized = true"), 3),
        (('"Epsom salt" = 10', '"Epson salt" = 10'), 16),
        (("[concentrate.grams_per_litre]", "[concentrate.grams]"), 16),
        (('alkalinity = "40 mg/L CaCO3"', 'alkalinity = "40 mg"'), 7),
    ],
)
def test_a_bad_line_of_a_file_is_named(cli, water_file, changed, line):
    answer = cli("water", water_file(FILE.replace(*changed)))

    assert answer.code == 1
    assert f"water.toml, line {line}" in answer.err


def test_nothing_at_all_is_wrong_use(cli):
    assert cli("water").code == 2
