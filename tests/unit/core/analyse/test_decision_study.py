"""Decision study and stepping up: identities and refusals."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.analyse.decision_study import Parts, decision_study, spearman_brown
from cupwright.core.analyse.icc import icc
from cupwright.core.analyse.which_to_quote import Purpose, which_to_quote
from cupwright.errors import NoSpread, Refused

SCORES = np.array([[9.0, 2, 5, 8], [6, 1, 3, 2], [8, 4, 6, 8], [7, 1, 2, 6], [10, 5, 6, 9]])


@given(st.floats(0, 1), st.floats(0.1, 20), st.floats(0.1, 20))
def test_stepping_up_twice_is_stepping_up_once_by_the_product(reliability, first, second):
    once = spearman_brown(reliability, first * second)

    assert spearman_brown(spearman_brown(reliability, first), second) == pytest.approx(once, abs=1e-9)


def test_with_the_tasters_there_were_it_says_what_the_correlations_say():
    found, study = icc(SCORES), decision_study(SCORES)

    now = study.at(4)

    assert study.now == 4
    assert now.differences == pytest.approx(found.icc3k.estimate)
    assert now.points == pytest.approx(found.icc2k.estimate)
    assert (now.differences_low, now.differences_high) == pytest.approx((found.icc3k.low, found.icc3k.high))


def test_more_tasters_are_never_worse_and_errors_shrink():
    steps = decision_study(SCORES).steps

    assert [step.tasters for step in steps] == list(range(1, 13))
    assert all(b.points >= a.points and b.differences >= a.differences for a, b in pairwise(steps))
    assert all(b.relative_error < a.relative_error for a, b in pairwise(steps))


def test_the_fewest_tasters_for_a_reliability():
    study = decision_study(Parts(1.0, 1.0, None, 1.0))

    assert study.fewest_for(0.75) == 3
    assert study.fewest_for(0.75, points=True) == 6
    assert study.fewest_for(0.99) is None


def test_repeats_divide_the_rest_but_not_the_interaction():
    parts = Parts(2.0, 0.0, 1.0, 1.0)

    assert decision_study(parts, [1], repeats=4).at(1).differences == pytest.approx(2 / (2 + 1 + 0.25))


def test_contradicting_tasters_have_no_part_for_the_coffees():
    study = decision_study(np.array([[1.0, 3], [2, 2], [3, 1.5]]))

    assert {step.differences for step in study.steps} == {0.0}


def test_what_cannot_be_studied_is_refused():
    with pytest.raises(Refused, match="1 taster at least"):
        decision_study(SCORES, [0, 1])
    with pytest.raises(Refused, match="each taster scored each coffee once"):
        decision_study(SCORES, repeats=2)
    with pytest.raises(NoSpread, match="All variances are 0"):
        decision_study(Parts(0.0, 0.0, 0.0, 0.0))
    with pytest.raises(Refused, match="cannot be stepped up"):
        spearman_brown(1.5, 2)
    with pytest.raises(Refused, match="below the least"):
        spearman_brown(-0.9, 3)


@pytest.mark.parametrize("purpose", list(Purpose))
def test_each_purpose_has_a_coefficient_that_can_be_imported_and_a_reason(purpose):
    import cupwright

    quote = which_to_quote(purpose)

    assert quote == which_to_quote(purpose.name.lower())
    assert quote.coefficient in icc(SCORES).as_data() or hasattr(cupwright, quote.coefficient)
    assert quote.reason.endswith(".")


def test_an_unknown_purpose_is_refused_with_those_there_are():
    with pytest.raises(Refused, match="no purpose 'glory'"):
        which_to_quote("glory")
