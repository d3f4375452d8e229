"""Means: what happens with none, one and equal values; pairs of coffees."""

import math

import numpy as np
import pytest

from cupwright.core.analyse.scales import mean_interval, pair_differences, rounding_spread

HOLE = np.nan


def test_no_values_have_no_mean():
    mean = mean_interval(np.array([HOLE, HOLE]))

    assert (mean.n, mean.mean) == (0, None)


def test_one_value_has_a_mean_without_an_interval():
    mean = mean_interval(np.array([HOLE, 4.0]))

    assert mean.n == 1
    assert mean.mean.estimate == 4.0
    assert math.isnan(mean.mean.low)
    assert math.isnan(mean.mean.high)


def test_holes_are_left_out():
    assert mean_interval(np.array([1.0, HOLE, 3.0])) == mean_interval(np.array([1.0, 3.0]))


def test_pairs_use_only_tasters_who_scored_both():
    values = np.array([[5.0, 7.0, HOLE, 9.0], [4.0, 5.0, 1.0, HOLE]])

    (pair,) = pair_differences(values)

    assert (pair.first, pair.second, pair.n) == (0, 1, 2)
    assert pair.mean.estimate == pytest.approx(1.5)


def test_a_pair_scored_by_one_taster_is_left_out():
    assert pair_differences(np.array([[5.0, HOLE], [4.0, 1.0]])) == ()


def test_a_constant_lead_is_clear_even_when_the_single_means_overlap():
    levels = np.array([10.0, 40.0, 70.0, 95.0])
    values = np.stack([levels + np.array([3.0, 3.1, 2.9, 3.0]), levels])

    (pair,) = pair_differences(values)

    first, second = (mean_interval(row).mean for row in values)
    assert first.low < second.high
    assert pair.mean.differs_from_zero


def test_an_interval_is_cut_at_the_ends_of_the_scale_and_still_holds_the_mean():
    values = np.array([0.0, 100.0, 100.0])

    cut, whole = mean_interval(values, ends=(0, 100)).mean, mean_interval(values).mean

    assert (whole.low < 0, whole.high > 100) == (True, True)
    assert (cut.low, cut.estimate, cut.high) == (0, whole.estimate, 100)


def test_differences_are_cut_at_the_largest_the_scale_allows():
    (pair,) = pair_differences(np.array([[0.0, 100.0], [100.0, 0.0]]), ends=(0, 100))

    assert (pair.mean.low, pair.mean.high) == (-100, 100)


def test_two_tasters_who_say_the_same_whole_point_leave_room_on_both_sides():
    mean = mean_interval(np.array([7.0, 7.0]), least_spread=rounding_spread(1)).mean

    assert mean.low == pytest.approx(7 - 12.7062 * np.sqrt(1 / 12) / np.sqrt(2), abs=1e-3)
    assert mean.high == pytest.approx(14 - mean.low)


def test_two_tasters_who_agree_on_a_step_between_two_coffees_prove_no_difference():
    values = np.array([[7.0, 7.0], [6.0, 6.0]])

    (pair,) = pair_differences(values, step=1)

    assert pair.mean.low < 0 < pair.mean.high


def test_ten_tasters_who_agree_on_a_step_between_two_coffees_do():
    (pair,) = pair_differences(np.repeat([[7.0], [6.0]], 10, axis=1), step=1)

    assert pair.mean.differs_from_zero


def test_a_spread_beyond_that_of_rounding_is_left_alone():
    values = np.array([3.0, 7.0, 8.0])

    assert mean_interval(values, least_spread=rounding_spread(1)) == mean_interval(values)
