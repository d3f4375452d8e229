"""As it cools: slopes in points for 10 K, and silence where temperatures cannot tell."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.analyse.as_it_cools import cooling_trend
from cupwright.core.analyse.scores import Scores
from cupwright.errors import NoSpread, TooFewObservations


def cooling(slopes, *, tasters=4, visits=3, noise=0.2, seed=1, spread=20.0):
    """Every taster meets every coffee `visits` times from 65 °C down; slopes in points for 10 K cooler."""
    rng = np.random.default_rng(seed)
    shape = (len(slopes), tasters, visits)
    celsius = 65 - spread * np.arange(visits) / max(visits - 1, 1) + rng.uniform(-1, 1, shape)
    coffee, taster, visit = (axis.ravel() for axis in np.indices(shape))
    level = rng.normal(80, 2, (len(slopes), tasters, 1))
    value = level + np.array(slopes)[:, None, None] * (65 - celsius) / 10 + rng.normal(0, noise, shape)
    names = tuple("abcdefgh"[: len(slopes)]), tuple(f"t{n}" for n in range(tasters))
    return Scores(*names, coffee, taster, value.ravel(), visit, temperature=celsius.ravel())


def test_a_coffee_that_gains_as_it_cools_has_a_slope_above_zero_and_one_that_loses_below():
    found = cooling_trend(cooling([0.8, -0.6]))

    gains, loses = (one.slope.found for one in found.coffees)
    assert gains.low < 0.8 < gains.high
    assert loses.low < -0.6 < loses.high
    assert found.pairs[0].difference.differs_from_zero
    assert found.p_same < 0.001
    assert found.within_cells


def test_coffees_that_move_alike_share_one_slope():
    found = cooling_trend(cooling([0.4, 0.4, 0.4]))

    assert found.overall.found.low < 0.4 < found.overall.found.high
    assert found.p_same > 0.05


def test_the_line_runs_from_the_hottest_cup_to_the_coolest_inside_its_band():
    one = cooling_trend(cooling([0.8])).coffees[0]

    assert one.line[0].celsius == pytest.approx(one.hottest_c)
    assert one.line[-1].celsius == pytest.approx(one.coolest_c)
    assert all(point.low < point.estimate < point.high for point in one.line)
    assert one.line[-1].estimate > one.line[0].estimate


def test_one_meeting_each_is_enough_where_orders_differ():
    """Every taster meets every coffee once, at temperatures of their own: levels are set aside as sums."""
    rng = np.random.default_rng(3)
    coffee, taster = (axis.ravel() for axis in np.indices((5, 6)))
    celsius = rng.uniform(40, 65, 30)
    value = 80 + coffee + 0.5 * taster + 0.5 * (65 - celsius) / 10 + rng.normal(0, 0.1, 30)
    names = tuple("abcde"), tuple("uvwxyz")

    found = cooling_trend(Scores(*names, coffee, taster, value, np.zeros(30, dtype=int), temperature=celsius))

    assert not found.within_cells
    assert found.overall.found.low < 0.5 < found.overall.found.high


def test_temperatures_that_hardly_vary_are_silent():
    with pytest.raises(NoSpread, match="hardly vary"):
        cooling_trend(cooling([0.5, 0.5], spread=1.0))


def test_unknown_temperatures_and_too_few_scores_are_refused():
    one = cooling([0.5], tasters=1, visits=2)
    with pytest.raises(TooFewObservations, match="too few"):
        cooling_trend(one)
    cold = Scores(one.coffees, one.tasters, one.coffee, one.taster, one.value, one.repeat)
    with pytest.raises(TooFewObservations, match="No cup's temperature"):
        cooling_trend(cold)


def test_a_coffee_tasted_at_one_temperature_is_silent_and_the_others_are_not():
    both = cooling([0.5, 0.5])
    celsius = np.where(both.coffee == 1, 50.0, both.temperature)

    found = cooling_trend(
        Scores(
            both.coffees, both.tasters, both.coffee, both.taster, both.value, both.repeat, temperature=celsius
        )
    )

    assert found.coffees[0].slope.found is not None
    assert found.coffees[1].slope.found is None
    assert "one temperature" in found.coffees[1].slope.why_not
    assert found.coffees[1].line == ()


def test_a_thermometers_error_is_told_and_too_large_a_one_silences():
    scores = cooling([0.5, 0.5])

    assert cooling_trend(scores).attenuation == 1.0
    assert 0.9 < cooling_trend(scores, temperature_error=2.0).attenuation < 1.0
    with pytest.raises(NoSpread, match="known to"):
        cooling_trend(scores, temperature_error=9.0)


def test_scores_on_the_line_to_the_last_digit_have_no_false_certainty():
    found = cooling_trend(cooling([0.0, 0.0], noise=0.0))

    assert found.overall.found is None
    assert found.p_same is None
    assert found.pairs == ()


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10_000), st.floats(-20, 20), st.floats(0.1, 9))
def test_order_of_rows_shift_and_scale(seed, shift, scale):
    one = cooling([0.3, -0.2, 0.5], seed=seed)
    order = np.random.default_rng(seed).permutation(len(one))

    plain = cooling_trend(one)
    moved = cooling_trend(
        Scores(
            one.coffees, one.tasters, one.coffee[order], one.taster[order], scale * one.value[order] + shift,
            one.repeat[order], temperature=one.temperature[order],
        )
    )  # fmt: skip

    for a, b in zip(plain.coffees, moved.coffees, strict=True):
        assert b.slope.found.low == pytest.approx(scale * a.slope.found.low, rel=1e-6, abs=1e-6)
    assert moved.p_same == pytest.approx(plain.p_same, rel=1e-5, abs=1e-9)
