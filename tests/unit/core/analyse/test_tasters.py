"""Each taster's measures: what they see, when they are silent, and what they do not depend on."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.analyse.scores import Scores, scores_of
from cupwright.core.analyse.tasters import taster_performance


def panel(coffees=8, tasters=5, repeats=2, seed=3):
    rng = np.random.default_rng(seed)
    return (
        82
        + rng.normal(0, 2, (coffees, 1, 1))
        + rng.normal(0, 0.7, (1, tasters, 1))
        + rng.normal(0, 0.5, (coffees, tasters, 1))
        + rng.normal(0, 0.4, (coffees, tasters, repeats))
    )


def test_a_taster_who_scores_a_point_lower_has_that_bias_and_nothing_else_moves():
    even = panel()
    lower = even.copy()
    lower[:, 2] -= 1

    before, after = taster_performance(even)[2], taster_performance(lower)[2]

    assert after.bias.found.estimate == pytest.approx(before.bias.found.estimate - 1)
    assert after.slope.found.estimate == pytest.approx(before.slope.found.estimate)
    assert after.repeatability.found.estimate == pytest.approx(before.repeatability.found.estimate)


def test_a_taster_who_stretches_the_scale_has_a_steeper_slope_and_the_same_agreement():
    even = panel()
    wide = even.copy()
    wide[:, 1] = 82 + 2 * (wide[:, 1] - 82)

    before, after = taster_performance(even)[1], taster_performance(wide)[1]

    assert after.slope.found.estimate == pytest.approx(2 * before.slope.found.estimate)
    assert after.agreement.found.estimate == pytest.approx(before.agreement.found.estimate)


def test_one_taster_alone_is_told_of_repeats_and_not_of_a_rest():
    (alone,) = taster_performance(panel(tasters=1))

    assert alone.repeatability.found is not None
    assert alone.separation.found is not None
    for finding in (alone.bias, alone.slope, alone.agreement, alone.distance):
        assert finding.found is None
        assert "Nobody else" in finding.why_not


def test_without_repeats_steadiness_and_separation_are_silent_with_a_sentence():
    found = taster_performance(panel(repeats=1))[0]

    assert found.repeatability.found is None
    assert found.separation.found is None
    assert found.repeatability.why_not.endswith(".")
    assert found.bias.found is not None


def test_two_coffees_are_too_few_to_speak_of_a_level():
    found = taster_performance(panel(coffees=2))[0]

    assert found.bias.found is None
    assert "too few" in found.bias.why_not


def test_constant_scores_are_silent_and_warn_of_nothing():
    for found in taster_performance(np.full((5, 3, 2), 80.1)):
        assert found.bias.found is None
        assert found.slope.found is None
        assert found.agreement.found is None
        assert found.repeatability.found is None
        assert found.separation.found is None
        assert found.f_ratio is None


def test_one_pair_of_repeats_is_too_little():
    values = panel()
    values[1:, :, 1] = np.nan

    found = taster_performance(values)[0]

    assert found.repeatability.found is None
    assert "One pair" in found.repeatability.why_not


def test_a_taster_who_saw_half_is_compared_over_that_half_without_the_levels_of_the_others():
    """Taster 2 is a point up and missed some coffees; that must not look like bias of taster 1."""
    coffees = np.arange(6.0)
    values = np.tile(coffees[:, None], (1, 4))
    values[:, 1] += 1
    values[:, 0] += np.array([0.1, -0.1, 0.1, -0.1, 0.1, -0.1])
    values[[0, 1, 2], 1] = np.nan

    found = taster_performance(values)[0]

    # The mean of the rest's levels is a third of a point, on every coffee alike.
    assert found.bias.found.estimate == pytest.approx(-1 / 3, abs=1e-9)
    assert found.distance.found.estimate == pytest.approx(np.std([0.1, -0.1] * 3, ddof=1), abs=1e-9)


def drifting(slope):
    rng = np.random.default_rng(7)
    coffee, taster = np.repeat(np.arange(6), 4), np.tile(np.arange(4), 6)
    position = np.concatenate([rng.permutation(6) for _ in range(4)]).reshape(4, 6).T.ravel() + 1.0
    value = 80 + coffee + np.where(taster == 0, slope * position, 0.0) + rng.normal(0, 0.05, 24)
    return Scores(
        tuple("abcdef"), tuple("wxyz"), coffee, taster, value, np.zeros(24, dtype=int), position=position
    )


def test_a_drift_along_the_order_is_seen_in_the_taster_who_drifts():
    found = taster_performance(drifting(-0.5))

    assert found[0].drift_position.found.low < -0.5 < found[0].drift_position.found.high
    assert found[0].drift_position.found.differs_from_zero
    assert taster_performance(drifting(0.0))[0].drift_position.found.estimate == pytest.approx(0, abs=0.05)


def test_a_drift_over_tables_needs_four_of_them():
    one = scores_of(panel(3, 3, 1))
    tables = [
        Scores(
            one.coffees, one.tasters, one.coffee, one.taster,
            one.value + 0.3 * number * (one.taster == 0) + np.sin(np.arange(9.0) * (number + 1)) / 50,
            one.repeat,
        )
        for number in range(5)
    ]  # fmt: skip

    def joined(many):
        columns = [
            np.concatenate([getattr(t, name) for t in many])
            for name in ("coffee", "taster", "value", "repeat")
        ]
        return Scores(
            one.coffees, one.tasters, *columns, table=np.repeat(np.arange(len(many)), 9),
            tables=tuple(f"t{n}" for n in range(len(many))),
        )  # fmt: skip

    assert taster_performance(joined(tables[:3]))[0].drift_table.found is None
    found = taster_performance(joined(tables))[0].drift_table.found
    assert found.estimate == pytest.approx(0.3, abs=0.02)
    # The same coffee on another day is no hidden duplicate.
    assert taster_performance(joined(tables))[0].repeatability.found is None


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10_000), st.floats(-50, 50), st.floats(0.1, 20))
def test_shift_scale_and_relabelling_change_what_they_should(seed, shift, scale):
    rng = np.random.default_rng(seed)
    values = panel(5, 4, 2, seed)
    coffees, tasters = rng.permutation(5), rng.permutation(4)

    plain = taster_performance(values)
    moved = taster_performance((scale * values + shift)[coffees][:, tasters])

    for place, taster in enumerate(tasters):
        a, b = plain[taster], moved[place]
        assert b.bias.found.estimate == pytest.approx(scale * a.bias.found.estimate, rel=1e-6, abs=1e-6)
        assert b.slope.found.low == pytest.approx(a.slope.found.low, rel=1e-6, abs=1e-6)
        assert b.separation.found.high == pytest.approx(a.separation.found.high, rel=1e-5)
        assert b.agreement.found.estimate == pytest.approx(a.agreement.found.estimate, rel=1e-6, abs=1e-6)
        assert b.repeatability.found.high == pytest.approx(scale * a.repeatability.found.high, rel=1e-6)


def test_a_result_is_a_flat_record_for_data_frames():
    (row,) = taster_performance(panel())[0].rows()

    assert {"taster", "bias", "bias_low", "bias_high", "separation", "p_alike"} <= set(row)
