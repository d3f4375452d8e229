"""Correspondence analysis: identities, supplementary points, refusals."""

import numpy as np
import pytest

from cupwright.core.analyse.correspondence import correspondence
from cupwright.errors import IncompleteTable, NoSpread, Refused

COUNTS = np.array([[5, 1, 0, 3], [1, 6, 2, 2], [0, 2, 7, 1], [4, 4, 4, 3]])


def test_total_inertia_is_chi_square_over_the_sum():
    expected = np.outer(COUNTS.sum(1), COUNTS.sum(0)) / COUNTS.sum()
    found = correspondence(COUNTS)

    assert found.chi_square == pytest.approx(np.sum((COUNTS - expected) ** 2 / expected))
    assert found.total_inertia * COUNTS.sum() == pytest.approx(found.chi_square)
    assert found.freedom == 9


def test_points_are_centred_by_their_masses_and_distances_are_chi_square_distances():
    found = correspondence(COUNTS)
    profiles = COUNTS / COUNTS.sum(1, keepdims=True)
    apart = np.sum((profiles[0] - profiles[1]) ** 2 / found.column_masses)

    assert found.row_masses @ found.row_points == pytest.approx(np.zeros(3), abs=1e-12)
    assert np.sum((found.row_points[0] - found.row_points[1]) ** 2) == pytest.approx(apart)


def test_a_line_laid_on_again_falls_on_itself():
    found = correspondence(COUNTS, extra_rows=COUNTS[1:2], extra_columns=COUNTS[:, 2:3])

    assert found.extra_row_points == pytest.approx(found.row_points[1:2])
    assert found.extra_column_points == pytest.approx(found.column_points[2:3])


def test_rows_in_another_order_give_the_same_picture_and_ten_times_the_counts_too():
    order = [2, 0, 3, 1]

    assert correspondence(COUNTS[order]).row_points == pytest.approx(correspondence(COUNTS).row_points[order])
    assert correspondence(10 * COUNTS).row_points == pytest.approx(correspondence(COUNTS).row_points)


def test_two_coffees_have_one_axis():
    assert correspondence(COUNTS[:2, [0, 1, 3]]).row_points.shape == (2, 1)


@pytest.mark.parametrize(
    ("counts", "error", "told"),
    [
        ([[1, 2], [0, 0]], IncompleteTable, "Coffee 2 has no count"),
        ([[1, 0], [2, 0]], IncompleteTable, "Word 2 has no count"),
        ([[1, -1], [2, 3]], Refused, "negative"),
        ([[1, 2], [2, 4]], NoSpread, "alike"),
    ],
)
def test_counts_without_a_map_are_refused(counts, error, told):
    with pytest.raises(error, match=told):
        correspondence(counts)


def test_added_lines_that_do_not_fit_are_refused():
    with pytest.raises(Refused, match="another length than 4"):
        correspondence(COUNTS, extra_rows=[[1, 2]])
    with pytest.raises(IncompleteTable, match="no count"):
        correspondence(COUNTS, extra_rows=[[0, 0, 0, 0]])


def test_rows_tell_coffees_from_words():
    roles = [row["role"] for row in correspondence(COUNTS).rows()]

    assert roles == ["coffee"] * 4 + ["word"] * 4
