"""How far each seat has come."""

from tests.unit.core.taste.builders import a_note, a_table

from cupwright.core.plan.table import Blinding
from cupwright.core.taste.progress import PassProgress, progress


def done(seats: tuple, seat: int, part: str) -> int:
    return next(one.done for one in seats[seat].passes if one.part == part)


def test_before_the_first_note_every_seat_has_everything_before_it():
    seats = progress(a_table(), [])

    assert [(seat.seat, seat.name) for seat in seats] == [("seat-1", "Taster 1"), ("seat-2", "Taster 2")]
    assert [one.part for one in seats[0].passes] == [one.id for one in a_table().sheet.passes]
    assert set(seats[1].passes) == {PassProgress(one.id, 0, 3) for one in a_table().sheet.passes}


def test_a_place_is_done_with_one_answer_of_the_pass():
    notes = [
        a_note(40, id="n1", part="touch", field="weight"),
        a_note(60, id="n2", part="touch", field="texture"),
        a_note("thin", id="n3", part="touch", field="words", place="591"),
    ]

    seats = progress(a_table(), notes)

    assert done(seats, 0, "touch") == 2
    assert done(seats, 0, "flavour") == 0
    assert done(seats, 1, "touch") == 0


def test_an_answer_taken_back_is_not_done():
    notes = [a_note("plum", id="n1", counter=1), a_note(None, id="n2", counter=2)]

    assert done(progress(a_table(), notes), 0, "flavour") == 0


def test_after_a_shuffle_positions_are_counted():
    table = a_table(blinding=Blinding.SHUFFLE, codes=("1", "2", "3", "4"))

    seats = progress(table, [a_note(place="4")])

    assert [(one.done, one.all) for one in seats[0].passes if one.part == "flavour"] == [(1, 4)]


def test_notes_for_places_that_are_not_on_the_table_do_not_count():
    assert done(progress(a_table(), [a_note(place="999")]), 0, "flavour") == 0
