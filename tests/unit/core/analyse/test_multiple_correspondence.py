"""Multiple correspondence analysis: identities and refusals."""

import numpy as np
import pytest

from cupwright.core.analyse.multiple_correspondence import multiple_correspondence
from cupwright.errors import IncompleteTable, NoSpread, Refused, TooFewObservations

ANSWERS = [
    ["washed", "light", "yes"],
    ["natural", "dark", "no"],
    ["washed", "dark", "no"],
    ["natural", "light", "yes"],
    ["honey", "light", "no"],
]


def test_total_of_the_eigenvalues_is_categories_over_questions_less_one():
    found = multiple_correspondence(ANSWERS)

    assert found.eigenvalues.sum() == pytest.approx(7 / 3 - 1)
    assert found.corrected_shares.sum() == pytest.approx(1)


def test_a_question_that_all_answer_alike_changes_nothing():
    longer = [[*row, "same"] for row in ANSWERS]

    assert multiple_correspondence(longer).points == pytest.approx(multiple_correspondence(ANSWERS).points)


def test_rows_that_answer_alike_lie_in_one_place_and_order_turns_nothing():
    doubled = [*ANSWERS, ANSWERS[0]]
    found = multiple_correspondence(doubled)

    assert found.points[0] == pytest.approx(found.points[5])
    assert multiple_correspondence(doubled[::-1]).points[::-1] == pytest.approx(found.points)


@pytest.mark.parametrize(
    ("answers", "error", "told"),
    [
        ([["a", "b"]], TooFewObservations, "two rows"),
        ([["a", "b"], ["a", None]], IncompleteTable, "Row 2 has no answer to question 2"),
        ([["a", "b"], ["a", float("nan")]], IncompleteTable, "question 2"),
        ([["a", "b"], ["a"]], Refused, "Row 2 has 1 answers"),
        ([["a", "b"], ["a", "b"]], NoSpread, "alike"),
        ([["a", "b"], ["a", "c"]], TooFewObservations, "two questions"),
    ],
)
def test_answers_without_a_map_are_refused(answers, error, told):
    with pytest.raises(error, match=told):
        multiple_correspondence(answers)


def test_categories_are_question_and_answer():
    found = multiple_correspondence(ANSWERS, questions=["process", "roast", "again"])

    assert found.categories[:3] == (("process", "honey"), ("process", "natural"), ("process", "washed"))
    assert np.isfinite(found.category_points).all()
