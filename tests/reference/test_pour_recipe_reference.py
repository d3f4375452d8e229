"""The recipe against the cupping standard's own numbers."""

import pytest

from cupwright.core.plan.table import Plan
from cupwright.core.pour.boiling import boiling
from cupwright.core.pour.caffeine import caffeine_mg
from cupwright.core.pour.recipe import dose_g, recipe, tolerance_g
from cupwright.core.pour.units import fahrenheit


@pytest.mark.parametrize(
    ("water_ml", "grams"),
    [(150, 8.25), (200, 11.00), (207, 11.385), (225, 12.375), (250, 13.75), (266, 14.63)],
)
def test_doses_follow_the_ratio_of_the_standard(water_ml: float, grams: float):
    """SCAA, "Cupping Standards" (web page): 8.25 g per 150 mL, scaled by 0.055 g/mL.

    The dose at 150 mL and the factor are printed; the others are that factor times the volume, by hand.
    """
    assert dose_g(water_ml) == grams


def test_the_factor_per_fluid_ounce_is_the_printed_one():
    """SCAA, "Cupping Standards": 1.63 g per US fluid ounce (29.5735 mL), two printed decimals."""
    assert dose_g(29.5735) == pytest.approx(1.63, abs=0.005)


def test_the_tolerance_is_a_quarter_gram_at_the_standards_volume():
    """SCAA, "Cupping Standards": 8.25 g ± 0.25 g per 150 mL; at 200 mL that is ± 0.33 g by proportion."""
    assert tolerance_g(150) == 0.25
    assert tolerance_g(200) == pytest.approx(0.33, abs=0.005)


def test_the_water_of_the_default_kettle_arrives_within_the_standards():
    """SCAA, "Cupping Standards": 200 ± 2 °F, printed with 92.2 to 94.4 °C, at the grounds."""
    default = boiling(Plan(name="t", coffees=("a",)).kettle_c)
    expected = (default.pour_low_c + default.pour_high_c) / 2

    assert 198 <= fahrenheit(expected) <= 202
    assert fahrenheit(92.2) == pytest.approx(198, abs=0.05)
    assert fahrenheit(94.4) == pytest.approx(202, abs=0.1)


def test_the_nominal_200_fahrenheit_is_93_3_celsius_and_what_we_expect_is_a_little_below():
    """Fahrenheit's fixed points, 32 and 212 °F for 0 and 100 °C: 200 °F = 93.33 °C; 93 °C = 199.4 °F."""
    assert fahrenheit(280 / 3) == pytest.approx(200, abs=1e-9)
    assert fahrenheit(93) == 199.4


def test_the_default_table_makes_no_warning():
    """SCAA, "Cupping Standards": 200 mL, 55 g/L and the 92 to 94 °C that arrive meet every printed range."""
    assert recipe(Plan(name="t", coffees=("a",)), 1).warnings == ()


def test_a_long_sitting_swallowed_whole_passes_the_single_dose_of_adults():
    """EFSA (2015): 200 mg at once, 400 mg a day raise no concern for adults.

    Six coffees, five cups, three passes of 4.5 mL are 405 mL; at 0.5 g/L (Foods 2021, 10:1208, Table 1:
    0.52 ± 0.06 g/L) that is 202.5 mg, 2.25 mg a spoon.
    """
    assert caffeine_mg(1, 1) == 2.25
    assert caffeine_mg(30, 3) == 202.5
