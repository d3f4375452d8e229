"""What a request may carry."""

import pytest
from pydantic import ValidationError

from cupwright.core.plan.table import Blinding, Plan
from cupwright.core.taste.note import Note
from cupwright.core.taste.stamp import Stamp
from cupwright.web.wire import FAR_AHEAD_MS, CoffeeIn, NoteIn, PlanIn, PourIn

NOTE = {
    "id": "n-1",
    "place": "421",
    "pass": "flavour",
    "field": "words",
    "value": "plum",
    "stamp": {"counter": 3, "device": "d"},
    "written_at": 5,
}


def test_a_plan_has_the_defaults_of_the_core():
    assert PlanIn(name="Thursday", coffees=["c1"]).plan() == Plan("Thursday", ("c1",))


def test_a_whole_plan_passes_through_unchanged():
    plan = Plan(
        "T", ("c1", "c2"), ("Ada",), 2, 225.0, 60.0, 0.01, 94.0, True, 3.0, Blinding.SHUFFLE, "open", 9
    )
    sent = {name: getattr(plan, name) for name in Plan.__dataclass_fields__}

    assert PlanIn.model_validate(sent).plan() == plan


@pytest.mark.parametrize("number", [True, False, "3", None, [], float("nan"), float("inf")])
def test_a_number_is_a_number(number):
    with pytest.raises(ValidationError):
        PlanIn(name="T", coffees=[], bowl_ml=number)


def test_a_whole_number_may_be_written_with_a_point():
    """JSON Schema: 5.0 is an integer."""
    assert PourIn.model_validate({"bowl": 5.0}).bowl == 5


def test_the_bounds_of_a_number_are_in_the_published_schema():
    """The check for numbers must stand last in the annotation, or the bounds are lost."""
    bowl = PourIn.model_json_schema()["properties"]["bowl"]

    assert (bowl["type"], bowl["minimum"], bowl["maximum"]) == ("integer", 0, FAR_AHEAD_MS)


def test_a_note_gets_its_seat_from_who_asks():
    note = NoteIn.model_validate(NOTE).note("seat-1")

    assert note == Note("n-1", "seat-1", "421", "flavour", "words", "plum", Stamp(3, "d"), 5)


@pytest.mark.parametrize(
    ("sent", "kept"),
    [
        ("", ""),
        (" a ", " a "),
        (None, None),
        (40, 40.0),
        (0.5, 0.5),
        ([1, 2], [1, 2]),
        ({"l": 1, "a": 0, "b": 0}, {"l": 1.0, "a": 0.0, "b": 0.0}),
    ],
)
def test_a_value_is_kept_as_it_was_given(sent, kept):
    assert NoteIn.model_validate(NOTE | {"value": sent}).note("s").value == kept


@pytest.mark.parametrize(
    "value", [True, {"l": "1"}, {"x y": 1}, [True], ["a", 1], "x" * 40_001, [1.0] * 1001]
)
def test_what_can_be_no_answer_is_refused_at_the_door(value):
    with pytest.raises(ValidationError):
        NoteIn.model_validate(NOTE | {"value": value})


def test_what_can_be_no_answer_is_refused_in_one_sentence_without_the_words_of_the_library():
    with pytest.raises(ValidationError) as refusal:
        NoteIn.model_validate(NOTE | {"value": ["a", 1]})

    (fault,) = refusal.value.errors()
    assert fault["loc"] == ("value",)
    assert "must be text of at most 40000 characters, a number" in fault["msg"]


@pytest.mark.parametrize(
    "day", [0, 86_400, "0", "86400", "2026-02-30", "2026-3-1", "2026-03-01T00:00:00", True]
)
def test_a_day_is_written_as_a_date(day):
    with pytest.raises(ValidationError):
        CoffeeIn.model_validate({"name": "x", "roast_date": day})


@pytest.mark.parametrize("text", ["", "a b", "../x", "x" * 65, "é", "a\n"])
def test_an_id_is_plain(text):
    with pytest.raises(ValidationError):
        NoteIn.model_validate(NOTE | {"id": text})
