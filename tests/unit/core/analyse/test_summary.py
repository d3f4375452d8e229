"""The analysis as a whole: every scale answered or refused in a sentence."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from tests.unit.core.analyse.tables import (
    TWO_CODES,
    answers_of,
    note,
    small_lexicon,
    small_table_answers,
    table_of,
)

from cupwright.core.analyse.answers import gather
from cupwright.core.analyse.summary import analyse
from cupwright.core.plan.coffee import Coffee
from cupwright.core.rows import Row, Rows
from cupwright.core.taste.imported import imported_notes, imported_table
from cupwright.core.taste.note_rows import NotesColumns, notes_file


def test_a_small_table_is_analysed_in_all_parts():
    _, answers = small_table_answers()

    analysis = analyse(answers)

    assert [[word.label for word in words] for words in analysis.words] == [
        ["lemon", "fruit", "orange"],
        ["cocoa"],
    ]
    assert analysis.wrote == (3, 2)
    assert analysis.liking.means[0].mean.estimate == pytest.approx((80 + 71 + 90) / 3)
    assert (analysis.liking.agreement.tasters, analysis.liking.agreement.dropped) == (2, 1)
    assert (analysis.coverage.written, analysis.coverage.unread) == (5, 1)


def test_an_unanswered_scale_says_why_it_has_no_agreement():
    _, answers = small_table_answers()

    weight = next(s for s in analyse(answers).scales if s.scale.field.id == "weight")

    assert weight.agreement is None
    assert "needs 2 coffees and 2 tasters" in weight.why_not


def test_an_empty_table_can_be_analysed():
    analysis = analyse(answers_of(table_of(0, tuple(TWO_CODES)), [], TWO_CODES))

    assert analysis.words == ((), ())
    assert analysis.contrasts.looks == 0
    assert analysis.coverage.asked == 0


def imported(*liking):
    """Two tasters who gave each coffee the same point, as read from a file."""
    said = [(who, coffee, "lemon", str(points)) for who in ("Ada", "Ben") for coffee, points in liking]
    lines = tuple(Row(number, cells) for number, cells in enumerate(said, start=2))
    read = notes_file(Rows("x.csv", ("taster", "coffee", "note", "liking"), lines), NotesColumns())
    ids = (f"i{n}" for n in range(1000))
    coffees = [Coffee(name, name) for name, _ in liking]
    table = imported_table(
        read,
        "Imported",
        {coffee.name: coffee.id for coffee in coffees},
        table_id="t",
        created=datetime(2026, 11, 25, tzinfo=UTC),
        ids=lambda: next(ids),
    )
    notes = imported_notes(read, table, at_ms=0, ids=lambda: next(ids))
    places = dict(zip(table.codes, table.plan.coffees, strict=True))
    return gather(table, notes, places, coffees, small_lexicon())


def test_the_ends_of_imported_answers_are_not_taken_for_the_ends_of_their_scale():
    liking = analyse(imported(("North", 7), ("South", 6), ("East", 6))).liking

    assert liking.scale.ends is None
    assert liking.means[0].mean.low < 6
    assert liking.means[0].mean.high > 7


def test_two_tasters_who_say_the_same_do_not_set_one_coffee_before_another():
    liking = analyse(imported(("North", 7), ("South", 6), ("East", 6))).liking

    assert not any(pair.mean.differs_from_zero for pair in liking.differences)
    assert liking.agreement.icc.low < 0


def test_who_was_not_given_a_coffee_is_not_among_those_who_had_it():
    table = table_of(3, tuple(TWO_CODES))
    without = replace(table.seats[2], order=("573",))
    table = replace(table, seats=(*table.seats[:2], without))

    found = analyse(answers_of(table, [note(1, "241", "aroma/words", "lemon")], TWO_CODES))

    assert (found.wrote, found.had) == ((1, 0), (2, 3))
