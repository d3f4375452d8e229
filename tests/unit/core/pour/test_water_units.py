"""Amounts of water and their units."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.pour.water_units import (
    EQUIVALENTS,
    PARAMETERS,
    UNITS,
    conversions,
    read_amount,
    to_own_unit,
)
from cupwright.errors import Refused

EVERY_UNIT = [(parameter, unit.name) for parameter in PARAMETERS for unit in UNITS[parameter]]


@pytest.mark.parametrize(
    ("written", "parameter", "own"),
    [
        ("12 °dH", "hardness", 214.176),
        ("12dH", "hardness", 214.176),
        ("8dKH", "alkalinity", 142.784),
        ("8 °dH", "alkalinity", 142.784),
        ("120 mg/L as CaCO3", "hardness", 120.0),
        ("120 ppm CaCO₃", "hardness", 120.0),
        ("40 mg/L Ca2+", "calcium", 99.892),
        ("40 mg/l Ca", "calcium", 99.892),
        ("244 mg/L HCO3-", "alkalinity", 200.119),
        ("4 meq/L", "alkalinity", 200.174),
        ("4 mmol/L HCO3", "alkalinity", 200.174),
        ("2 mmol/L CaCO3", "alkalinity", 200.174),
        ("10 mg/L", "sodium", 10.0),
        ("1 mmol/L", "sodium", 22.98977),
        ("7.2", "ph", 7.2),
    ],
)
def test_amounts_are_read_as_laboratories_print_them(written, parameter, own):
    assert read_amount(written, parameter) == pytest.approx(own, rel=1e-5)


@pytest.mark.parametrize(
    ("written", "parameter", "sentence"),
    [
        ("12", "hardness", "The hardness has no unit."),
        ("12 mg/L", "hardness", "does not say of what: CaCO3 or the ion"),
        ("12 ppm", "calcium", "does not say of what"),
        ("2 mmol/L", "alkalinity", "does not say of what: HCO3 (as of acid) or CaCO3"),
        ("12 dKH", "hardness", "'dKH' is a unit of alkalinity, not of hardness."),
        ("12 mg/L Mg", "calcium", "is a unit of magnesium, not of calcium."),
        ("12 dX", "hardness", "'dX' is not a unit of hardness."),
        ("12 dH 3", "hardness", "mixes two numbers or units"),
        ("12 dH + 3 dH", "hardness", "mixes two numbers or units"),
        ("12 dH, gpg", "hardness", "mixes two numbers or units"),
        ("12,5 dH", "hardness", "mixes two numbers or units"),
        ("-3 dH", "hardness", "cannot be -3"),
        ("nan dH", "hardness", "cannot be nan"),
        ("inf dH", "hardness", "cannot be inf"),
        ("soft", "hardness", "is not a number with a unit"),
        ("7.2 mg/L", "ph", "A pH has no unit"),
        ("10 dH", "sodium", "is a unit of hardness, not of sodium."),
    ],
)
def test_a_unit_that_is_missing_mixed_or_unknown_is_refused_in_one_sentence(written, parameter, sentence):
    with pytest.raises(Refused) as refusal:
        read_amount(written, parameter)

    assert sentence in refusal.value.message
    assert refusal.value.todo
    assert refusal.value.about == parameter


def test_a_misspelt_unit_is_answered_with_the_one_meant():
    with pytest.raises(Refused) as refusal:
        read_amount("12 mg/L CaCO", "hardness")

    assert refusal.value.todo == "Did you mean mg/L CaCO3?"


@pytest.mark.parametrize(("parameter", "unit"), EVERY_UNIT)
@given(value=st.floats(0, 1e4), factor=st.floats(0, 100))
def test_an_amount_in_a_unit_grows_in_proportion(parameter, unit, value, factor):
    assert to_own_unit(value * factor, unit, parameter) == pytest.approx(
        to_own_unit(value, unit, parameter) * factor, rel=1e-12
    )


@given(value=st.floats(0.01, 1e4), factor=st.floats(0.01, 100))
def test_every_unit_grows_in_proportion(value, factor):
    one, other = conversions(value, "dH"), conversions(value * factor, "dH")

    assert all(other[unit] == pytest.approx(one[unit] * factor, rel=1e-9) for unit in one)


def test_a_conversion_holds_every_unit_that_says_of_what_it_is():
    assert list(conversions(1, "dH")) == [
        "mg/L CaCO3",
        "°dH",
        "°f",
        "°Clark",
        "gpg",
        "mmol/L",
        "meq/L",
        "mg/L Ca",
        "mg/L Mg",
        "mg/L HCO3",
    ]


@pytest.mark.parametrize("unit", ["mg/L", "", "ells"])
def test_a_conversion_of_no_hardness_is_refused(unit):
    with pytest.raises(Refused):
        conversions(1, unit)


def test_no_two_units_of_a_parameter_share_a_spelling():
    for parameter in EQUIVALENTS:
        spelled = [name for unit in UNITS[parameter] for name in (unit.name, *unit.also)]
        plain = [name.replace("°", "").replace(" ", "").casefold() for name in spelled]
        owners = {}
        for unit in UNITS[parameter]:
            for name in (unit.name, *unit.also):
                owners.setdefault(name.replace("°", "").replace(" ", "").casefold(), set()).add(unit.name)
        assert all(len(owner) == 1 for owner in owners.values()), plain
