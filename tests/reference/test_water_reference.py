"""Water against published factors, tables and textbook values."""

import pytest

from cupwright.core.pour.concentrate import SALTS, concentrate, salt_called
from cupwright.core.pour.molar_masses import ATOMIC_WEIGHTS, CALCIUM_CARBONATE
from cupwright.core.pour.water import analysis
from cupwright.core.pour.water_ph import ph_in_air
from cupwright.core.pour.water_ranges import RANGES, Verdict, judged
from cupwright.core.pour.water_units import conversions, read_amount, to_own_unit


@pytest.mark.parametrize(
    ("unit", "printed"), [("dH", 17.9), ("f", 10.0), ("Clark", 14.3), ("gpg", 17.1), ("meq/L", 50.0)]
)
def test_factors_are_those_of_the_makers_table(unit, printed):
    """Hach, table of hardness factors (web page): mg/L as CaCO3 of one unit, one printed decimal.

    17.9 for the degree is as printed; from its definition, 10 mg/L CaO, it is 17.85, hence the tolerance.
    """
    assert to_own_unit(1, unit, "hardness") == pytest.approx(printed, abs=0.06)


@pytest.mark.parametrize(
    ("unit", "digits"),
    [
        ("dH", 17.848),
        ("f", 10.0),
        ("Clark", 14.254),
        ("gpg", 17.118),
        ("mmol/L", 100.0869),
        ("meq/L", 50.0435),
    ],
)
def test_factors_have_the_digits_that_their_definitions_give(unit, digits):
    """Calculator pages for the further digits, by hand from the definitions.

    10 mg/L CaO; the grain of 64.79891 mg in a US gallon of 3.785411784 L or an imperial gallon of 4.54609 L.
    """
    assert to_own_unit(1, unit, "hardness") == pytest.approx(digits, rel=5e-5)


@pytest.mark.parametrize(
    ("unit", "value"), [("°dH", 3.810), ("°f", 6.80), ("gpg", 3.972), ("mg/L Ca", 27.23)]
)
def test_the_calcium_of_the_trade_table_in_other_units(unit, value):
    """68 mg/L as CaCO3, the target of [SCAA-water-2009]; by hand with the factors above."""
    assert conversions(68, "mg/L CaCO3")[unit] == pytest.approx(value, rel=2e-4)


@pytest.mark.parametrize(("unit", "value"), [("meq/L", 0.799), ("°dKH", 2.241), ("mg/L HCO3", 48.77)])
def test_the_alkalinity_of_the_trade_table_in_other_units(unit, value):
    """40 mg/L as CaCO3, the target of [SCAA-water-2009]; by hand with the factors above."""
    assert to_own_unit(value, unit, "alkalinity") == pytest.approx(40, rel=5e-4)


def test_a_millimole_is_so_many_degrees():
    """Hach's table and 1 °dH = 10 mg/L CaO: 1 mmol/L = 5.6077 °dH."""
    assert conversions(1, "mmol/L")["°dH"] == pytest.approx(5.6077, abs=1e-4)


def test_the_four_grains_of_the_trade_table_are_its_target():
    """[SCAA-water-2009]: 68 mg/L is printed as 4 grains, 17 to 85 as 1 to 5 grains; whole milligrams."""
    for grains, printed in ((1, 17), (4, 68), (5, 85)):
        assert to_own_unit(grains, "gpg", "hardness") == pytest.approx(printed, abs=0.6)


def test_the_wrong_factors_of_a_web_table_are_not_ours():
    """A stored page prints 1 °dH = 10 mg/L and 1 gpg = 17.848 mg/L as CaCO3: the rows above them."""
    assert to_own_unit(1, "dH", "hardness") != pytest.approx(10, rel=0.5)
    assert to_own_unit(1, "gpg", "hardness") != pytest.approx(17.848, rel=0.01)


@pytest.mark.parametrize(
    ("parameter", "target", "low", "high"),
    [("tds", 150, 75, 250), ("calcium", 68, 17, 85), ("ph", 7.0, 6.5, 7.5), ("chlorine", 0, 0, 0)],
)
def test_the_bands_of_2009_are_the_printed_ones(parameter, target, low, high):
    """SCAA, "Water Standards" (web page): target and range of each parameter."""
    band = next(band for band in RANGES["2009"].bands if band.parameter == parameter)

    assert (band.target, band.low, band.high, band.published) == (target, low, high, True)


@pytest.mark.parametrize(("parameter", "target"), [("alkalinity", 40), ("sodium", 10)])
def test_at_or_near_is_kept_as_a_target_without_a_printed_band(parameter, target):
    """SCAA, "Water Standards": alkalinity at or near 40 mg/L, sodium at or near 10 mg/L."""
    band = next(band for band in RANGES["2009"].bands if band.parameter == parameter)

    assert band.target == target
    assert not band.published


@pytest.mark.parametrize(
    ("parameter", "low", "high"), [("hardness", 50, 175), ("alkalinity", 40, 70), ("ph", 6, 8)]
)
def test_the_bands_of_the_newer_chart_are_the_printed_ones(parameter, low, high):
    """Two pages that show the newer trade chart: hardness 50 to 175, alkalinity 40 to 70, pH 6 to 8."""
    band = next(band for band in RANGES["newer"].bands if band.parameter == parameter)

    assert (band.low, band.high) == (low, high)


