"""The part of a table without holes."""

import numpy as np
import pytest

from cupwright.core.analyse.complete_table import complete_table
from cupwright.core.analyse.scores import scores_of
from cupwright.errors import TooFewObservations

HOLE = np.nan


def test_a_taster_who_left_early_costs_one_taster():
    scores = scores_of(
        np.array([[1.0, 2, 3], [4, 5, HOLE], [6, 7, HOLE], [8, 9, 1]]), tasters=("A", "B", "C")
    )

    found = complete_table(scores)

    assert found.tasters == ("A", "B")
    assert found.tasters_left_out == ("C",)
    assert found.coffees_left_out == ()


def test_a_coffee_that_half_of_the_tasters_missed_is_left_out_rather_than_they():
    values = np.ones((5, 4))
    values[2, :2] = HOLE

    found = complete_table(scores_of(values))

    assert found.coffees_left_out == ("3",)
    assert found.values.shape == (4, 4)


def test_a_taster_without_any_score_is_not_counted_as_left_out():
    values = np.column_stack([np.arange(6.0).reshape(3, 2), np.full(3, HOLE)])

    found = complete_table(scores_of(values))

    assert (found.tasters, found.tasters_left_out) == (("1", "2"), ())


def test_repeats_are_averaged_and_counted():
    found = complete_table(np.array([[[1.0, 3], [2, 2]], [[5, 7], [4, 8]]]))

    assert found.values == pytest.approx(np.array([[2, 2], [6, 6]]))
    assert found.repeats == 2


def test_equal_holes_leave_together_whatever_the_order_of_the_tasters():
    values = np.arange(20.0).reshape(5, 4)
    values[0, 1] = values[3, 2] = HOLE

    found, turned = complete_table(values), complete_table(values[:, ::-1])

    assert found.coffees_left_out == ("1", "4")
    assert turned.values == pytest.approx(found.values[:, ::-1])


@pytest.mark.parametrize("values", [np.ones((1, 5)), np.ones((5, 1)), np.array([[1, HOLE], [HOLE, 1]])])
def test_too_little_without_holes_is_refused(values):
    with pytest.raises(TooFewObservations, match="needs 2 coffees and 2 tasters"):
        complete_table(values)
