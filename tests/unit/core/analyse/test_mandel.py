"""Mandel's h and k: who stands apart, and what is refused."""

import numpy as np
import pytest

from cupwright.core.analyse.mandel import mandel
from cupwright.errors import IncompleteTable, TooFewObservations


def test_h_of_a_coffee_adds_up_to_nothing_and_squares_of_k_to_the_number_of_tasters():
    values = np.random.default_rng(2).normal(80, 1, (4, 5, 3))

    found = mandel(values)

    assert found.h.sum(axis=1) == pytest.approx(np.zeros(4), abs=1e-9)
    assert (found.k**2).sum(axis=1) == pytest.approx(np.full(4, 5.0))


def test_no_h_can_pass_its_ceiling_and_the_bound_lies_below_it():
    values = np.random.default_rng(2).normal(80, 0.01, (1, 5, 2))
    values[0, 3] += 50

    found = mandel(values)

    assert found.h_bound < found.h[0, 3] <= (5 - 1) / np.sqrt(5)


def test_equal_repeats_have_no_k_and_no_warning():
    assert np.isnan(mandel(np.full((2, 3, 2), 80.0)).k).all()


def test_holes_and_small_panels_are_refused():
    values = np.random.default_rng(2).normal(80, 1, (4, 5, 3))
    values[0, 0, 0] = np.nan
    with pytest.raises(IncompleteTable):
        mandel(values)
    with pytest.raises(TooFewObservations):
        mandel(np.ones((4, 2, 3)))
