"""Warm answers: words and colours of a table with the warmth of their cups."""

import numpy as np
from tests.unit.core.analyse.tables import TWO_CODES, answers_of, note, table_of

from cupwright.core.analyse.warm_answers import COMPONENTS, warm_colours, warm_words


def two_tasters():
    table = table_of(2, tuple(TWO_CODES))
    notes = [
        note(1, "241", "flavour/words", "lemon"),
        note(1, "573", "flavour/words", "cocoa"),
        note(2, "241", "aroma/words", "lemon, cocoa"),
        note(1, "241", "colour/colour", {"l": 0.9, "a": -0.02, "b": 0.15}),
        note(2, "573", "colour/colour", {"l": 0.4, "a": 0.05, "b": 0.1}),
    ]
    return answers_of(table, notes, TWO_CODES)


def test_one_tasters_answers_to_one_question_are_a_block():
    found = warm_words(two_tasters())

    assert len(set(found.block.tolist())) == 2
    assert found.used["lemon"].tolist() == [True, False, True]
    assert found.used["cocoa"].tolist() == [False, True, True]


def test_without_a_clock_no_temperature_is_known():
    assert np.isnan(warm_words(two_tasters()).celsius).all()


def test_a_colour_gives_three_scores_with_their_coffees():
    found = warm_colours(two_tasters())

    assert tuple(found) == COMPONENTS
    assert found["lightness"].value.tolist() == [0.9, 0.4]
    assert found["green to red"].value.tolist() == [-0.02, 0.05]
    assert [found["lightness"].coffees[row] for row in found["lightness"].coffee] == [
        "North Slope",
        "South Slope",
    ]


def test_a_table_without_colours_has_none():
    assert warm_colours(answers_of(table_of(1, tuple(TWO_CODES)), [], TWO_CODES)) == {}
