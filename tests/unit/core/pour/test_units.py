"""Units: there and back again, and exact."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.pour import units

PAIRS = [
    (units.ounces, units.grams),
    (units.fluid_ounces, units.millilitres),
    (units.fahrenheit, units.celsius),
    (units.feet, units.metres),
]


@pytest.mark.parametrize(("there", "back"), PAIRS)
@given(hundredths=st.integers(-100_000, 1_000_000))
def test_a_number_comes_back_from_the_other_unit(there, back, hundredths: int):
    number = hundredths / 100

    assert back(there(number)) == pytest.approx(number, rel=1e-12, abs=1e-12)


def test_what_is_exact_by_definition_has_no_binary_dust():
    assert units.grams(1) == 28.349523125
    assert units.millilitres(2) == 59.147059125
    assert units.metres(10_000) == 3048.0
    assert (units.fahrenheit(93), units.celsius(212), units.fahrenheit(-40)) == (199.4, 100.0, -40.0)
