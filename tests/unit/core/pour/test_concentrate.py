"""Mineral concentrates by recipe."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.pour.concentrate import (
    SALTS,
    cautions_for,
    concentrate,
    concentrate_complaints,
    salt_called,
)
from cupwright.core.pour.water import ion_balance
from cupwright.errors import Refused


def test_ions_of_a_recipe_are_its_grams_over_the_molar_mass():
    made = concentrate("A", {"Epsom salt": 24.647})  # a tenth of a mole in a litre

    # 0.1 mmol a millilitre
    assert made.per_ml.magnesium == pytest.approx(10.00869, rel=1e-4)
    assert made.per_ml.hardness == made.per_ml.magnesium
    assert made.per_ml.sulphate == pytest.approx(9.6063, rel=1e-4)
    assert made.per_ml.alkalinity == 0


def test_bicarbonate_is_alkalinity():
    made = concentrate("B", {"baking soda": 8.4007})

    assert made.per_ml.alkalinity == pytest.approx(5.0043, rel=1e-4)
    assert made.per_ml.sodium == pytest.approx(2.29898, rel=1e-4)


def test_two_salts_add_up():
    both = concentrate("AB", {"Epsom salt": 10, "potassium chloride": 5})
    one, other = concentrate("A", {"Epsom salt": 10}), concentrate("B", {"potassium chloride": 5})

    assert both.per_ml.tds == pytest.approx(one.per_ml.tds + other.per_ml.tds)
    assert both.salt_g == 15


def test_a_millilitre_weighs_its_share_of_water_and_salts():
    assert concentrate("A", {"Epsom salt": 10}).g_per_ml == pytest.approx(1.0082)


@given(salt=st.sampled_from(SALTS), grams=st.floats(1e-6, 2))
def test_the_charges_of_every_salt_cancel(salt, grams):
    balance = ion_balance(concentrate("A", {salt.name: grams}).per_ml)

    assert balance.cations == pytest.approx(balance.anions, rel=1e-12)


@given(grams=st.floats(0.001, 300), factor=st.floats(0.01, 2))
def test_ions_grow_in_proportion_to_grams(grams, factor):
    one, other = concentrate("A", {"Epsom salt": grams}), concentrate("A", {"Epsom salt": grams * factor})

    assert other.per_ml.magnesium == pytest.approx(one.per_ml.magnesium * factor, rel=1e-9)


@pytest.mark.parametrize(
    ("written", "formula"),
    [
        ("epsom salt", "MgSO4·7H2O"),
        ("MgSO4·7H2O", "MgSO4·7H2O"),
        ("magnesium sulfate heptahydrate", "MgSO4·7H2O"),
        ("Sodium Bicarbonate", "NaHCO3"),
        ("calcium chloride anhydrous", "CaCl2"),
    ],
)
def test_salts_are_known_by_name_and_formula(written, formula):
    assert salt_called(written).formula == formula


@pytest.mark.parametrize(
    "written", ["magnesium sulphate", "MgSO4", "calcium chloride", "CaCl2", "magnesium chloride"]
)
def test_a_name_that_leaves_the_crystal_water_open_is_refused(written):
    with pytest.raises(Refused, match="does not say how much water its crystals hold"):
        salt_called(written)


def test_a_misspelt_salt_is_answered_with_the_one_meant():
    with pytest.raises(Refused) as refusal:
        salt_called("Epson salt")

    assert refusal.value.todo == "Did you mean Epsom salt?"


@pytest.mark.parametrize(
    ("salts", "sentence"),
    [
        ({}, "holds no salt"),
        ({"Epsom salt": 0}, "cannot hold 0 g"),
        ({"Epsom salt": -1}, "cannot hold -1 g"),
        ({"Epsom salt": float("nan")}, "cannot hold nan g"),
        ({"baking soda": 200}, "do not dissolve"),
        ({"baking soda": 1, "NaHCO3": 1}, "names a salt twice"),
        ({"unobtainium": 1}, "There is no salt 'unobtainium'"),
    ],
)
def test_a_recipe_that_cannot_be_is_refused(salts, sentence):
    with pytest.raises(Refused) as refusal:
        concentrate("A", salts)

    assert sentence in refusal.value.message


def test_salts_that_settle_together_are_complained_of():
    chalk = concentrate("A", {"calcium chloride dihydrate": 5, "baking soda": 5})
    gypsum = concentrate("B", {"calcium chloride dihydrate": 5, "Epsom salt": 5})

    assert "settle as chalk in concentrate A" in concentrate_complaints(chalk)[0]
    assert "settle as gypsum in concentrate B" in concentrate_complaints(gypsum)[0]
    assert concentrate_complaints(concentrate("C", {"Epsom salt": 5})) == ()


def test_cautions_come_with_concentrates_only():
    mild, hot = concentrate("A", {"Epsom salt": 5}), concentrate("B", {"calcium chloride, anhydrous": 5})

    assert cautions_for(()) == ()
    assert len(cautions_for((mild,))) == 2
    assert "heats water" in cautions_for((mild, hot))[-1]
