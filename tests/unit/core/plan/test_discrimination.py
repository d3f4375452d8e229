"""Tests of difference: what a right answer says."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.plan.discrimination import (
    GUESSING,
    Method,
    discriminators_from_share,
    dprime_of,
    share_from_discriminators,
    share_right,
    slope,
)
from cupwright.errors import Refused

methods = st.sampled_from(Method)
distances = st.floats(0.0, 4.0)


@pytest.mark.parametrize("method", list(Method))
def test_without_a_difference_answers_are_guesses(method):
    assert share_right(method, 0) == pytest.approx(GUESSING[method], abs=1e-12)
    assert dprime_of(method, GUESSING[method]) == 0


@pytest.mark.parametrize("method", list(Method))
def test_an_endless_difference_is_always_told(method):
    assert share_right(method, 60) == pytest.approx(1, abs=1e-12)
    assert share_right(method, 1e9) <= 1
    assert dprime_of(method, 1.0) == math.inf


@given(methods, distances, st.floats(0.01, 1.0))
def test_a_larger_difference_is_told_more_often(method, near, further):
    assert share_right(method, near + further) > share_right(method, near)


@given(methods, st.floats(0.01, 4.0))
def test_distance_and_share_lead_back_to_each_other(method, dprime):
    assert dprime_of(method, share_right(method, dprime)) == pytest.approx(dprime, abs=1e-9)


@given(methods, st.floats(0.0, 1.0))
def test_discriminators_and_share_lead_back_to_each_other(method, discriminators):
    share = share_from_discriminators(method, discriminators)

    assert GUESSING[method] - 1e-12 <= share <= 1
    assert discriminators_from_share(method, share) == pytest.approx(discriminators, abs=1e-12)


@given(st.floats(0.0, 1.0))
def test_the_question_asked_both_ways_does_not_mind_which_cup_is_meant(share):
    assert dprime_of(Method.PAIRED, 1 - share) == pytest.approx(-dprime_of(Method.PAIRED, share), abs=1e-6)


def test_fewer_right_than_by_guessing_speak_for_no_difference():
    assert dprime_of(Method.TRIANGLE, 0.2) == 0
    assert discriminators_from_share(Method.TRIANGLE, 0.2) == 0


@given(methods, st.floats(0.2, 4.0))
def test_the_slope_is_that_of_the_share(method, dprime):
    step = 0.01
    secant = (share_right(method, dprime + step) - share_right(method, dprime - step)) / (2 * step)

    assert slope(method, dprime) == pytest.approx(secant, rel=1e-3)


@pytest.mark.parametrize("dprime", [-1.0, -1e-9, math.nan, math.inf])
def test_a_distance_that_is_none_is_refused(dprime):
    with pytest.raises(Refused, match="is not a number from 0 upwards"):
        share_right(Method.TRIANGLE, dprime)


@pytest.mark.parametrize("share", [-0.1, 1.1, math.nan])
def test_a_share_that_is_none_is_refused(share):
    with pytest.raises(Refused, match="is not between 0 and 1"):
        dprime_of(Method.TRIANGLE, share)
    with pytest.raises(Refused, match="is not between 0 and 1"):
        share_from_discriminators(Method.DUO_TRIO, share)
    with pytest.raises(Refused, match="is not between 0 and 1"):
        discriminators_from_share(Method.DUO_TRIO, share)
