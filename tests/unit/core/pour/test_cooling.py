"""Cooling: the balance, Newton's law as its special case, and that nothing is lost to the grid."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from cupwright.core.pour.cooling import Cup, resting_c, temperatures, vapour_kpa, watts, wet_w_kpa
from cupwright.core.pour.vessel import VESSELS, vessel_of
from cupwright.errors import Refused

CUP = Cup(start_c=81, heat_j_k=940, dry_w_k=0.2, wet_w_kpa=0.41, room_c=22)

cups = st.builds(
    Cup,
    start_c=st.floats(60, 97),
    heat_j_k=st.floats(200, 4000),
    dry_w_k=st.floats(0.02, 1),
    wet_w_kpa=st.floats(0, 3),
    room_c=st.floats(5, 45),
    crust_until_s=st.floats(0, 400),
)


@given(cups)
def test_a_cup_starts_as_it_was_poured_falls_all_the_time_and_comes_to_rest(cup: Cup):
    times = np.arange(0, 6 * 3600, 20.0)

    curve = temperatures(cup, times)

    assert curve[0] == pytest.approx(cup.start_c, abs=1e-9)
    assert np.all(np.diff(curve) <= 1e-9)
    assert curve[-1] >= resting_c(cup, cup.wet_w_kpa) - 1e-6
    assert resting_c(cup, cup.wet_w_kpa) <= cup.room_c + 1e-9


@given(cups)
def test_without_vapour_the_curve_is_newtons(cup: Cup):
    dry = replace(cup, wet_w_kpa=0.0)
    minutes = np.array([0.5, 4, 9, 30, 120, 300])

    curve = temperatures(dry, minutes * 60)

    rate = dry.dry_w_k / dry.heat_j_k * 60
    expected = dry.room_c + (dry.start_c - dry.room_c) * np.exp(-rate * minutes)
    assert curve == pytest.approx(expected, abs=1e-8)


@pytest.mark.parametrize(
    "cup", [CUP, replace(CUP, wet_w_kpa=3.0), replace(CUP, crust_until_s=0.0), replace(CUP, room_c=40.0)]
)
def test_the_curve_is_what_a_general_solver_finds_of_the_same_balance(cup: Cup):
    """scipy's DOP853, from phase to phase."""
    times = np.array([30, 120, 239, 300, 600, 1800, 5400, 10_000.0])

    def solved(start: float, wet: float, upto: float, at: np.ndarray) -> np.ndarray:
        found = solve_ivp(
            lambda _, t: -watts(cup, t, wet) / cup.heat_j_k,
            (0, upto),
            [start],
            method="DOP853",
            t_eval=at,
            rtol=1e-11,
            atol=1e-11,
            max_step=30,
        )
        return found.y[0]

    if cup.crust_until_s == 0:
        assert temperatures(cup, times) == pytest.approx(
            solved(cup.start_c, cup.wet_w_kpa, 10_000, times), abs=1e-6
        )
        return
    early, late = times[times <= cup.crust_until_s], times[times > cup.crust_until_s]
    first = solved(
        cup.start_c, cup.wet_w_kpa * cup.crust_share, cup.crust_until_s, np.append(early, cup.crust_until_s)
    )
    second = solved(first[-1], cup.wet_w_kpa, 10_000, late - cup.crust_until_s)
    assert temperatures(cup, times) == pytest.approx([*first[:-1], *second], abs=1e-6)


def test_what_evaporates_is_too_little_to_matter():
    """By a general solver that takes the vapour off the cup's heat, at 2.32 MJ/kg."""

    def rates(_: float, state: np.ndarray) -> list[float]:
        celsius, gone_g = state
        dry = CUP.dry_w_k * (celsius - CUP.room_c)
        wet = float(watts(CUP, celsius)) - dry
        return [-(dry + wet) / (CUP.heat_j_k - 4.18 * gone_g), wet / 2320]

    opened = replace(CUP, crust_until_s=0)
    found = solve_ivp(rates, (0, 1800), [CUP.start_c, 0.0], rtol=1e-9, atol=1e-9)

    assert 0.02 < 4.18 * found.y[1, -1] / CUP.heat_j_k < 0.04
    assert 0.2 < float(temperatures(opened, 1800)) - found.y[0, -1] < 0.4


def test_the_shape_of_the_times_is_kept_and_their_number_changes_nothing():
    times = np.array([[60.0, 600], [1200, 0]])

    assert temperatures(CUP, times).shape == (2, 2)
    assert temperatures(CUP, 600.0) == pytest.approx(temperatures(CUP, times)[0, 1], abs=1e-6)


def test_the_rate_falls_as_the_cup_cools_because_vapour_gets_less():
    above = temperatures(CUP, np.array([5.0, 15, 30, 40]) * 60) - CUP.room_c
    early, later = np.log(above[0] / above[1]), np.log(above[2] / above[3])

    assert later < 0.8 * early


def test_a_cup_under_its_crust_cools_more_slowly():
    broken_at_once = replace(CUP, crust_until_s=0.0)

    assert temperatures(broken_at_once, 240.0) < temperatures(CUP, 240.0) - 1


def test_thin_air_takes_more_vapour():
    assert wet_w_kpa(50, 70_000) > wet_w_kpa(50)


def test_a_cup_that_is_not_hotter_than_its_room_is_refused():
    with pytest.raises(Refused, match="does not cool"):
        temperatures(replace(CUP, start_c=22), 60.0)


def test_vapour_above_boiling_water_is_an_atmosphere():
    assert vapour_kpa(100.0) == pytest.approx(101.325, rel=2e-3)


def test_every_vessel_says_where_its_figures_come_from_and_grows_with_its_volume():
    for key, vessel in VESSELS.items():
        larger = vessel_of(key, 400)

        assert vessel.key == key
        assert "memory" in vessel.basis or "assumed" in vessel.basis
        assert larger.heated_g / vessel.heated_g == pytest.approx(2 ** (2 / 3))
        assert larger.wall_w_m2_k == vessel.wall_w_m2_k


def test_an_unknown_vessel_is_refused_with_the_known_ones():
    with pytest.raises(Refused, match="no vessel 'thimble'") as refusal:
        vessel_of("thimble")

    assert "paper-cup" in refusal.value.todo
