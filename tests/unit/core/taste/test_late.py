"""Late notes: what a phone's file brings, what of it stands, and what of it counts."""

from dataclasses import replace

import pytest
from tests.unit.core.taste.builders import a_note, a_table

from cupwright.core.flow import Step
from cupwright.core.taste.late import LateCount, in_time, late_answers, late_count, sifted
from cupwright.core.taste.note import Note
from cupwright.core.taste.notes_file import SavedNotes
from cupwright.errors import NotFound, WrongStep


def saved(*notes: Note, seat: str = "seat-1") -> SavedNotes:
    return SavedNotes("table-1", "Morning", seat, "Anna", notes)


@pytest.mark.parametrize("step", [Step.POUR, Step.TASTE, Step.REVEAL])
def test_a_file_is_sorted_out_from_the_seal_on(step: Step):
    notes = (a_note(id="b", counter=2), a_note(id="a"), a_note(id="a"))

    found = sifted(saved(*notes), a_table(step=step))

    assert [note.id for note in found.notes] == ["a", "b"]
    assert found.refused == ()


def test_a_note_that_cannot_stand_is_named_with_its_reason_and_does_not_hold_up_the_rest():
    notes = (a_note(id="a"), a_note(id="b", place="999"), a_note(5.0, id="c"), a_note(id="d", counter=4))

    found = sifted(saved(*notes), a_table(step=Step.REVEAL))

    assert [note.id for note in found.notes] == ["a", "d"]
    assert [refused.number for refused in found.refused] == [2, 3]
    assert "no place '999'" in found.refused[0].message
    assert "takes a text" in found.refused[1].message


def test_a_draft_takes_no_file_and_a_strangers_seat_is_not_found():
    with pytest.raises(WrongStep, match="Seal the table first"):
        sifted(saved(), a_table(step=Step.PLAN))
    with pytest.raises(NotFound, match=r"\('Anna'\) is not a seat of the table 'Morning'"):
        sifted(saved(seat="seat-9"), a_table())


def test_a_late_correction_neither_replaces_nor_removes_what_was_there_in_time():
    first = a_note("plum", id="a")
    corrected = a_note("cherry", id="b", counter=2)
    other = replace(a_note("tea", id="c", counter=3), place="591")
    gone = replace(other, id="d", value=None, stamp=replace(other.stamp, counter=4))

    late = {"b", "d"}

    assert in_time([first, corrected, other, gone], late) == (first, other)
    assert late_answers([first, corrected, other, gone], late) == (corrected,)
    assert late_count([first, corrected, other, gone], late) == LateCount(answers=1, tasters=1)


def test_what_a_later_note_in_time_replaced_is_not_shown_as_late():
    # given a phone with a smaller counter whose note came in by its file
    older, newer = a_note("plum", id="a", counter=1), a_note("cherry", id="b", counter=2)

    assert late_answers([older, newer], {"a"}) == ()


def test_without_late_notes_nothing_is_left_out():
    notes = [a_note(id="a")]

    assert in_time(notes, ()) == tuple(notes)
    assert late_count(notes, ()) == LateCount(0, 0)
