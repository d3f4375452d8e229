"""An analysis of water, and whether it can be true."""

import pytest

from cupwright.core.pour.water import (
    DEIONISED,
    Water,
    analysis,
    complaints,
    ion_balance,
    parameter_called,
    read_analysis,
    sum_of_ions,
)
from cupwright.core.pour.water_units import PARAMETERS
from cupwright.errors import Refused

# Charges and masses of this one meet: 2.0 + 0.5 + 0.5 meq/L against 2.0 + 0.6 + 0.4.
SOUND = {
    "calcium": "2 meq/L",
    "magnesium": "0.5 meq/L",
    "sodium": "0.5 meq/L",
    "alkalinity": "2 meq/L",
    "chloride": "0.6 meq/L",
    "sulphate": "0.4 meq/L",
}


def water(**changed: str) -> Water:
    return read_analysis("tap water", SOUND | changed)


def test_a_sound_analysis_is_not_complained_of():
    assert complaints(water(tds="215 mg/L")) == ()


def test_total_hardness_is_the_sum_of_its_parts():
    assert water().hardness == pytest.approx(2.5 * 50.0435, rel=1e-5)


def test_a_total_and_one_part_give_the_other():
    found = read_analysis("tap", {"hardness": "10 °dH", "calcium": "8 °dH"})

    assert found.magnesium == pytest.approx(2 * 17.848, rel=1e-5)


def test_a_total_alone_leaves_the_split_unknown():
    found = read_analysis("tap", {"hardness": "10 °dH"})

    assert found.calcium is None
    assert found.magnesium is None


def test_more_calcium_than_hardness_is_refused():
    with pytest.raises(Refused, match="more than its hardness"):
        read_analysis("tap", {"hardness": "5 °dH", "calcium": "8 °dH"})


def test_charges_that_do_not_balance_are_complained_of():
    found = complaints(water(chloride="0.1 mg/L", sulphate="0.1 mg/L"))

    assert len(found) == 1
    assert "do not balance: 3.00 meq/L are positive and 2.00 negative" in found[0]


def test_a_negative_excess_is_complained_of_too():
    assert "so a positive ion is missing" in complaints(water(chloride="100 mg/L"))[0]


def test_an_excess_that_an_ion_not_given_could_carry_is_not_complained_of():
    given = {key: text for key, text in SOUND.items() if key not in {"chloride", "sulphate"}}

    assert complaints(read_analysis("tap", given)) == ()


def test_ions_of_a_water_with_an_unknown_split_balance_all_the_same():
    given = {"hardness": "2.5 meq/L"} | {k: v for k, v in SOUND.items() if k not in {"calcium", "magnesium"}}

    balance = ion_balance(read_analysis("tap", given))

    assert (balance.cations, balance.anions) == pytest.approx((3.0, 3.0))
    assert balance.missing_cations == balance.missing_anions == ()


def test_a_tds_below_the_ions_is_complained_of():
    assert "its ions alone make" in complaints(water(tds="60 mg/L"))[0]


def test_a_tds_far_above_all_ions_is_complained_of():
    assert "its ions make only" in complaints(water(tds="500 mg/L"))[0]


def test_a_total_that_its_parts_do_not_make_is_complained_of():
    assert "its hardness is given as 300" in complaints(water(hardness="300 mg/L CaCO3"))[0]


def test_more_alkalinity_than_hardness_without_sodium_is_complained_of():
    found = read_analysis("well water", {"hardness": "1 °dH", "alkalinity": "8 °dKH"})

    assert complaints(found)[0].startswith("Well water has more alkalinity than hardness")


def test_the_sum_of_ions_lies_between_dried_and_dissolved():
    least, most = sum_of_ions(analysis("soda", {"alkalinity": 50.0435, "sodium": 22.99}))

    # 1 mmol/L of sodium bicarbonate: 84.0 mg dissolved; dried it is half a millimole of carbonate, 53.0 mg.
    assert most == pytest.approx(84.007, abs=0.01)
    assert least == pytest.approx(105.988 / 2, abs=0.01)


def test_deionised_water_holds_nothing_and_its_ph_is_not_known():
    assert DEIONISED.ph is None
    assert {DEIONISED.of(parameter) for parameter in PARAMETERS if parameter != "ph"} == {0.0}


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -1.0, 2e5])
def test_an_amount_that_cannot_be_is_refused(value):
    with pytest.raises(Refused) as refusal:
        analysis("tap", {"sodium": value})

    assert refusal.value.about == "sodium"


def test_a_ph_above_14_is_refused():
    with pytest.raises(Refused, match="The pH of tap cannot be 15"):
        analysis("tap", {"ph": 15.0})


def test_an_analysis_of_nothing_is_refused():
    with pytest.raises(Refused, match="holds nothing"):
        analysis("tap", {})


@pytest.mark.parametrize(
    ("written", "parameter"),
    [
        ("Ca", "calcium"),
        ("KH", "alkalinity"),
        ("Total_Hardness", "hardness"),
        ("pH", "ph"),
        ("sulfate", "sulphate"),
    ],
)
def test_parameters_are_known_by_the_names_on_labels(written, parameter):
    assert parameter_called(written) == parameter


def test_a_misspelt_parameter_is_answered_with_the_one_meant():
    with pytest.raises(Refused) as refusal:
        parameter_called("hardnes")

    assert refusal.value.todo == "Did you mean hardness?"


def test_one_parameter_under_two_names_is_refused():
    with pytest.raises(Refused, match="'calcium' is given twice"):
        read_analysis("tap", {"Ca": "40 mg/L Ca", "calcium": "40 mg/L Ca"})
