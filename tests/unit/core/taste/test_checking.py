"""Which notes can stand at a table."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.unit.core.taste.builders import a_note, a_table

from cupwright.core.flow import Step
from cupwright.core.plan.table import Blinding
from cupwright.core.taste.checking import check_value, checked_note
from cupwright.core.taste.note import Value
from cupwright.core.taste.sheet import Field, Kind
from cupwright.core.taste.stamp import Stamp
from cupwright.errors import CupwrightError, NotFound, Refused, WrongStep

LINE = Field("f", Kind.LINE, "Weight")
POINTS = Field("f", Kind.POINTS, "Points", low=6.0, high=10.0, step=0.25)
TENTHS = Field("f", Kind.POINTS, "Points", low=0.0, high=1.0, step=0.1)
CHOICE = Field("f", Kind.CHOICE, "Which", choices=("this", "that"))
COLOUR = Field("f", Kind.COLOUR, "Colour")
TICKS = Field("f", Kind.TICKS, "Cups")
WORDS = Field("f", Kind.WORDS, "Words")
TEXT = Field("f", Kind.TEXT, "Line")


def test_a_note_that_fits_is_returned_as_it_is():
    note = a_note()

    assert checked_note(note, a_table()) is note


@pytest.mark.parametrize("value", ["", "  \n", "не знаю", "🍑 " * 10, "x" * 4000, "'; DROP TABLE notes; --"])
def test_words_are_kept_word_for_word(value: str):
    assert checked_note(a_note(value), a_table()).value == value


def test_an_answer_can_be_taken_back_in_every_kind_of_field():
    for one in a_table().sheet.passes:
        for field in one.fields:
            note = a_note(None, part=one.id, field=field.id)
            assert checked_note(note, a_table()) is note


@pytest.mark.parametrize("step", [Step.POUR, Step.TASTE])
def test_notes_are_taken_from_the_seal_to_the_reveal(step: Step):
    checked_note(a_note(), a_table(step=step))


@pytest.mark.parametrize("step", [Step.PLAN, Step.REVEAL])
def test_a_draft_and_a_revealed_table_take_no_notes(step: Step):
    with pytest.raises(WrongStep, match="You cannot write notes"):
        checked_note(a_note(), a_table(step=step))


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"seat": "seat-9"}, "There is no such seat at the table 'Morning'."),
        ({"place": "999"}, "There is no place '999' at the table 'Morning'. Its places are 274, 591, 836."),
        ({"part": "smell"}, "The sheet 'open' has no pass 'smell'. Its passes are fragrance, aroma, colour,"),
        (
            {"field": "wrds"},
            "The pass 'flavour' of the sheet 'open' has no field 'wrds'. Its fields are words.",
        ),
    ],
)
def test_what_is_unknown_is_named_with_what_there_is(changes: dict[str, str], says: str):
    with pytest.raises(NotFound) as refusal:
        checked_note(a_note(**changes), a_table())

    assert str(refusal.value).startswith(says)


def test_after_a_shuffle_places_are_positions_and_codes_are_not():
    table = a_table(blinding=Blinding.SHUFFLE)
    checked_note(a_note(place="3"), table)

    for place in ("274", "0", "4", "03", "3.0"):
        with pytest.raises(NotFound):
            checked_note(a_note(place=place), table)


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"id": ""}, "malformed id"),
        ({"id": "x" * 65}, "malformed id"),
        ({"id": "a b"}, "malformed id"),
        ({"stamp": Stamp(1, "")}, "malformed device"),
        ({"stamp": Stamp(1, "phöne")}, "malformed device"),
        ({"stamp": Stamp(0, "phone")}, "counter 0"),
        ({"stamp": Stamp(1_000_000_001, "phone")}, "Counters run from 1 to 1000000000."),
        ({"written_at": -1}, "milliseconds since 1970"),
        ({"written_at": 2**53}, "milliseconds since 1970"),
    ],
)
def test_malformed_notes_are_refused(changes: dict[str, object], says: str):
    with pytest.raises(Refused) as refusal:
        checked_note(a_note(**changes), a_table())

    assert says in str(refusal.value)


def test_no_clock_of_a_device_is_too_wrong():
    for written_at in (0, 1, 4_102_444_800_000, 2**53 - 1):
        checked_note(a_note(written_at=written_at), a_table())


def test_an_overlong_text_is_refused_with_its_length():
    with pytest.raises(Refused, match="'Flavour in your words' has 4001 characters"):
        checked_note(a_note("x" * 4001), a_table())


@pytest.mark.parametrize("value", ["plum\x00", "half a peach \ud83c"])
def test_characters_no_database_can_keep_are_refused(value: str):
    with pytest.raises(Refused, match="cannot be kept"):
        checked_note(a_note(value), a_table())


@pytest.mark.parametrize(
    ("field", "value"),
    [
        (LINE, 0),
        (LINE, 100.0),
        (LINE, 33.25),
        (POINTS, "6"),
        (POINTS, "7.75"),
        (POINTS, "10.00"),
        (TENTHS, "0.3"),
        (TENTHS, "0.7"),
        (CHOICE, "that"),
        (COLOUR, {"l": 0.0, "a": -0.5, "b": 0.5}),
        (COLOUR, {"l": 1, "a": 0, "b": 0}),
        (TICKS, []),
        (TICKS, [5, 1]),
        (TEXT, "Anything."),
    ],
)
def test_values_that_fit_their_field_are_taken(field: Field, value: Value):
    check_value(value, field, cups=5)


@pytest.mark.parametrize(
    ("field", "value", "takes"),
    [
        (WORDS, 3.0, "a text"),
        (TEXT, ["plum"], "a text"),
        (LINE, "50", "a number from 0 to 100"),
        (LINE, True, "a number from 0 to 100"),
        (LINE, -0.001, "a number from 0 to 100"),
        (LINE, 100.5, "a number from 0 to 100"),
        (LINE, float("nan"), "a number from 0 to 100"),
        (LINE, float("inf"), "a number from 0 to 100"),
        (LINE, 10**400, "a number from 0 to 100"),
        (POINTS, 7.75, "points from 6 to 10 in steps of 0.25"),
        (POINTS, "7.8", "points from 6 to 10 in steps of 0.25"),
        (POINTS, "5.75", "points from 6 to 10"),
        (POINTS, "10.25", "points from 6 to 10"),
        (POINTS, "seven", "points from 6 to 10"),
        (POINTS, "NaN", "points from 6 to 10"),
        (POINTS, "1e1", "points from 6 to 10"),
        (POINTS, "٧", "points from 6 to 10"),
        (CHOICE, "these", "one of this, that"),
        (CHOICE, 0.0, "one of this, that"),
        (COLOUR, "#aabbcc", "a colour as l"),
        (COLOUR, {"l": 0.5, "a": 0.0}, "a colour as l"),
        (COLOUR, {"l": 0.5, "a": 0.0, "b": 0.0, "c": 0.0}, "a colour as l"),
        (COLOUR, {"l": 0.5, "a": float("nan"), "b": 0.0}, "a colour as l"),
        (COLOUR, {"l": 1.5, "a": 0.0, "b": 0.0}, "a colour as l"),
        (COLOUR, {"l": 0.5, "a": 0.6, "b": 0.0}, "a colour as l"),
        (TICKS, [0], "each cup number from 1 to 5"),
        (TICKS, [6], "each cup number from 1 to 5"),
        (TICKS, [2, 2], "each cup number from 1 to 5"),
        (TICKS, [1.5], "each cup number from 1 to 5"),
        (TICKS, [True], "each cup number from 1 to 5"),
        (TICKS, "1", "each cup number from 1 to 5"),
    ],
)
def test_values_that_do_not_fit_are_refused_with_what_the_field_takes(field: Field, value: Value, takes: str):
    with pytest.raises(Refused) as refusal:
        check_value(value, field, cups=5)

    assert f"The answer does not fit the field '{field.label}'. It takes {takes}" in str(refusal.value)


def test_every_kind_of_field_is_checked():
    for kind in Kind:
        with pytest.raises(Refused):
            check_value([[]], Field("f", kind, "F", choices=("a", "b")), cups=1)  # type: ignore[list-item]


def test_the_cups_of_a_place_are_its_bowls():
    ticks = Field("ticks", Kind.TICKS, "Cups")
    base = a_table(bowls=3)
    flavour = next(one for one in base.sheet.passes if one.id == "flavour")
    sheet = replace(base.sheet, passes=(replace(flavour, fields=(ticks,)),), liking=None)

    checked_note(a_note([3], field="ticks"), a_table(bowls=3, sheet=sheet))
    with pytest.raises(Refused, match="from 1 to 2"):
        checked_note(a_note([3], field="ticks"), a_table(bowls=2, sheet=sheet))
    with pytest.raises(Refused, match="from 1 to 1"):
        checked_note(
            a_note([3], field="ticks", place="1"), a_table(bowls=3, sheet=sheet, blinding=Blinding.SHUFFLE)
        )


ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda inner: (
        st.lists(inner, max_size=4) | st.dictionaries(st.sampled_from("lab") | st.text(), inner, max_size=4)
    ),
    max_leaves=6,
)


def complaint_about(value: object, field: Field) -> CupwrightError | None:
    try:
        check_value(value, field, cups=2)  # type: ignore[arg-type]  # anything at all may come
    except CupwrightError as refusal:
        return refusal
    return None


@given(value=ANYTHING, kind=st.sampled_from(list(Kind)))
def test_whatever_comes_is_taken_or_refused_in_a_sentence(value: object, kind: Kind):
    complaint = complaint_about(value, Field("f", kind, "F", choices=("a", "b")))

    assert complaint is None or (complaint.message.endswith(".") and complaint.todo)


@pytest.mark.parametrize("found", [{}, {"3": 1}, {"1": 0, "2": 0, "3": 1, "4": 0, "5": 0}])
def test_ticks_that_try_all_take_what_was_found_in_each_cup(found):
    check_value(found, Field("off", Kind.TICKS, "Cups that are off", try_all=True), cups=5)


@pytest.mark.parametrize("value", [[3], {"6": 1}, {"3": 2}, {"3": True}, "3"])
def test_ticks_that_try_all_take_nothing_else(value):
    with pytest.raises(Refused, match="each as fine \\(0\\) or marked \\(1\\)"):
        check_value(value, Field("off", Kind.TICKS, "Cups that are off", try_all=True), cups=5)
