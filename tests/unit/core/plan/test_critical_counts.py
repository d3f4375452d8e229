"""Critical counts: from how many right answers on, and up to how many."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.plan.critical_counts import (
    chance_of_finding,
    checked_answers,
    least_right,
    most_right_if_alike,
)
from cupwright.core.plan.discrimination import GUESSING, Method, share_from_discriminators
from cupwright.errors import Refused

methods = st.sampled_from(Method)
errors = st.floats(0.001, 0.4)


@given(methods, st.integers(1, 3000), errors)
def test_the_least_count_keeps_the_error_and_one_fewer_would_not(method, n, alpha):
    least = int(least_right(n, method, alpha))

    assert chance_of_finding(n, least, method, GUESSING[method]) <= alpha * (1 + 1e-9)
    assert chance_of_finding(n, least - 1, method, GUESSING[method]) > alpha


@given(methods, errors)
def test_one_taster_more_takes_the_same_count_or_one_more(method, alpha):
    steps = np.diff(least_right(np.arange(1, 500), method, alpha))

    assert set(steps) <= {0, 1}


@given(methods, st.integers(1, 400), errors, errors)
def test_a_stricter_error_never_takes_fewer_right(method, n, one, other):
    strict, lax = sorted((one, other))

    assert least_right(n, method, strict) >= least_right(n, method, lax)


def test_a_chance_that_equals_the_error_is_within_it():
    """All of n right by guessing at one in ten: exactly 0.1, 0.01 and 0.001."""
    assert least_right([1, 2, 3], Method.TWO_OF_FIVE, 0.1).tolist()[0] == 1
    assert int(least_right(2, Method.TWO_OF_FIVE, 0.01)) == 2
    assert int(least_right(3, Method.TWO_OF_FIVE, 0.001)) == 3


def test_counts_keep_the_shape_of_what_was_asked():
    assert least_right(np.array([[6, 12], [18, 24]]), Method.TRIANGLE, 0.05).tolist() == [[5, 8], [10, 13]]
    assert least_right(12, Method.TRIANGLE, 0.05).shape == ()


@given(methods, st.integers(2, 300), errors, st.floats(0.05, 0.9))
def test_the_most_for_likeness_keeps_its_error_and_one_more_would_not(method, n, beta, discriminators):
    share = share_from_discriminators(method, discriminators)
    most = most_right_if_alike(n, method, beta, share)

    def claimed(count: int) -> float:
        return 1 - float(chance_of_finding(n, count + 1, method, share))

    if most is not None:
        assert claimed(most) <= beta + 1e-9
    following = most + 1 if most is not None else ((n + 1) // 2 if method is Method.PAIRED else 0)
    assert claimed(following) > beta - 1e-9


def test_the_paired_question_counts_whichever_cup_was_chosen_more():
    assert chance_of_finding(10, 9, Method.PAIRED, 0.5) == pytest.approx(22 / 1024)
    assert chance_of_finding(10, 9, Method.PAIRED, 0.8) == pytest.approx(
        chance_of_finding(10, 9, Method.PAIRED, 0.2)
    )
    assert most_right_if_alike(10, Method.PAIRED, 0.05, 0.5) is None


@pytest.mark.parametrize("alpha", [0, 1, -0.1, 5, math.nan])
def test_an_error_that_is_none_is_refused(alpha):
    with pytest.raises(Refused, match="is not between 0 and 1"):
        least_right(10, Method.TRIANGLE, alpha)


@pytest.mark.parametrize("answers", [0, -3, 2.5, 100_001, math.nan, math.inf])
def test_a_number_of_answers_that_is_none_is_refused(answers):
    with pytest.raises(Refused, match="is not a number of answers"):
        checked_answers(answers)
