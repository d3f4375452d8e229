"""Readings narrow the curve, and the intervals hold what they promise."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.plan.protocol_file import builtin_protocol
from cupwright.core.plan.table import Plan
from cupwright.core.pour.cooling import Cup, temperatures
from cupwright.core.pour.cooling_fit import BOWL_K, MODEL_K, PRIOR, THERMOMETER_K, expected, fitted
from cupwright.core.pour.windows import heat_caution, windows

PLAN = Plan(name="t", coffees=("a",))
BEFORE = expected(PLAN)


@pytest.fixture(scope="module")
def drawn() -> list[Cup]:
    """Cups as the prior has them: start, rate and share of vapour at random (seeded)."""
    rng = np.random.default_rng(4)
    return [_cup(*rng.normal(0, PRIOR)) for _ in range(60)]


def _cup(shift: float, rate: float, vapour: float) -> Cup:
    cup = BEFORE.cup
    return replace(
        cup,
        start_c=cup.start_c + shift,
        dry_w_k=cup.dry_w_k * np.exp(rate),
        wet_w_kpa=cup.wet_w_kpa * np.exp(rate + vapour),
    )


@settings(max_examples=15)
@given(st.floats(60, 76), st.floats(7, 12))
def test_one_reading_pulls_the_curve_to_it_and_narrows_it_there(celsius: float, minutes: float):
    before, after = BEFORE.at(minutes * 60), fitted(BEFORE, [(minutes * 60, celsius)]).at(minutes * 60)

    assert abs(after.celsius - celsius) < 0.35 * abs(before.celsius - celsius) + 0.05
    assert after.high - after.low < before.high - before.low


def test_a_later_reading_narrows_the_late_rounds():
    one = fitted(BEFORE, [(600, 67.0)])
    two = fitted(BEFORE, [(600, 67.0), (1500, 51.0)])

    early, later = (fit.reaches(38) for fit in (one, two))

    assert later.high - later.low < 0.75 * (early.high - early.low)
    assert two.readings == 2


def test_the_order_of_the_readings_does_not_matter():
    readings = [(600.0, 67.0), (1500.0, 51.0), (900.0, 60.5)]

    assert fitted(BEFORE, readings).cup.start_c == pytest.approx(
        fitted(BEFORE, readings[::-1]).cup.start_c, abs=1e-9
    )


@pytest.mark.parametrize("readings", [(), (600.0,), (600.0, 1500.0)])
def test_the_interval_holds_the_bowl_about_as_often_as_it_says(readings: tuple[float, ...], drawn: list[Cup]):
    """60 drawn cups read with the errors assumed; the 95 % intervals at 12 and 40 minutes."""
    rng = np.random.default_rng(5)
    held = []
    for cup in drawn:
        seen = [
            (at, float(temperatures(cup, at)) + rng.normal(0, np.hypot(THERMOMETER_K, BOWL_K)))
            for at in readings
        ]
        fit = fitted(BEFORE, seen) if seen else BEFORE
        for at in (720.0, 2400.0):
            true = float(temperatures(cup, at)) + rng.normal(0, np.hypot(BOWL_K, MODEL_K))
            estimate = fit.at(at)
            held.append(estimate.low <= true <= estimate.high)

    assert 0.89 <= np.mean(held) <= 1


def test_a_reading_of_another_cup_shows_as_a_misfit():
    assert fitted(BEFORE, [(600, 67.0)]).misfit < 1
    assert fitted(BEFORE, [(600, 30.0)]).misfit > 3
    assert fitted(BEFORE, [(600, 67.0), (700, 45.0)]).misfit > 3


@settings(max_examples=25)
@given(st.floats(25, 80))
def test_a_temperature_is_reached_within_its_interval_and_there_the_curve_has_it(celsius: float):
    moment = BEFORE.reaches(celsius)

    assert moment.low <= moment.minutes <= moment.high
    assert BEFORE.at(moment.minutes * 60).celsius == pytest.approx(celsius, abs=0.02)


def test_a_temperature_below_the_room_is_never_reached_and_one_above_the_start_at_once():
    assert BEFORE.reaches(5).minutes == float("inf")
    assert BEFORE.reaches(95).minutes == 0


@pytest.mark.parametrize(
    ("change", "hotter"),
    [
        ({"kettle_c": 99.0}, True),
        ({"vessel": "insulated"}, True),
        ({"vessel": "cup"}, False),
        ({"room_c": 10.0}, False),
        ({"altitude_m": 3000.0}, False),
        ({"bowl_ml": 400.0}, True),
    ],
)
def test_the_plan_decides_how_warm_a_bowl_is_at_the_first_taste(change: dict[str, object], hotter: bool):
    changed = expected(replace(PLAN, **change)).at(540).celsius  # type: ignore[arg-type]

    assert (changed > BEFORE.at(540).celsius) is hotter


def test_coffee_brewed_apart_has_neither_grounds_nor_crust():
    apart = expected(PLAN, crust_until_s=0, on_grounds=False)

    assert apart.cup.start_c > BEFORE.cup.start_c
    assert apart.cup.heat_j_k < BEFORE.cup.heat_j_k
    assert apart.at(240).celsius < BEFORE.at(240).celsius


def test_the_rounds_of_the_protocol_come_one_after_another():
    first, second, third = windows(BEFORE, builtin_protocol("cupping").stages)

    assert (first.from_c, second.from_c, second.to_c, third.from_c, third.to_c) == (71, 71, 60, 38, 21)
    assert second.ends is not None
    assert first.starts.minutes == second.starts.minutes < second.ends.minutes < third.starts.minutes


def test_a_table_that_starts_later_moves_its_first_rounds_down_whole():
    _, second, third = windows(BEFORE, builtin_protocol("cupping").stages, taste_from_c=60)

    assert (second.from_c, second.to_c) == (60, 49)
    assert third.from_c == 38


def test_the_caution_names_what_lies_below_and_falls_silent_at_what_is_called_best():
    hot, warm, best = (heat_caution(BEFORE, first) for first in (71, 62, 57.8))

    assert "65 °C from which a drink counts as very hot" in hot
    assert "57.8 °C at" in hot
    assert "57.8 °C that burns research calls best" in warm
    assert "65 °C" not in warm
    assert best == ""
