"""Principal components: identities, invariances, refusals."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.analyse.pca import pca
from cupwright.errors import IncompleteTable, NoSpread, Refused, TooFewObservations

TABLE = np.random.default_rng(5).normal(size=(7, 4)) @ np.diag([1.0, 3.0, 0.5, 10.0])


def test_points_have_the_eigenvalues_as_variances_and_shares_add_up_to_one():
    found = pca(TABLE)

    assert found.points.var(axis=0, ddof=1) == pytest.approx(found.eigenvalues)
    assert found.shares.sum() == pytest.approx(1)
    assert found.eigenvalues.sum() == pytest.approx(4)
    assert found.quality.sum(axis=1) == pytest.approx(np.ones(7))
    assert found.contributions.sum(axis=0) == pytest.approx(np.ones(4))


def test_correlations_are_those_of_columns_with_axes():
    for scale in (True, False):
        found = pca(TABLE, scale=scale)
        direct = np.corrcoef(TABLE.T, found.points.T)[:4, 4:]
        assert found.correlations == pytest.approx(direct)


@settings(max_examples=25, deadline=None)
@given(st.permutations(range(7)), st.floats(-50, 50), st.floats(0.01, 100))
def test_order_of_rows_shift_and_unit_never_turn_the_picture(order, shift, unit):
    moved = pca(unit * TABLE[list(order)] + shift)

    assert moved.points == pytest.approx(pca(TABLE).points[list(order)], abs=1e-7)


def test_the_largest_loading_of_every_axis_is_positive():
    found = pca(-TABLE)

    assert all(column[np.argmax(np.abs(column))] > 0 for column in found.loadings.T)


def test_an_attribute_without_spread_is_left_out_and_named():
    flat = np.column_stack([TABLE, np.full(7, 3.3)])

    found = pca(flat, attributes=["acidity", "body", "sweet", "clean", "uniform"])

    assert found.left_out == ("uniform",)
    assert found.points == pytest.approx(pca(TABLE).points)


@pytest.mark.parametrize(
    ("table", "error", "told"),
    [
        ([[1.0, 2.0]], TooFewObservations, "2 coffees"),
        ([[1.0, 2.0], [1.0, 2.0]], NoSpread, "No attribute differs"),
        ([[1.0, float("nan")], [1.0, 2.0]], IncompleteTable, "Attribute 2 of coffee 1"),
        ([1.0, 2.0], Refused, "2 dimensions"),
    ],
)
def test_tables_without_a_map_are_refused(table, error, told):
    with pytest.raises(error, match=told):
        pca(table)


def test_names_that_do_not_fit_are_refused():
    with pytest.raises(Refused, match="7 coffees have 1 names"):
        pca(TABLE, coffees=["421"])


def test_rows_are_coffees_with_their_places_and_go_to_data():
    found = pca(TABLE, coffees=list("abcdefg"))

    assert found.rows()[1]["coffee"] == "b"
    assert found.rows()[1]["axis_1"] == pytest.approx(found.points[1, 0])
    assert found.as_data()["eigenvalues"] == pytest.approx(found.eigenvalues.tolist())
