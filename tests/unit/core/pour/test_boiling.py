"""Boiling: what a kettle gives where the table stands, and what cannot be."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.plan.table import Plan
from cupwright.core.pour.boiling import (
    at_grounds_in_words,
    boiling,
    boiling_warnings,
    highest_altitude,
    kettle_in_words,
    off_at_grounds,
    pressure_at,
)
from cupwright.core.pour.recipe import recipe
from cupwright.errors import Refused

RANGE = (92.2, 94.4)


@given(st.floats(-430, 5400))
def test_water_boils_cooler_the_higher_it_stands(altitude: float):
    here, above = (boiling(100, altitude_m=altitude + more).boils_c for more in (0, 100))

    assert 0.2 < here - above < 0.5


@given(st.floats(83, 99.9))
def test_the_greatest_altitude_is_where_water_boils_at_that_temperature(celsius: float):
    assert boiling(70, altitude_m=highest_altitude(celsius)).boils_c == pytest.approx(celsius, abs=1e-4)


def test_a_kettle_that_can_be_as_hot_as_asked_makes_no_warning():
    place = boiling(93, altitude_m=1500)

    assert place.reaches
    assert (place.reached_c, place.pour_low_c, place.pour_high_c) == (93, 90, 92)
    assert boiling_warnings(place, RANGE) == ()


def test_a_kettle_that_cannot_is_warned_of_with_what_the_water_will_be():
    place = boiling(93, altitude_m=3000)

    warnings = boiling_warnings(place, RANGE)

    assert not place.reaches
    assert "cannot reach 93 °C: at 3000 m water boils at 90.0 °C" in warnings[0]
    assert "87 to 89 °C at the grounds" in warnings[0]
    # the water loses a degree at least on its way: boiling has to be at 93.2 °C
    assert "Above 2034 m no open kettle gives the standard's 92.2 °C at the grounds" in warnings[1]


def test_without_a_standard_only_what_cannot_be_is_said():
    assert len(boiling_warnings(boiling(93, altitude_m=3000), None)) == 1


def test_what_the_kettle_can_have_stands_in_front_and_the_wish_behind_it():
    low, high = (kettle_in_words(boiling(93, altitude_m=height)) for height in (0, 2600))

    assert low == "93 °C (199.4 °F)"
    assert high == "boiling, 91.3 °C (196.4 °F) there; 93 °C was wished"


def test_the_weather_may_make_water_a_little_hotter_than_the_table_of_heights():
    assert boiling(100.4).reaches
    assert not boiling(100.7).reaches


def test_a_measured_pressure_takes_the_place_of_the_altitude():
    place = boiling(100, altitude_m=4000, pressure_pa=100_000)

    assert place.altitude_m is None
    assert place.boils_c == pytest.approx(99.606, abs=0.001)


@pytest.mark.parametrize("altitude", [-431, 5501, float("nan"), float("inf")])
def test_an_altitude_at_which_no_table_stands_is_refused(altitude: float):
    with pytest.raises(Refused, match="altitude"):
        pressure_at(altitude)


@pytest.mark.parametrize("pressure", [0, 1013.25, 101_325_000, float("nan")])
def test_a_pressure_in_another_unit_is_refused(pressure: float):
    with pytest.raises(Refused, match="air pressure"):
        boiling(93, pressure_pa=pressure)


def test_a_kettle_temperature_must_be_a_number():
    with pytest.raises(Refused, match="finite"):
        boiling(float("nan"))


def test_the_recipe_warns_of_a_table_too_high_for_its_kettle():
    low, high = (recipe(Plan(name="t", coffees=("a",), altitude_m=height), 1) for height in (1400, 2600))

    assert low.warnings == ()
    assert "cannot reach 95 °C" in high.warnings[0]


@pytest.mark.parametrize(
    ("kettle", "off"),
    [(92.0, "-1.2"), (93.1, "-0.1"), (93.2, "0"), (95.0, "0"), (97.4, "0"), (97.5, "0.1"), (100.0, "2.6")],
)
def test_water_is_off_its_band_only_when_all_that_may_arrive_lies_outside(kettle: float, off: str):
    """By hand: 1 to 3 K are lost, so of 93.1 °C 90.1 to 92.1 arrive, 0.1 under 92.2."""
    assert off_at_grounds(kettle, 92.2, 94.4) == Decimal(off)


def test_an_open_end_of_a_band_is_never_missed():
    assert off_at_grounds(40.0, None, 94.4) == off_at_grounds(100.0, 92.2, None) == 0


def test_what_arrives_is_told_as_a_range():
    assert (at_grounds_in_words(95.0), at_grounds_in_words(92.1)) == (
        "92 to 94 °C at the grounds",
        "89.1 to 91.1 °C at the grounds",
    )
