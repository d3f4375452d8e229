"""Page's test: order, ties, size."""

import numpy as np
import pytest

from cupwright.core.analyse.page import page_trend
from cupwright.core.analyse.scores import scores_of
from cupwright.errors import IncompleteTable, NoSpread, Refused, TooFewObservations


def test_one_taster_who_puts_four_coffees_in_order_does_so_once_in_24():
    assert page_trend(np.array([[1.0], [2], [3], [4]])).p == pytest.approx(1 / 24)


def test_the_order_is_taken_by_name():
    scores = scores_of(np.array([[3.0, 3], [1, 1], [2, 2]]), coffees=["dark", "light", "medium"])

    rising = page_trend(scores, order=["light", "medium", "dark"])

    assert rising.p == pytest.approx(1 / 36)
    assert page_trend(scores, order=["dark", "medium", "light"]).p == pytest.approx(1.0)


def test_ties_as_they_are_are_less_cautious_than_printed_tables():
    scores = np.array([[1.0, 1, 1, 2], [2, 2, 1, 2], [2, 3, 3, 4]])

    assert page_trend(scores).p < page_trend(scores, tied=False).p


def test_more_coffees_than_can_be_worked_out_get_the_normal_tail():
    found = page_trend(np.random.default_rng(1).normal(size=(20, 6)))

    assert (found.method, found.p) == ("normal", found.p_normal)


def test_the_exact_value_lies_by_the_normal_one_where_tasters_are_many():
    found = page_trend(np.random.default_rng(2).normal(size=(5, 60)) + 0.1 * np.arange(5)[:, None])

    assert found.method == "exact"
    assert found.p == pytest.approx(found.p_normal, rel=0.1)


@pytest.mark.parametrize(
    ("scores", "refusal"),
    [
        (np.ones((3, 4)), NoSpread),
        (np.array([[1.0, 2], [2, 3]]), TooFewObservations),
        (np.array([[1.0, 2], [2, 3], [3, np.nan]]), IncompleteTable),
    ],
)
def test_what_has_no_trend_is_refused(scores, refusal):
    with pytest.raises(refusal):
        page_trend(scores)


def test_an_order_that_forgets_a_coffee_is_refused():
    with pytest.raises(Refused, match="every coffee once"):
        page_trend(np.array([[1.0], [2], [3]]), order=["1", "2", "2"])