@pytest.mark.parametrize(
    ("inside", "values"),
    [
        (True, {"tds": 75, "calcium": 17, "ph": 6.5, "chlorine": 0}),
        (True, {"tds": 250, "calcium": 85, "ph": 7.5, "chlorine": 0}),
        (False, {"tds": 74, "calcium": 16, "ph": 6.4, "chlorine": 0.1}),
        (False, {"tds": 251, "calcium": 86, "ph": 7.6, "chlorine": 0.1}),
    ],
)
def test_the_ends_of_the_bands_are_inside_and_what_lies_beyond_is_outside(inside, values):
    """SCAA, "Water Standards": TDS 75 to 250, calcium hardness 17 to 85, pH 6.5 to 7.5, chlorine 0."""
    found = [
        one for one in judged(analysis("tap", values), RANGES["2009"]) if one.verdict is not Verdict.UNKNOWN
    ]

    assert len(found) == 4
    assert {one.verdict is Verdict.INSIDE for one in found} == {inside}


# CIAAW, standard atomic weights 2021 (Pure Appl. Chem. 94:573, 2022), from memory: the interval, or value and
# uncertainty, within which a normal material lies.
CIAAW_2021 = {
    "H": (1.00784, 1.00811),
    "C": (12.0096, 12.0116),
    "N": (14.00643, 14.00728),
    "O": (15.99903, 15.99977),
    "Na": (22.98976926, 22.98976930),
    "Mg": (24.304, 24.307),
    "S": (32.059, 32.076),
    "Cl": (35.446, 35.457),
    "K": (39.0982, 39.0984),
    "Ca": (40.074, 40.082),
}


@pytest.mark.parametrize("element", ATOMIC_WEIGHTS)
def test_atomic_weights_lie_within_the_present_standard(element):
    """[CIAAW2021], from memory."""
    low, high = CIAAW_2021[element]

    assert low <= ATOMIC_WEIGHTS[element] <= high


@pytest.mark.parametrize(
    ("name", "printed"),
    [
        ("Epsom salt", 246.47),
        ("magnesium sulphate, anhydrous", 120.37),
        ("magnesium chloride hexahydrate", 203.30),
        ("calcium chloride, anhydrous", 110.98),
        ("calcium chloride dihydrate", 147.01),
        ("calcium sulphate dihydrate", 172.17),
        ("sodium bicarbonate", 84.007),
        ("potassium bicarbonate", 100.115),
        ("sodium chloride", 58.44),
        ("potassium chloride", 74.55),
    ],
)
def test_molar_masses_of_the_salts_are_those_on_their_labels(name, printed):
    """Handbook values as suppliers print them on labels, g/mol, from memory."""
    assert salt_called(name).molar_mass == pytest.approx(printed, abs=0.02)


def test_every_salt_has_its_label_checked():
    """The list above is whole."""
    assert len(SALTS) == 10


def test_the_molar_mass_of_calcium_carbonate_is_the_one_of_water_analysis():
    """100.0869 g/mol, as tables of water chemistry print it."""
    assert pytest.approx(100.0869, abs=5e-5) == CALCIUM_CARBONATE


@pytest.mark.parametrize(
    ("recipe", "parameter", "per_litre"),
    [
        # 1 g/L of Epsom salt is 1000 / 246.47 = 4.057 mmol/L of magnesium.
        ({"Epsom salt": 1.0}, "hardness", 406.1),
        # 1 g/L of baking soda is 1000 / 84.007 = 11.904 meq/L of alkalinity.
        ({"sodium bicarbonate": 1.0}, "alkalinity", 595.7),
        ({"sodium bicarbonate": 1.0}, "sodium", 273.7),
        ({"potassium bicarbonate": 1.0}, "alkalinity", 499.9),
        ({"calcium chloride dihydrate": 1.0}, "calcium", 680.8),
        ({"calcium chloride, anhydrous": 1.0}, "calcium", 901.8),
        ({"magnesium chloride hexahydrate": 1.0}, "hardness", 492.3),
    ],
)
def test_a_gram_of_salt_in_a_litre_gives_its_hardness_or_alkalinity(recipe, parameter, per_litre):
    """By hand from molar masses: mg/L as CaCO3 (sodium as itself) of one gram in a litre."""
    assert concentrate("A", recipe).per_ml.of(parameter) * 1000 == pytest.approx(per_litre, rel=3e-4)


def test_pure_water_in_air_is_at_its_textbook_ph():
    """Stumm & Morgan, *Aquatic Chemistry*: pure water in air of 10^-3.5 atm is at pH 5.65. From memory."""
    assert ph_in_air(0.0, co2_atm=10**-3.5) == pytest.approx(5.65, abs=0.02)


def test_a_millimole_of_alkalinity_in_air_is_at_its_textbook_ph():
    """Stumm & Morgan, *Aquatic Chemistry*: with 10^-3 eq/L in air (10^-3.5 atm) about pH 8.3. From memory."""
    assert ph_in_air(read_amount("1 meq/L", "alkalinity"), co2_atm=10**-3.5) == pytest.approx(8.3, abs=0.03)
