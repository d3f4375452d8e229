"""Alpha: holes, limits, silence and invariances."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from cupwright.core.analyse.krippendorff import METRICS, krippendorff_alpha
from cupwright.errors import NoSpread, Refused, TooFewObservations

HOLE = np.nan
TABLES = arrays(np.int64, st.tuples(st.integers(2, 7), st.integers(2, 5)), elements=st.integers(-1, 6))


def holed(values: np.ndarray) -> np.ndarray:
    """Numbers from 0, with a hole for each -1."""
    return np.where(values < 0, HOLE, values.astype(float))


def by_pairs(table: np.ndarray, distance) -> float:
    """Alpha from its definition, pair by pair."""
    units = [row[~np.isnan(row)] for row in table if (~np.isnan(row)).sum() > 1]
    every = np.concatenate(units)
    observed = sum(distance(unit[:, None], unit).sum() / (len(unit) - 1) for unit in units) / len(every)
    expected = distance(every[:, None], every).sum() / (len(every) * (len(every) - 1))
    return float(1 - observed / expected)


@given(TABLES)
def test_the_one_pass_is_the_definition_pair_by_pair(values):
    table = holed(values)
    try:
        interval, nominal = (krippendorff_alpha(table, metric, draws=0) for metric in ("interval", "nominal"))
    except Refused:
        return

    assert interval.estimate == pytest.approx(by_pairs(table, lambda a, b: (a - b) ** 2), abs=1e-9)
    assert nominal.estimate == pytest.approx(by_pairs(table, lambda a, b: (a != b).astype(float)), abs=1e-9)


@given(TABLES, st.randoms(use_true_random=False), st.sampled_from(METRICS))
def test_who_is_who_changes_nothing(values, random, metric):
    table = holed(values)
    rows, columns = list(range(len(table))), list(range(table.shape[1]))
    random.shuffle(rows)
    random.shuffle(columns)
    try:
        found = krippendorff_alpha(table, metric, draws=0)
    except Refused:
        return

    turned = krippendorff_alpha(table[np.ix_(rows, columns)], metric, draws=0)

    assert turned.estimate == pytest.approx(found.estimate, abs=1e-9)
    assert (turned.coffees, turned.values, turned.left_out) == (found.coffees, found.values, found.left_out)


def test_shift_and_unit_change_nothing_on_an_interval_scale():
    table = np.random.default_rng(5).normal(size=(8, 3))

    assert krippendorff_alpha(100 + 7 * table).estimate == pytest.approx(krippendorff_alpha(table).estimate)


@pytest.mark.parametrize("metric", METRICS)
def test_full_agreement_is_one_without_an_interval(metric):
    found = krippendorff_alpha(np.tile(np.arange(1.0, 9)[:, None], 3), metric)

    assert found.estimate == pytest.approx(1)
    assert found.low is None
    assert "drawing coffees again tells nothing" in found.why_not


def test_no_interval_below_six_coffees():
    found = krippendorff_alpha(np.random.default_rng(5).normal(size=(5, 3)))

    assert found.low is found.high is None
    assert "needs 6 coffees; here are 5" in found.why_not


def test_the_interval_is_the_same_each_time_and_around_the_estimate():
    table = np.random.default_rng(5).normal(size=(10, 4)) + np.arange(10)[:, None]
    table[2, 1] = HOLE

    found = krippendorff_alpha(table)

    assert found == krippendorff_alpha(table)
    assert found.low is not None
    assert found.high is not None
    assert found.low < found.estimate < found.high < 1


def test_a_single_value_has_no_partner_and_is_counted():
    table = np.array([[1.0, 2, HOLE], [HOLE, 5, HOLE], [4, 4, 3]])

    found = krippendorff_alpha(table)

    assert (found.coffees, found.values, found.left_out) == (2, 5, 1)


def test_what_cannot_be_compared_is_refused():
    with pytest.raises(TooFewObservations, match="2 coffees with 2 values each"):
        krippendorff_alpha(np.array([[1.0, HOLE], [2, HOLE], [3, 4]]))
    with pytest.raises(NoSpread, match="are the same"):
        krippendorff_alpha(np.full((3, 3), 7.0))
    with pytest.raises(Refused, match="no value below 0"):
        krippendorff_alpha(np.array([[-1.0, 2], [3, 4]]), "ratio")
    with pytest.raises(Refused, match="no metric 'cosine'"):
        krippendorff_alpha(np.array([[1.0, 2], [3, 4]]), "cosine")
    with pytest.raises(Refused, match="cannot be averaged"):
        krippendorff_alpha(np.array([[[1.0, 2], [1, 1]], [[2, 2], [1, 2]]]), "nominal")


def test_the_order_of_coffees_and_tasters_changes_no_end_of_the_interval():
    rng = np.random.default_rng(3)
    table = np.round(2 * (rng.normal(7, 1, (9, 1)) + rng.normal(0, 0.7, (9, 5)))) / 2
    table[rng.random(table.shape) < 0.2] = HOLE

    found = krippendorff_alpha(table)
    shuffled = krippendorff_alpha(table[rng.permutation(9)][:, rng.permutation(5)])

    assert found.low is not None
    assert (shuffled.low, shuffled.high) == pytest.approx((found.low, found.high), abs=1e-12)
