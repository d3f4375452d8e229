"""Kappas: counting, limits, silence and refusals."""

import numpy as np
import pytest

from cupwright.core.analyse.kappa import (
    category_counts,
    cohen_kappa,
    cross_count,
    fleiss_kappa,
    randolph_kappa,
)
from cupwright.errors import NoSpread, Refused, TooFewObservations

COUNTS = [[20, 5, 1], [4, 15, 3], [2, 6, 9]]


def test_answers_are_counted_by_pair_and_by_coffee():
    assert cross_count("aab", "abb", "ab").tolist() == [[1, 1], [0, 1]]
    assert category_counts([["a", "b", None], ["b", "b", "b"]], "ab").tolist() == [[1, 1], [0, 3]]


def test_changing_places_changes_nothing():
    turned = np.array(COUNTS).T

    assert cohen_kappa(turned, weights="linear").estimate == pytest.approx(
        cohen_kappa(COUNTS, weights="linear").estimate
    )


def test_the_names_of_categories_do_not_matter_without_weights():
    order = [2, 0, 1]

    assert cohen_kappa(np.array(COUNTS)[np.ix_(order, order)]).estimate == pytest.approx(
        cohen_kappa(COUNTS).estimate
    )


def test_with_two_categories_weights_make_no_difference():
    found = {cohen_kappa([[20, 5], [10, 15]], weights=w).estimate for w in ("none", "linear", "quadratic")}

    assert max(found) - min(found) < 1e-12


def test_full_agreement_is_one_without_an_interval():
    found = cohen_kappa([[15, 0], [0, 15]])

    assert found.estimate == pytest.approx(1)
    assert found.low is None
    assert "cannot be told" in found.why_not


def test_no_interval_for_few_coffees_nor_for_a_rare_category():
    assert "needs 20 coffees; here are 8" in cohen_kappa([[3, 1], [1, 3]]).why_not
    assert "outside the commonest category; here are 4" in cohen_kappa([[45, 1], [1, 3]]).why_not


def test_an_interval_lies_inside_its_range():
    found = cohen_kappa(COUNTS)

    assert found.low is not None
    assert found.high is not None
    assert -1 < found.low < found.estimate < found.high < 1


def test_fleiss_kappa_of_two_tasters_who_share_their_habits_is_cohens():
    counts = np.array([[10, 5], [5, 10]])
    per_coffee = np.array([[2, 0]] * 10 + [[1, 1]] * 10 + [[0, 2]] * 10)

    assert fleiss_kappa(per_coffee).estimate == pytest.approx(cohen_kappa(counts).estimate)


def test_what_is_no_table_of_counts_is_refused():
    with pytest.raises(Refused, match="square table"):
        cohen_kappa([[1, 2, 3], [4, 5, 6]])
    with pytest.raises(Refused, match="from 0 up"):
        cohen_kappa([[1, -2], [3, 4]])
    with pytest.raises(Refused, match="no weights 'cubic'"):
        cohen_kappa(COUNTS, weights="cubic")
    with pytest.raises(Refused, match="as many tasters"):
        fleiss_kappa([[2, 1], [1, 1]])
    with pytest.raises(Refused, match="none of the categories"):
        cross_count("ax", "aa", "ab")
    with pytest.raises(Refused, match="none of the categories"):
        category_counts(["ax"], "ab")
    with pytest.raises(Refused, match="2 answers face 1"):
        cross_count("ab", "a", "ab")


def test_too_little_and_too_even_are_said():
    with pytest.raises(TooFewObservations):
        cohen_kappa([[1, 0], [0, 0]])
    with pytest.raises(TooFewObservations):
        fleiss_kappa([[1, 0], [0, 1]])
    with pytest.raises(NoSpread):
        cohen_kappa([[9, 0], [0, 0]])
    with pytest.raises(NoSpread):
        fleiss_kappa([[3, 0], [3, 0]])
    with pytest.raises(NoSpread):
        randolph_kappa([[3], [3]])
