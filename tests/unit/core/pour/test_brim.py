"""The brim: less water, a stronger cup, and the dose that would keep the ratio."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.pour.brim import DISPLACED_ML_PER_G, brim


@given(bowl=st.floats(50, 1000), ratio=st.floats(20, 120))
def test_grounds_make_a_full_bowl_stronger_and_the_smaller_dose_keeps_the_ratio(bowl: float, ratio: float):
    dose = bowl * ratio / 1000

    full = brim(bowl, dose, ratio)
    kept = brim(bowl, full.dose_g, ratio)

    assert full.ratio_low < full.grams_per_litre < full.ratio_high
    assert full.grams_per_litre > ratio
    assert full.water_ml + full.displaced_ml == pytest.approx(bowl, rel=1e-12)
    assert kept.grams_per_litre == pytest.approx(ratio, rel=1e-9)


def test_eleven_grams_take_the_place_of_eight_millilitres():
    full = brim(200, 11, 55)

    assert full.displaced_ml == DISPLACED_ML_PER_G * 11 == 8.25
    assert full.grams_per_litre == pytest.approx(11_000 / 191.75)
