"""How many tasters a test of difference needs: first, and for good."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.plan.critical_counts import chance_of_finding, least_right
from cupwright.core.plan.discrimination import Method
from cupwright.core.plan.discrimination_size import effect_of, needed_tasters, trial
from cupwright.errors import Refused

methods = st.sampled_from(Method)


@settings(max_examples=40, deadline=None)
@given(methods, st.floats(0.15, 1.0), st.sampled_from([0.2, 0.1, 0.05, 0.01]), st.floats(0.3, 0.99))
def test_the_first_is_the_first_and_no_number_after_the_lasting_one_fails(method, pd, alpha, power):
    effect = effect_of(method, discriminators=pd)

    needed = needed_tasters(method, effect, alpha=alpha, power=power)

    first, lasting = needed.first.tasters, needed.lasting.tasters
    n = np.arange(1, 4 * lasting + 50)
    enough = chance_of_finding(n, least_right(n, method, alpha), method, effect.share) >= power - 1e-12
    assert enough[first - 1]
    assert not enough[: first - 1].any()
    assert enough[lasting - 1 :].all()
    assert lasting == 1 or not enough[lasting - 2]


def test_both_are_meant_where_they_differ():
    needed = needed_tasters(Method.TRIANGLE, effect_of(Method.TRIANGLE, dprime=1), power=0.8)

    assert (needed.first.tasters, needed.lasting.tasters) == (202, 220)
    assert needed.first.power >= 0.8
    assert trial(Method.TRIANGLE, 203, needed.effect).power < 0.8


@given(methods, st.floats(0.2, 0.9), st.floats(0.02, 0.1))
def test_a_larger_difference_never_takes_more_tasters(method, pd, more):
    small, large = (effect_of(method, discriminators=one) for one in (pd, pd + more))

    assert needed_tasters(method, large).first.tasters <= needed_tasters(method, small).first.tasters


@given(methods, st.floats(0.2, 0.9), st.sampled_from([0.8, 0.9, 0.95]))
def test_a_test_of_that_size_leaves_no_gap_between_difference_and_likeness(method, pd, power):
    first = needed_tasters(method, effect_of(method, discriminators=pd), power=power).first

    assert first.most_right_if_alike >= first.least_right - 1


def test_a_share_of_discriminators_and_its_distance_ask_for_the_same():
    by_share = effect_of(Method.THREE_AFC, discriminators=0.4)

    by_distance = effect_of(Method.THREE_AFC, dprime=by_share.dprime)

    assert by_distance.discriminators == pytest.approx(0.4)
    sizes = [needed_tasters(Method.THREE_AFC, one).lasting.tasters for one in (by_share, by_distance)]
    assert sizes[0] == sizes[1]


def test_when_everybody_can_tell_luck_alone_sets_the_number():
    needed = needed_tasters(Method.TRIANGLE, effect_of(Method.TRIANGLE, discriminators=1.0))

    assert (needed.first.tasters, needed.first.power, needed.effect.dprime) == (3, 1.0, math.inf)


def test_a_test_without_a_named_difference_has_counts_but_no_power():
    found = trial(Method.TRIANGLE, 30)

    assert (found.least_right, found.power, found.most_right_if_alike) == (15, None, None)


def test_too_few_tasters_can_show_nothing():
    found = trial(Method.DUO_TRIO, 3, effect_of(Method.DUO_TRIO, discriminators=0.5))

    assert (found.least_right, found.power, found.alpha) == (None, 0.0, 0.0)


@pytest.mark.parametrize(
    ("named", "sentence"),
    [
        ({}, "is not said once"),
        ({"dprime": 1, "discriminators": 0.3}, "is not said once"),
        ({"dprime": 0}, "none can be found"),
        ({"discriminators": 0}, "none can be found"),
        ({"dprime": -1}, "not a number from 0 upwards"),
        ({"discriminators": 1.2}, "not between 0 and 1"),
        ({"discriminators": math.nan}, "not between 0 and 1"),
    ],
)
def test_a_difference_that_is_not_said_is_refused(named, sentence):
    with pytest.raises(Refused, match=sentence):
        effect_of(Method.TRIANGLE, **named)


@pytest.mark.parametrize("power", [0, 1, 1.2, -1, math.nan])
def test_a_power_that_is_none_is_refused(power):
    with pytest.raises(Refused, match=r"A power of .* is not between 0 and 1"):
        needed_tasters(Method.TRIANGLE, effect_of(Method.TRIANGLE, dprime=1), power=power)


@pytest.mark.parametrize("dprime", [0.01, 0.19])
def test_a_difference_too_small_to_count_up_to_is_refused(dprime):
    with pytest.raises(Refused, match="more tasters than the 100,000"):
        needed_tasters(Method.TRIANGLE, effect_of(Method.TRIANGLE, dprime=dprime))
