"""Answers: which notes hold, and where each lands."""

import numpy as np
import pytest
from tests.unit.core.analyse.tables import (
    NORTH,
    SOUTH,
    TWO_CODES,
    answers_of,
    note,
    small_lexicon,
    table_of,
)

from cupwright.core.analyse.answers import gather
from cupwright.core.plan.table import Blinding
from cupwright.core.taste.late import LateCount
from cupwright.core.taste.sheet import Field, Kind, Moment, Pass, Sheet
from cupwright.errors import NotFound, Refused


def test_a_correction_replaces_and_a_deletion_removes():
    table = table_of(2, tuple(TWO_CODES))
    notes = [
        note(1, "241", "flavour/words", "lemon"),
        note(1, "241", "flavour/words", "orange", counter=2),
        note(2, "241", "verdict/liking", 70.0),
        note(2, "241", "verdict/liking", None, counter=2),
    ]

    answers = answers_of(table, notes, TWO_CODES)

    assert [w.text for w in answers.written] == ["orange"]
    assert answers.given == ()


def test_what_came_late_is_counted_as_left_out_and_nowhere_else():
    table = table_of(2, tuple(TWO_CODES))
    notes = [
        note(1, "241", "flavour/words", "lemon"),
        note(1, "241", "flavour/words", "orange", counter=2),
        note(2, "241", "verdict/liking", 70.0),
        note(2, "241", "verdict/liking", None, counter=2),
        note(2, "573", "verdict/liking", 20.0),
    ]
    late = {notes[1].id, notes[3].id, notes[4].id}

    answers = answers_of(table, notes, TWO_CODES, late=late)

    assert [w.text for w in answers.written] == ["lemon"]
    assert [(given.place, given.value) for given in answers.given] == [("241", 70.0)]
    liking = next(scale for scale in answers.scales if scale.field.id == "liking")
    np.testing.assert_array_equal(liking.values, [[np.nan, 70.0], [np.nan, np.nan]])
    assert answers.late == LateCount(answers=2, tasters=2)
    assert answers_of(table, notes[:1], TWO_CODES).late == LateCount(0, 0)


def test_a_scale_holds_rows_of_coffees_and_columns_of_tasters_with_holes():
    table = table_of(2, tuple(TWO_CODES))
    notes = [note(1, "241", "verdict/liking", 70.0), note(2, "573", "verdict/liking", 20.0)]

    answers = answers_of(table, notes, TWO_CODES)

    liking = next(scale for scale in answers.scales if scale.field.id == "liking")
    np.testing.assert_array_equal(liking.values, [[70.0, np.nan], [np.nan, 20.0]])
    assert [coffee.name for coffee in answers.coffees] == ["North Slope", "South Slope"]


def test_places_of_one_coffee_are_averaged_but_their_rows_are_kept():
    place_coffee = {"1": NORTH.id, "2": SOUTH.id, "3": NORTH.id}
    table = table_of(1, ("234", "345", "456"), blinding=Blinding.SHUFFLE)
    notes = [
        note(1, "1", "verdict/liking", 60.0),
        note(1, "3", "verdict/liking", 80.0),
        note(1, "2", "verdict/liking", 10.0),
        note(1, "1", "flavour/words", "lemon"),
        note(1, "3", "flavour/words", "orange"),
    ]

    answers = answers_of(table, notes, place_coffee)

    liking = next(scale for scale in answers.scales if scale.field.id == "liking")
    np.testing.assert_array_equal(liking.values, [[70.0], [10.0]])
    assert answers.places == (("1", "3"), ("2",))
    assert [(one.place, one.value) for one in answers.given] == [("1", 60.0), ("3", 80.0), ("2", 10.0)]
    assert {(w.place, w.coffee) for w in answers.written} == {("1", NORTH.id), ("3", NORTH.id)}


def test_text_is_kept_word_for_word_and_only_words_are_read():
    table = table_of(1, tuple(TWO_CODES))
    notes = [
        note(1, "241", "flavour/words", "  Lemon!  "),
        note(1, "241", "verdict/line", "lemon"),
        note(1, "573", "flavour/words", "   "),
    ]

    answers = answers_of(table, notes, TWO_CODES)

    by_field = {w.field: w for w in answers.written}
    assert by_field["words"].text == "  Lemon!  "
    assert by_field["words"].reading.concepts == {"lemon"}
    assert by_field["line"].reading is None
    assert len(answers.written) == 2


def test_points_written_as_text_become_numbers():
    sheet = Sheet(
        "points",
        1,
        "Points",
        (
            Pass(
                "p", "P", "?", Moment.HOT, (Field("score", Kind.POINTS, "Score", low=6, high=10, step=0.25),)
            ),
        ),
    )
    table = table_of(1, tuple(TWO_CODES), sheet=sheet)

    answers = answers_of(table, [note(1, "241", "p/score", "7.75")], TWO_CODES)

    assert answers.scales[0].values[0, 0] == 7.75


@pytest.mark.parametrize("value", ["seven", "nan", {"l": 1.0}, [1, 2]])
def test_an_answer_that_is_no_number_is_refused_by_name(value):
    table = table_of(1, tuple(TWO_CODES))

    with pytest.raises(Refused, match="verdict/liking is not a number"):
        answers_of(table, [note(1, "241", "verdict/liking", value)], TWO_CODES)


@pytest.mark.parametrize(
    "stray",
    [note(9, "241", "aroma/words", "x"), note(1, "999", "aroma/words", "x"), note(1, "241", "no/words", "x")],
)
def test_a_note_of_another_table_is_refused(stray):
    with pytest.raises(NotFound, match="which this table does not have"):
        answers_of(table_of(1, tuple(TWO_CODES)), [stray], TWO_CODES)


def test_a_place_whose_coffee_is_gone_is_refused():
    with pytest.raises(NotFound, match="place 573"):
        gather(table_of(1, tuple(TWO_CODES)), [], TWO_CODES, [NORTH], small_lexicon())


def test_a_coffee_that_was_not_served_has_no_row():
    answers = gather(table_of(1, ("241",)), [], {"241": SOUTH.id}, [NORTH, SOUTH], small_lexicon())

    assert answers.coffees == (SOUTH,)
