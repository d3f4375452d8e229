"""A finished test of difference: could it be luck?"""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.plan.critical_counts import least_right
from cupwright.core.plan.discrimination import GUESSING, Method
from cupwright.core.plan.observed_count import observed_count
from cupwright.errors import Refused

methods = st.sampled_from(Method)


@st.composite
def results(draw):
    of = draw(st.integers(1, 200))
    return draw(st.integers(0, of)), of


@given(methods, results())
def test_every_interval_holds_its_estimate(method, result):
    observed = observed_count(method, *result)

    for one in (observed.share, observed.discriminators, observed.dprime):
        assert one.low <= one.estimate <= one.high
    assert 0 < observed.p_value <= 1


@given(methods, st.integers(2, 200))
def test_the_p_value_and_the_critical_count_agree(method, of):
    least = int(least_right(of, method, 0.05))

    if least <= of:
        assert observed_count(method, least, of).p_value <= 0.05 * (1 + 1e-9)
    assert observed_count(method, least - 1, of).p_value > 0.05


@given(st.sampled_from([Method.TRIANGLE, Method.TWO_AFC, Method.TWO_OF_FIVE]), st.integers(1, 100))
def test_one_more_right_is_never_less_sure(method, of):
    seen = [observed_count(method, right, of) for right in range(min(of, 5) + 1)]

    assert [one.p_value for one in seen] == sorted((one.p_value for one in seen), reverse=True)
    assert [one.dprime.high for one in seen] == sorted(one.dprime.high for one in seen)


def test_the_paired_question_reads_the_same_from_either_cup():
    one, other = observed_count(Method.PAIRED, 15, 60), observed_count(Method.PAIRED, 45, 60)

    assert one.p_value == other.p_value
    assert one.dprime.estimate == pytest.approx(-other.dprime.estimate)
    assert (one.dprime.low, one.dprime.high) == pytest.approx((-other.dprime.high, -other.dprime.low))
    assert observed_count(Method.PAIRED, 30, 60).p_value == 1


def test_all_right_have_no_end_and_no_standard_error():
    observed = observed_count(Method.TRIANGLE, 8, 8)

    assert (observed.dprime.estimate, observed.dprime.high) == (math.inf, math.inf)
    assert math.isfinite(observed.dprime.low)
    assert math.isnan(observed.dprime_error)


def test_as_many_as_by_guessing_say_nothing_about_the_error_of_the_distance():
    observed = observed_count(Method.TRIANGLE, 10, 30)

    assert observed.share.estimate == pytest.approx(GUESSING[Method.TRIANGLE])
    assert math.isnan(observed.dprime_error)


@pytest.mark.parametrize(
    ("right", "of", "level", "sentence"),
    [
        (31, 30, 0.95, "31 right of 30 is not a result."),
        (-1, 30, 0.95, "-1 right of 30 is not a result."),
        (1.5, 30, 0.95, "1.5 right of 30 is not a result."),
        (math.nan, 30, 0.95, "nan right of 30 is not a result."),
        (0, 0, 0.95, "0 is not a number of answers"),
        (3, 30, 1.0, "A level of 1 is not between 0 and 1."),
    ],
)
def test_what_is_no_result_is_refused(right, of, level, sentence):
    with pytest.raises(Refused, match=sentence.replace(".", r"\.")):
        observed_count(Method.TRIANGLE, right, of, level=level)
