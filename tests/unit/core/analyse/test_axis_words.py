"""An axis in words: both ends, one end, or silence."""

import numpy as np

from cupwright.core.analyse.axis_words import axis_words

NAMED = ("bright", "floral", "heavy", "cocoa", "dry")


def test_both_ends_are_named_by_what_goes_most_with_them():
    found = axis_words(np.array([-0.95, -0.8, 0.9, 0.75, 0.72]), NAMED)

    assert found.text == "from bright, floral to heavy, cocoa"


def test_one_end_alone_is_said_as_more_or_less():
    assert axis_words(np.array([0.9, 0.1, 0, 0, 0]), NAMED).text == "to more bright"
    assert axis_words(np.array([-0.9, 0.1, 0, 0, 0]), NAMED).text == "to less bright"


def test_an_axis_that_carries_no_more_than_chance_stays_silent():
    strong = np.array([-0.95, -0.8, 0.9, 0.75, 0.72])

    assert axis_words(strong, NAMED, p_value=0.06).text == ""
    assert axis_words(strong, NAMED, p_value=0.05).text != ""


def test_weak_words_are_not_said():
    assert axis_words(np.full(5, 0.69), NAMED).text == ""
