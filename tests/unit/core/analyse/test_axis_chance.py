"""Axes against chance: found where tasters agree, silent where they do not, exact to the number of deals."""

import numpy as np
import pytest

from cupwright.core.analyse.axis_chance import affordable, axes_beyond_chance
from cupwright.errors import IncompleteTable, NoSpread, Refused, TooFewObservations

RNG = np.random.default_rng(12)
NOISE = RNG.normal(size=(6, 5, 4))
SHIFT = np.array([[0.0], [1], [2], [3], [9]]) * [1, 0.5, -1, 0]


def test_what_all_tasters_agree_on_is_more_than_chance_in_one_axis_only():
    found = axes_beyond_chance(NOISE + SHIFT)

    assert found[0] == pytest.approx(1 / 1000)
    assert found[1] > 0.05


def test_later_axes_never_get_a_smaller_p_and_levels_do_not_matter():
    found = axes_beyond_chance(NOISE)

    assert (np.diff(found) >= 0).all()
    assert axes_beyond_chance(NOISE + 30 * RNG.normal(size=(6, 1, 4))) == pytest.approx(found)


def test_a_table_without_tasters_is_judged_column_by_column():
    line = np.linspace(0, 1, 9)[:, None] * np.ones(5) + 0.01 * RNG.normal(size=(9, 5))

    assert axes_beyond_chance(line)[0] < 0.01
    assert axes_beyond_chance(RNG.normal(size=(9, 5)))[0] > 0.01


def test_two_tasters_and_three_coffees_can_never_prove_an_axis():
    agreed = np.array([[0.0], [1], [2]]) * np.ones((2, 1, 2))

    assert axes_beyond_chance(agreed)[0] > 0.05


def test_what_cannot_be_judged_is_refused():
    with pytest.raises(NoSpread, match="No two coffees differ"):
        axes_beyond_chance(np.ones((4, 3, 2)))
    with pytest.raises(TooFewObservations, match="three coffees"):
        axes_beyond_chance(NOISE[:, :2])
    with pytest.raises(IncompleteTable, match="missing"):
        axes_beyond_chance(np.full((4, 3, 2), np.nan))
    with pytest.raises(Refused, match="2 or 3 dimensions"):
        axes_beyond_chance(np.ones(3))


def test_a_crowd_is_dealt_out_less_often():
    assert affordable(999, 1000) == 999
    assert affordable(999, 10**8) == 99
