"""Agreement: refusals, limits and invariances."""

import numpy as np
import pytest

from cupwright.core.analyse.agreement import agreement, icc_consistency
from cupwright.errors import IncompleteTable, NoSpread, TooFewObservations

SCORES = np.array([[9.0, 2, 5], [6, 1, 3], [8, 4, 6], [7, 1, 2]])


def test_missing_cell_is_refused_and_the_message_names_the_cell():
    holed = SCORES.copy()
    holed[1, 2] = np.nan

    with pytest.raises(IncompleteTable, match="Taster 3 did not score coffee 2"):
        icc_consistency(holed)


@pytest.mark.parametrize("shape", [(1, 5), (5, 1), (0, 0), (2, 0)])
def test_too_small_a_table_is_refused(shape):
    with pytest.raises(TooFewObservations, match="needs 2 coffees and 2 tasters"):
        icc_consistency(np.zeros(shape))


def test_tasters_who_tell_no_coffees_apart_are_refused_whatever_their_levels():
    levels_only = np.tile([0.1, 7.3, 2.2], (4, 1))

    with pytest.raises(NoSpread, match="No taster scored any two coffees differently"):
        icc_consistency(levels_only)


def test_agreement_is_one_when_tasters_differ_only_in_level():
    icc = icc_consistency(np.add.outer([1.0, 2.0, 4.0, 8.0], [0.0, 3.0, 5.0]))

    assert (icc.low, icc.estimate, icc.high) == pytest.approx((1, 1, 1))


def test_agreement_is_minus_one_when_two_tasters_contradict_each_other():
    icc = icc_consistency(np.array([[1.0, 3.0], [2.0, 2.0], [3.0, 1.0]]))

    assert icc.estimate == pytest.approx(-1)


def test_a_habitual_level_and_a_common_unit_change_nothing():
    moved = icc_consistency(10 * SCORES + [100, -50, 3])

    assert moved.estimate == pytest.approx(icc_consistency(SCORES).estimate)
    assert moved.low == pytest.approx(icc_consistency(SCORES).low)


def test_tasters_with_holes_are_dropped_and_counted_but_absent_ones_are_not():
    holes = np.full((4, 2), np.nan)
    holes[0, 0] = 5.0

    found = agreement(np.hstack([SCORES, holes]))

    assert (found.tasters, found.dropped) == (3, 1)
    assert found.icc == icc_consistency(SCORES)


def test_a_wider_level_gives_a_wider_interval():
    narrow, wide = icc_consistency(SCORES, level=0.8), icc_consistency(SCORES, level=0.99)

    assert wide.low < narrow.low < narrow.estimate < narrow.high < wide.high


def test_whole_points_that_are_the_same_are_no_proof_of_full_agreement_at_a_small_table():
    same = np.array([[7.0, 7.0], [6.0, 6.0], [6.0, 6.0]])

    icc = icc_consistency(same, step=1)

    assert icc.estimate == pytest.approx(1)
    assert icc.low < 0


def test_a_step_far_below_the_residuals_changes_nothing():
    assert icc_consistency(SCORES, step=0.25) == icc_consistency(SCORES)
