import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.analyse.cumulative_link import cumulative_link
from cupwright.errors import NoSpread, Refused, TooFewObservations

ANSWERS = np.array([1, 2, 2, 3, 1, 2, 3, 3, 4, 4, 2, 4], float)
GROUP = np.repeat([0.0, 1.0], 6)


def test_a_term_that_goes_with_higher_answers_is_positive_and_its_interval_holds_it():
    found = cumulative_link(ANSWERS, GROUP, names=["second group"])

    (interval,) = found.intervals
    assert found.names == ("second group",)
    assert interval.low < found.coefficients[0] < interval.high
    assert found.coefficients[0] > 0
    assert not found.penalised


@given(st.lists(st.floats(0.1, 50), min_size=4, max_size=4), st.permutations(range(12)))
@settings(max_examples=25, deadline=None)
def test_only_the_order_of_the_values_counts_and_not_that_of_the_rows(gaps, order):
    values = np.cumsum(gaps)[ANSWERS.astype(int) - 1]
    rows = list(order)

    found = cumulative_link(values[rows], GROUP[rows])

    plain = cumulative_link(ANSWERS, GROUP)
    assert found.coefficients == pytest.approx(plain.coefficients, abs=1e-7)
    assert found.log_likelihood == pytest.approx(plain.log_likelihood, abs=1e-9)


@pytest.mark.parametrize("link", ["logit", "probit"])
def test_the_scale_upside_down_turns_the_sign(link):
    up, down = cumulative_link(ANSWERS, GROUP, link=link), cumulative_link(-ANSWERS, GROUP, link=link)

    assert down.coefficients[0] == pytest.approx(-up.coefficients[0], abs=1e-7)
    assert down.intervals[0].low == pytest.approx(-up.intervals[0].high, abs=1e-4)
    assert down.thresholds == pytest.approx([-one for one in reversed(up.thresholds)], abs=1e-7)


def test_rows_that_stand_for_many_are_those_rows_many_times():
    once = cumulative_link(np.repeat(ANSWERS, 3), np.repeat(GROUP, 3))

    counted = cumulative_link(ANSWERS, GROUP, counts=np.full(12, 3.0))

    assert counted.coefficients == pytest.approx(once.coefficients, abs=1e-9)
    assert counted.errors == pytest.approx(once.errors, abs=1e-9)


def test_a_value_that_nobody_used_has_no_threshold():
    assert cumulative_link(np.where(ANSWERS == 4, 9, ANSWERS), GROUP).categories == (1, 2, 3, 9)


@pytest.mark.parametrize("link", ["logit", "probit"])
def test_groups_that_do_not_overlap_have_a_finite_answer_that_says_so(link):
    found = cumulative_link([1, 2, 1, 2, 1, 3, 4, 3, 4, 4], np.repeat([0, 1], 5), link=link)

    (interval,) = found.intervals
    assert found.penalised
    assert 0 < interval.low < found.coefficients[0] < 12
    assert interval.high < 40


def test_one_answer_for_all_is_no_spread():
    with pytest.raises(NoSpread, match="All answers are the same"):
        cumulative_link([3, 3, 3], [0, 1, 2])


def test_more_parameters_than_answers_are_refused():
    with pytest.raises(TooFewObservations, match="3 answers cannot carry 1 terms and 2 thresholds"):
        cumulative_link([1, 2, 3], [0, 1, 0])


@pytest.mark.parametrize(
    ("responses", "design", "more", "said"),
    [
        ([1, 2, 3], [0, 1], {}, "differ in length"),
        ([1, 2, np.nan, 2], [0, 1, 0, 1], {}, "not a finite number"),
        ([1, 2, 1, 2], [1, 1, 1, 1], {}, "constant or repeats"),
        (range(60), range(60), {}, "more than 50"),
        (ANSWERS, GROUP, {"link": "cauchit"}, "no link 'cauchit'"),
        (ANSWERS, GROUP, {"names": ["a", "b"]}, "1 terms have 2 names"),
    ],
)
def test_what_cannot_be_fitted_is_refused_in_a_sentence(responses, design, more, said):
    with pytest.raises(Refused, match=said):
        cumulative_link(responses, design, **more)


def test_rows_name_terms_and_the_steps_between_answers():
    rows = cumulative_link(ANSWERS, GROUP, names=["group"]).rows()

    assert [row["term"] for row in rows] == ["group", "1 | 2", "2 | 3", "3 | 4"]


def test_without_profiles_there_are_no_intervals():
    found = cumulative_link(ANSWERS, GROUP, profile=False)

    assert found.intervals == ()
    assert found.rows()[0]["low"] is None
