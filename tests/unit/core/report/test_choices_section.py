"""Choices and ticks: counted by tasters."""

from tests.unit.core.analyse.tables import NORTH, TWO_CODES, answers_of, note, small_table_answers, table_of

from cupwright.core.report.choices_section import choices_section
from cupwright.core.report.document import TableBlock
from cupwright.core.taste.sheet import Field, Kind, Moment, Pass, Sheet

FIELDS = (
    Field("kind", Kind.CHOICE, "Acidity", choices=("sharp", "soft")),
    Field("off", Kind.TICKS, "Bowls that differ"),
)
SHEET = Sheet("c", 1, "Choices", (Pass("p", "Taste", "?", Moment.HOT, FIELDS),))


def rows(notes, place_coffee=TWO_CODES):
    table = table_of(3, tuple(place_coffee), sheet=SHEET)
    blocks = choices_section(answers_of(table, notes, place_coffee))
    return [row for block in blocks if isinstance(block, TableBlock) for row in block.rows]


def test_choices_are_counted_among_those_who_answered():
    notes = [
        note(1, "241", "p/kind", "sharp"),
        note(2, "241", "p/kind", "sharp"),
        note(3, "241", "p/kind", "soft"),
    ]

    assert rows(notes) == [
        ("Taste: Acidity", "North Slope", "sharp", 2, 3),
        ("Taste: Acidity", "North Slope", "soft", 1, 3),
    ]


def test_ticks_are_counted_bowl_by_bowl_and_none_is_an_answer():
    notes = [note(1, "241", "p/off", [2, 3]), note(2, "241", "p/off", [2]), note(3, "241", "p/off", [])]

    assert [row[2:] for row in rows(notes)] == [("bowl 2", 2, 3), ("bowl 3", 1, 3), ("no bowl", 1, 3)]


def test_a_taster_counts_once_for_a_coffee_at_two_places():
    place_coffee = {"234": NORTH.id, "345": NORTH.id}
    notes = [note(1, "234", "p/kind", "soft"), note(1, "345", "p/kind", "soft")]

    assert rows(notes, place_coffee) == [("Taste: Acidity", "North Slope", "soft", 1, 1)]


def test_a_sheet_without_such_questions_has_no_such_section():
    assert choices_section(small_table_answers()[1]) == ()


def test_no_answer_is_said_in_a_sentence():
    blocks = choices_section(answers_of(table_of(1, tuple(TWO_CODES), sheet=SHEET), [], TWO_CODES))

    assert blocks[-1].text == "Nobody picked or ticked anything."


def test_cups_of_which_all_were_tried_are_counted_where_they_are_marked():
    notes = [note(1, "241", "p/off", {"1": 0, "2": 1, "3": 0}), note(2, "241", "p/off", {})]

    assert [row[2:] for row in rows(notes)] == [("bowl 2", 1, 2), ("no bowl", 1, 2)]
