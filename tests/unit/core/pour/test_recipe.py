"""The recipe: decimals, totals, and where it leaves the tolerance."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.plan.table import Plan
from cupwright.core.pour.recipe import dose_g, recipe, to_scale_step, tolerance_g
from cupwright.core.pour.standard import RecipeStandard
from cupwright.core.pour.units import fahrenheit
from cupwright.errors import Refused

PLAN = Plan(name="t", coffees=("a", "b", "c", "d"))


@pytest.mark.parametrize(
    ("grams", "step", "shown"),
    [
        (12.375, 0.1, 12.4),
        (11.385, 0.01, 11.39),  # in binary 11.385 / 0.01 is 1138.4999…
        (11.35, 0.1, 11.4),  # in binary 11.35 is 11.3499…
        (0.15, 0.1, 0.2),
        (11.25, 0.5, 11.5),
        (11.24, 0.5, 11.0),
        (8.25, 1.0, 8.0),
        (8.3, 0.2, 8.4),
    ],
)
def test_a_weight_falls_on_the_nearest_step_and_a_half_goes_up(grams: float, step: float, shown: float):
    assert to_scale_step(grams, step) == shown


@given(
    hundredths=st.integers(0, 100_000),
    step=st.sampled_from(["0.01", "0.02", "0.05", "0.1", "0.2", "0.5", "1"]),
)
def test_a_shown_weight_is_a_whole_number_of_steps_and_at_most_half_a_step_off(hundredths: int, step: str):
    exact = Decimal(hundredths) / 100

    shown = Decimal(repr(to_scale_step(float(exact), float(step))))

    assert shown % Decimal(step) == 0
    assert abs(shown - exact) <= Decimal(step) / 2


@pytest.mark.parametrize("step", [0.0, -0.1, float("nan"), float("inf")])
def test_a_scale_without_a_step_is_refused(step: float):
    with pytest.raises(Refused, match="step"):
        to_scale_step(11, step)


def test_the_default_bowl_takes_eleven_grams_with_nothing_to_warn_of():
    made = recipe(PLAN, 4)

    assert (made.dose_g, made.exact_dose_g, made.grams_per_litre) == (11.0, 11.0, 55.0)
    assert made.deviation_percent == 0
    assert made.warnings == ()


def test_totals_hold_bowls_purge_and_spare_bowl():
    # given four coffees, five bowls each and a spare one, 5 g purge, 12.4 g a bowl
    plan = replace(PLAN, bowls_per_sample=5, spare_bowl=True, bowl_ml=225.0)

    # when
    made = recipe(plan, 4)

    # then by hand: 6 * 12.4 + 5 = 79.4 a coffee
    assert (made.samples, made.bowls, made.spare_bowls) == (4, 20, 4)
    assert made.coffee_per_sample_g == 79.4
    assert made.total_coffee_g == 317.6
    # and water: 24 bowls of 225 mL, and 15 % more in the kettle
    assert made.water_poured_ml == 5400
    assert made.water_to_heat_ml == pytest.approx(6210)


def test_without_a_spare_bowl_only_the_bowls_on_the_table_count():
    made = recipe(replace(PLAN, bowls_per_sample=3, purge_g=0.0), 4)

    assert (made.spare_bowls, made.coffee_per_sample_g, made.water_poured_ml) == (0, 33.0, 2400)


def test_the_tolerance_lies_around_what_the_ratio_asks_not_around_what_the_scale_shows():
    made = recipe(replace(PLAN, bowl_ml=150.0, scale_step_g=0.1), 1)

    assert made.dose_g == 8.3
    assert (made.low_g, made.high_g) == (pytest.approx(8.0), pytest.approx(8.5))


def test_the_deviation_tells_what_rounding_did():
    # given a scale of whole grams: 12 g instead of 12.375
    made = recipe(replace(PLAN, bowl_ml=225.0, scale_step_g=1.0), 1)

    # then 12/12.375 - 1 = -3.0303 %
    assert made.grams_per_litre == pytest.approx(53.3333, abs=1e-4)
    assert made.deviation_percent == pytest.approx(-3.0303, abs=1e-4)


def test_the_deviation_is_from_the_planned_ratio_not_from_the_standards():
    # given 60 g/L in 200 mL: 12 g, exactly as planned
    assert recipe(replace(PLAN, grams_per_litre=60.0), 1).deviation_percent == 0


def test_a_step_that_leaves_the_tolerance_is_warned_of():
    # given whole grams and 190 mL: 10.45 becomes 10, off by 0.45 where 0.317 is allowed
    made = recipe(replace(PLAN, bowl_ml=190.0, scale_step_g=1.0), 1)

    assert [warning for warning in made.warnings if "10 g instead of 10.45 g" in warning]


def test_a_step_that_stays_exactly_on_the_tolerance_is_not_warned_of():
    # given 150 mL and whole grams: 8.25 becomes 8, off by exactly 0.25
    made = recipe(replace(PLAN, bowl_ml=150.0, scale_step_g=1.0), 1)

    assert (made.dose_g, made.warnings) == (8.0, ())


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"grams_per_litre": 60.0}, "ratio"),
        ({"grams_per_litre": 53.0}, "ratio"),
        ({"kettle_c": 92.1}, "kettle"),
        ({"kettle_c": 97.5}, "kettle"),
        ({"bowl_ml": 120.0}, "sizes"),
        ({"bowl_ml": 300.0}, "sizes"),
    ],
)
def test_leaving_the_standard_is_said_not_refused(change: dict[str, float], word: str):
    made = recipe(replace(PLAN, **change), 1)

    assert len(made.warnings) == 1
    assert word in made.warnings[0]


@pytest.mark.parametrize("kettle", [93.2, 95.0, 97.4])
def test_a_kettle_within_the_standard_is_not_warned_of(kettle: float):
    assert recipe(replace(PLAN, kettle_c=kettle), 1).warnings == ()


@given(
    bowl=st.floats(50, 1000),
    ratio=st.floats(20, 120),
    step=st.floats(0.01, 1),
    bowls=st.integers(1, 10),
    samples=st.integers(1, 40),
)
def test_any_plan_that_can_be_made_has_a_recipe_whose_parts_add_up(
    bowl: float, ratio: float, step: float, bowls: int, samples: int
):
    plan = replace(
        PLAN, bowl_ml=bowl, grams_per_litre=ratio, scale_step_g=step, bowls_per_sample=bowls, spare_bowl=True
    )

    made = recipe(plan, samples)

    assert abs(made.dose_g - dose_g(bowl, ratio)) <= step / 2 + 1e-9
    assert made.high_g - made.low_g == pytest.approx(2 * tolerance_g(bowl))
    assert made.total_coffee_g == pytest.approx(samples * ((bowls + 1) * made.dose_g + plan.purge_g))


def test_fahrenheit_is_exact():
    assert (fahrenheit(93.0), fahrenheit(100.0), fahrenheit(-40.0)) == (199.4, 212.0, -40.0)


@given(
    tenths=st.integers(500, 10_000),
    ratio=st.integers(20, 120),
    times=st.integers(2, 5),
)
def test_doses_scale_exactly_with_water_and_ratio(tenths: int, ratio: int, times: int):
    water = tenths / 10

    once = Decimal(repr(dose_g(water, ratio)))

    assert Decimal(repr(dose_g(tenths * times / 10, ratio))) == once * times
    assert Decimal(repr(dose_g(water, ratio * times))) == once * times


def test_half_a_step_of_each_scale_is_left_open():
    made = recipe(PLAN, 4, water_step_ml=2.0)

    assert made.ratio_low == pytest.approx(10.95 / 201 * 1000, rel=1e-12)
    assert made.ratio_high == pytest.approx(11.05 / 199 * 1000, rel=1e-12)
    assert made.ratio_low < made.grams_per_litre < made.ratio_high


@pytest.mark.parametrize("step", [0.0, -1.0, 21.0, float("nan")])
def test_a_step_of_the_water_that_cannot_be_is_refused(step: float):
    with pytest.raises(Refused, match="steps"):
        recipe(PLAN, 1, water_step_ml=step)


def test_water_poured_by_weight_makes_a_weaker_bowl():
    made = recipe(PLAN, 4)

    assert made.bowl_water_g == pytest.approx(192.38, abs=0.01)
    assert made.by_weight_grams_per_litre == pytest.approx(52.90, abs=0.01)


def test_a_standard_that_leaves_things_open_warns_of_nothing():
    open_standard = RecipeStandard("ours", None, None, 150.0, None, None)
    plan = replace(PLAN, grams_per_litre=80.0, kettle_c=85.0, bowl_ml=500.0, scale_step_g=1.0)

    made = recipe(plan, 1, standard=open_standard)

    assert made.warnings == ()
    assert made.low_g == made.exact_dose_g == made.high_g


def test_warnings_name_the_standard_they_come_from():
    own = RecipeStandard("the house's sheet", 60.0, 0.5, 250.0, (90.0, 92.0), (180.0, 190.0))

    warnings = " ".join(recipe(replace(PLAN, kettle_c=96.0), 1, standard=own).warnings)

    assert "outside the 60 g/L of the house's sheet (58.0 to 62.0)" in warnings
    assert "the 90 to 92 °C of the house's sheet" in warnings
    assert "the sizes of the house's sheet (180 to 190 mL)" in warnings
