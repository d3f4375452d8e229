"""Quantities with their units: what is read, and what is refused in one sentence."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.pour.quantities import height_m, mass_g, ratio_g_per_l, temperature_c, volume_ml
from cupwright.errors import Refused


@pytest.mark.parametrize(
    ("read", "text", "value"),
    [
        (volume_ml, "200ml", 200),
        (volume_ml, " 0.2 L ", 200),
        (volume_ml, "7 fl oz", 207.0147069375),
        (volume_ml, "7fl.oz.", 207.0147069375),
        (mass_g, ".1g", 0.1),
        (mass_g, "1oz", 28.349523125),
        (temperature_c, "93°C", 93),
        (temperature_c, "199.4F", 93),
        (temperature_c, "-5c", -5),
        (height_m, "4900ft", 1493.52),
        (height_m, "-430m", -430),
        (ratio_g_per_l, "55g/L", 55),
        (ratio_g_per_l, "0.055 g/mL", 55),
        (ratio_g_per_l, "20:1", 50),
        (ratio_g_per_l, "1:16", 62.5),
    ],
)
def test_a_quantity_is_read_in_the_programs_own_unit(read, text: str, value: float):
    assert read(text) == pytest.approx(value, rel=1e-15)


@pytest.mark.parametrize(
    ("read", "text", "says"),
    [
        (volume_ml, "200", "has no unit"),
        (volume_ml, "7oz", "an ounce of weight"),
        (volume_ml, "200g", "which is a weight"),
        (volume_ml, "0ml", "not above 0"),
        (volume_ml, "-1ml", "not above 0"),
        (mass_g, "11ml", "which is a volume"),
        (mass_g, "nan", "not a number with its unit"),
        (mass_g, "inf g", "not a number with its unit"),
        (mass_g, "", "not a number"),
        (mass_g, "1" * 50 + "g", "not a number"),
        (temperature_c, "93", "has no unit"),
        (temperature_c, "93K", "cannot be in 'K'"),
        (height_m, "1,500m", "has a comma"),
        (ratio_g_per_l, "55", "has no unit"),
        (ratio_g_per_l, "18:2", "1 g of coffee"),
        (ratio_g_per_l, "1:1", "1 g of coffee"),
        (ratio_g_per_l, "0:1", "1 g of coffee"),
        (ratio_g_per_l, "-1g/L", "not above 0"),
        (volume_ml, "1,5 cl", "has a comma"),
    ],
)
def test_what_cannot_be_read_is_one_sentence_with_an_example(read, text: str, says: str):
    with pytest.raises(Refused, match=says) as refusal:
        read(text)

    assert refusal.value.todo


@given(st.text(max_size=60))
def test_no_text_breaks_the_reading(text: str):
    for read in (volume_ml, mass_g, temperature_c, height_m, ratio_g_per_l):
        try:
            found = read(text)
        except Refused:
            continue
        assert isinstance(found, float)
