"""The six correlations and their bootstrap: refusals, limits and invariances."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from cupwright.core.analyse.agreement import icc_consistency
from cupwright.core.analyse.icc import FORMS, Iccs, icc
from cupwright.core.analyse.icc_bootstrap import icc_bootstrap
from cupwright.core.analyse.scores import scores_of
from cupwright.errors import NoSpread, Refused, TooFewObservations

SCORES = np.array([[9.0, 2, 5], [6, 1, 3], [8, 4, 6], [7, 1, 2]])
# Whole numbers: sums of them are exact, so that equal means are equal.
TABLES = arrays(np.int64, st.tuples(st.integers(2, 6), st.integers(2, 5)), elements=st.integers(-9, 9))


def ends(found: Iccs) -> list[float]:
    return [end for form in FORMS for end in (found[form].estimate, found[form].low, found[form].high)]


@given(TABLES)
def test_any_table_gives_ordered_finite_numbers_or_has_no_spread(values):
    try:
        found = icc(values.astype(float))
    except NoSpread:
        return

    assert np.isfinite(ends(found)).all()
    for form in FORMS:
        assert found[form].low <= found[form].estimate + 1e-12
        assert found[form].estimate <= found[form].high + 1e-12
        assert found[form].high <= 1 + 1e-12


@given(TABLES, st.randoms(use_true_random=False), st.sampled_from([-40.0, 3.0]), st.sampled_from([0.5, 8.0]))
def test_names_order_a_common_shift_and_the_unit_change_nothing(values, random, shift, unit):
    table = values.astype(float)
    rows, columns = list(range(len(table))), list(range(table.shape[1]))
    random.shuffle(rows)
    random.shuffle(columns)
    try:
        found = icc(table)
    except Refused as refusal:
        with pytest.raises(type(refusal)):
            icc(table[np.ix_(rows, columns)] * unit + shift)
        return

    assert ends(icc(table[np.ix_(rows, columns)] * unit + shift)) == pytest.approx(
        ends(found), rel=1e-6, abs=1e-6
    )


def test_a_taster_s_own_level_changes_points_but_not_differences():
    moved = icc(SCORES + np.array([0, 20, -5]))

    assert moved.icc3.estimate == pytest.approx(icc(SCORES).icc3.estimate)
    assert moved.icc2.estimate < icc(SCORES).icc2.estimate


def test_consistency_is_the_one_of_the_older_function():
    one, six = icc_consistency(SCORES, step=0.25), icc(SCORES, step=0.25).icc3

    assert (one.estimate, one.low, one.high) == pytest.approx((six.estimate, six.low, six.high))


def test_full_agreement_is_one_but_not_for_sure():
    found = icc(np.array([[7.0, 7], [6, 6], [8, 8]]))

    assert found.icc2.estimate == found.icc3k.estimate == 1
    assert found.icc3.low < 0.9
    assert found.icc3.high == 1


def test_coffees_of_one_mean_are_refused():
    with pytest.raises(NoSpread, match="All coffees have the same mean"):
        icc(np.array([[1.0, 3], [2, 2], [3, 1]]))


def test_a_common_level_of_a_thousand_million_is_no_spread():
    with pytest.raises(NoSpread):
        icc(np.full((4, 3), 1e9 + 0.1))


def test_whoever_was_left_out_is_named():
    holed = np.hstack([SCORES, [[1.0], [np.nan], [2], [3]]])

    found = icc(scores_of(holed, tasters=("Ada", "Bo", "Cy", "Di")))

    assert found.tasters_left_out == ("Di",)
    assert ends(found) == pytest.approx(ends(icc(SCORES)))


def test_six_rows_say_what_each_is_the_reliability_of():
    rows = icc(SCORES).rows()

    assert [row["form"] for row in rows] == list(FORMS)
    assert len({row["reliability_of"] for row in rows}) == 6
    assert icc(SCORES).to_pandas().shape == (6, 6)


def test_the_bootstrap_is_the_same_each_time_and_lies_about_the_estimate():
    scores = np.random.default_rng(3).normal(size=(12, 4)) + np.arange(12)[:, None] / 3

    once, again = icc_bootstrap(scores, "icc2k"), icc_bootstrap(scores, "icc2k")

    assert once == again
    assert once.low < once.estimate == pytest.approx(icc(scores).icc2k.estimate)
    assert once.estimate < once.high < 1


def test_the_bootstrap_is_silent_below_eight_coffees():
    with pytest.raises(TooFewObservations, match="needs 8 of them"):
        icc_bootstrap(SCORES)


def test_the_bootstrap_of_full_agreement_has_nothing_to_draw():
    with pytest.raises(NoSpread, match="agree in all"):
        icc_bootstrap(np.add.outer(np.arange(9.0), [0, 1]), "icc3")


def test_an_unknown_form_is_refused():
    with pytest.raises(Refused, match="no form 'icc4'"):
        icc_bootstrap(SCORES, "icc4")
