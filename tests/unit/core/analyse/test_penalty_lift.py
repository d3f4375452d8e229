"""Penalty-lift: two readings, and silence where one taster alone would speak."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.analyse.penalty_lift import penalty_lift
from cupwright.errors import NoSpread, Refused, TooFewObservations

WORD = np.array([[1, 1, 0], [0, 1, 0], [0, 0, 1], [1, 0, 0]])
LIKING = np.array([[6.0, 8, 4], [5, 8, 4], [5, 6, 7], [6, 6, 4]])


def test_within_tasters_a_tasters_own_level_does_not_count():
    found = penalty_lift(WORD, LIKING)

    moved = penalty_lift(WORD, LIKING + np.array([0, 30, -20]))

    assert found.within.estimate == pytest.approx(2.0)
    assert moved.within == found.within
    assert moved.lift.estimate != pytest.approx(found.lift.estimate)


@given(st.floats(0.25, 40), st.floats(-100, 100))
def test_the_unit_of_liking_carries_over(scale, shift):
    found, other = penalty_lift(WORD, LIKING), penalty_lift(WORD, LIKING * scale + shift)

    assert other.within.high == pytest.approx(found.within.high * scale, abs=1e-6)
    assert other.lift.low == pytest.approx(found.lift.low * scale, abs=1e-6)


def test_the_opposite_word_has_the_opposite_lift():
    found, other = penalty_lift(WORD, LIKING), penalty_lift(1 - WORD, LIKING)

    assert other.lift.estimate == pytest.approx(-found.lift.estimate)
    assert other.p == pytest.approx(found.p)


def test_a_cup_without_liking_or_without_an_answer_is_left_out():
    liking, word = LIKING.copy(), WORD.astype(float)
    liking[0, 0], word[1, 1] = np.nan, np.nan

    found = penalty_lift(word, liking)

    assert (found.checked, found.not_checked) == (3, 7)


def test_tasters_who_use_a_word_always_or_never_count_in_the_plain_reading_only():
    word = np.array([[1, 1, 0, 1], [1, 1, 0, 0]])
    liking = np.array([[7.0, 8, 4, 9], [6, 8, 5, 4]])

    found = penalty_lift(word, liking)

    assert (found.within, found.p, found.tasters_with_both, found.tasters) == (None, None, 1, 4)


def test_equal_lifts_on_a_scale_of_steps_leave_room():
    liking = np.array([[7.0, 5], [6, 4]])
    word = np.array([[1, 1], [0, 0]])

    with pytest.raises(NoSpread):
        penalty_lift(word, liking - np.array([0.0, -2.0]))
    stepped = penalty_lift(word, liking, step=1).within

    assert stepped.low < 1 < stepped.high


@pytest.mark.parametrize(
    ("word", "liking", "refusal"),
    [
        (np.zeros((3, 3)), LIKING[:3], TooFewObservations),
        (np.array([[1, 0, 0], [0, 0, 0]]), LIKING[:2], TooFewObservations),
        (WORD, np.full((4, 3), 5.0), NoSpread),
        (WORD, LIKING.T, Refused),
    ],
)
def test_what_rests_on_one_taster_or_none_is_refused(word, liking, refusal):
    with pytest.raises(refusal):
        penalty_lift(word, liking)


def test_rows_name_the_reading():
    assert [row["reading"] for row in penalty_lift(WORD, LIKING).rows()] == ["all cups", "within tasters"]


def test_a_level_of_nought_is_refused():
    with pytest.raises(Refused, match="not between 0 and 1"):
        penalty_lift(WORD, LIKING, level=0)
