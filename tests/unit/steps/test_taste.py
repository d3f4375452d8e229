"""Taste: seats are taken once, notes are a seat's own, kept once, and never after the reveal."""

from dataclasses import replace

import pytest
from tests.fakes.tools import bench
from tests.unit.steps.laying import drafted, saved_file, sealed, tasting, written

from cupwright.core.flow import Step
from cupwright.core.taste.late import LateCount
from cupwright.errors import Clash, NotAllowed, NotFound, NotKnown, Refused, TooLarge, WrongStep
from cupwright.steps.analyse import analysis
from cupwright.steps.desk import new_token, token_hash
from cupwright.steps.diary import diary
from cupwright.steps.plan import get_table
from cupwright.steps.reveal import comparison, open_key
from cupwright.steps.taste import (
    MOST_NOTES_AT_ONCE,
    free_seat,
    join,
    notes_of_seat,
    progress_of,
    take_notes_file,
    take_seat_at_desk,
    taken_seats,
    who_sits,
    write_notes,
)


def test_a_planned_name_takes_the_planned_seat() -> None:
    on = bench()
    table = sealed(on.tools)
    token = new_token(on.tools)

    seated = join(on.tools, table.join_code.lower(), " ada ", token_hash(token))

    assert seated.seat == table.seats[0]
    assert who_sits(on.tools, token_hash(token)) == seated
    assert taken_seats(on.tools, table.id) == {table.seats[0].id}
    assert get_table(on.tools, table.id) == table
    assert (table.id, "seat") in on.news


def test_a_new_name_gets_a_new_seat_with_an_order_over_all_places() -> None:
    tools = bench().tools
    table = tasting(tools)

    seated = join(tools, table.join_code, "Cleo", "hash")

    assert sorted(seated.seat.order) == sorted(table.places)
    assert get_table(tools, table.id).seats == (*table.seats, seated.seat)


def test_a_name_that_sits_already_needs_the_desk_to_free_it() -> None:
    tools = bench().tools
    table = sealed(tools)
    join(tools, table.join_code, "Ada", "hash-1")

    with pytest.raises(Clash):
        join(tools, table.join_code, "ADA", "hash-2")
    free_seat(tools, table.id, table.seats[0].id)
    join(tools, table.join_code, "ADA", "hash-2")

    with pytest.raises(NotKnown):
        who_sits(tools, "hash-1")
    assert who_sits(tools, "hash-2").seat == table.seats[0]
    kinds = [event.kind for event in diary(tools, table.id)]
    assert kinds[-3:] == ["seat taken", "seat freed", "seat taken"]


def test_the_desk_takes_a_seat_on_its_own_machine() -> None:
    tools = bench().tools
    table = sealed(tools)

    assert take_seat_at_desk(tools, table.id, "Ben", "hash").seat == table.seats[1]


def test_nobody_sits_at_a_draft_or_a_revealed_table_or_behind_a_wrong_code() -> None:
    tools = bench().tools
    table = drafted(tools)

    with pytest.raises(WrongStep):
        join(tools, table.join_code, "Ada", "hash")
    with pytest.raises(NotFound):
        join(tools, "------", "Ada", "hash")
    other = sealed(bench(seed=2).tools)
    with pytest.raises(NotFound):
        join(tools, other.join_code, "Ada", "hash")


def test_an_empty_name_is_refused() -> None:
    tools = bench().tools
    with pytest.raises(Refused, match="no name"):
        join(tools, sealed(tools).join_code, " \n ", "hash")


def test_a_seat_that_is_not_there_cannot_be_freed_or_read() -> None:
    tools = bench().tools
    table = sealed(tools)
    for act in (free_seat, notes_of_seat):
        with pytest.raises(NotFound):
            act(tools, table.id, "none")


def test_notes_are_kept_word_for_word_and_numbered() -> None:
    on = bench()
    table = tasting(on.tools)
    seat = table.seats[0]
    first, second = written(table, seat, 1, value="  plum,\n then ??? "), written(table, seat, 2)

    kept = write_notes(on.tools, table.id, seat.id, [first])
    later = write_notes(on.tools, table.id, seat.id, [second])

    assert kept.ids == (first.id,)
    assert [numbered.note for numbered in notes_of_seat(on.tools, table.id, seat.id)] == [first, second]
    assert [n.note for n in notes_of_seat(on.tools, table.id, seat.id, after=kept.sequence)] == [second]
    assert later.sequence > kept.sequence
    assert on.news.count((table.id, "notes")) == 2


def test_the_numbers_of_a_seats_notes_say_nothing_of_what_others_write() -> None:
    tools = bench().tools
    table = tasting(tools)
    ada, ben = table.seats
    numbers = []
    for turn in (1, 2, 3):
        write_notes(tools, table.id, ben.id, [written(table, ben, 10 * turn + n) for n in range(turn)])
        numbers.append(write_notes(tools, table.id, ada.id, [written(table, ada, turn)]).sequence)

    assert numbers == [1, 2, 3]
    assert [one.sequence for one in notes_of_seat(tools, table.id, ada.id)] == [1, 2, 3]
    assert [one.sequence for one in notes_of_seat(tools, table.id, ada.id, after=2)] == [3]
    assert notes_of_seat(tools, table.id, ada.id, after=3) == ()


def test_dry_grounds_are_smelled_before_the_clock_starts() -> None:
    tools = bench().tools
    table = sealed(tools)
    note = written(table, table.seats[0], part="fragrance")

    assert write_notes(tools, table.id, table.seats[0].id, [note]).new == 1


def test_notes_sent_again_are_kept_once_and_make_no_news() -> None:
    on = bench()
    table = tasting(on.tools)
    note = written(table, table.seats[0])

    for _ in range(5):
        kept = write_notes(on.tools, table.id, table.seats[0].id, [note])

    assert kept.ids == (note.id,)
    assert len(notes_of_seat(on.tools, table.id, table.seats[0].id)) == 1
    assert on.news.count((table.id, "notes")) == 1


def test_one_bad_note_keeps_the_whole_batch_out() -> None:
    tools = bench().tools
    table = tasting(tools)
    seat = table.seats[0]
    good = written(table, seat, 1)

    for bad in (
        written(table, seat, 2, place="000"),
        written(table, seat, 2, part="none"),
        written(table, seat, 2, field="none"),
        written(table, seat, 2, value=12),
        written(table, seat, 2, value="x" * 5000),
        written(table, seat, 2, value="\x00"),
    ):
        with pytest.raises((Refused, NotFound)):
            write_notes(tools, table.id, seat.id, [good, bad])

    assert notes_of_seat(tools, table.id, seat.id) == ()


def test_a_note_kept_before_under_the_same_id_with_other_words_is_a_clash() -> None:
    tools = bench().tools
    table = tasting(tools)
    seat = table.seats[0]
    write_notes(tools, table.id, seat.id, [written(table, seat)])

    with pytest.raises(Clash):
        write_notes(tools, table.id, seat.id, [written(table, seat, value="other")])


def test_a_seat_writes_its_own_notes_only() -> None:
    tools = bench().tools
    table = tasting(tools)
    ada, ben = table.seats

    with pytest.raises(NotAllowed):
        write_notes(tools, table.id, ada.id, [written(table, ben)])
    with pytest.raises(NotFound):
        write_notes(tools, table.id, "none", [])

    assert notes_of_seat(tools, table.id, ben.id) == ()


def test_too_many_notes_at_once_are_refused() -> None:
    tools = bench().tools
    table = tasting(tools)
    seat = table.seats[0]
    notes = [written(table, seat, number) for number in range(1, MOST_NOTES_AT_ONCE + 2)]

    with pytest.raises(TooLarge):
        write_notes(tools, table.id, seat.id, notes)

    assert write_notes(tools, table.id, seat.id, notes[:-1]).new == MOST_NOTES_AT_ONCE


def test_a_late_phone_is_told_clearly_that_the_table_is_closed() -> None:
    tools = bench().tools
    table = tasting(tools)
    open_key(tools, table.id)

    with pytest.raises(WrongStep, match="key is open and the table is closed"):
        write_notes(tools, table.id, table.seats[0].id, [written(table, table.seats[0])])

    assert notes_of_seat(tools, table.id, table.seats[0].id) == ()


def test_notes_for_a_draft_are_refused() -> None:
    tools = bench().tools
    table = drafted(tools)
    with pytest.raises(WrongStep):
        write_notes(tools, table.id, table.seats[0].id, [written(table, table.seats[0])])


def test_progress_counts_places_with_a_standing_answer() -> None:
    tools = bench().tools
    table = tasting(tools)
    ada = table.seats[0]
    first = written(table, ada, 1)
    second = written(table, ada, 2, place=table.places[1])
    write_notes(tools, table.id, ada.id, [first, second])
    write_notes(tools, table.id, ada.id, [replace(written(table, ada, 3), value=None)])

    of_ada, of_ben = progress_of(tools, table.id)

    flavour = next(one for one in of_ada.passes if one.part == "flavour")
    assert (flavour.done, flavour.all) == (1, 3)
    assert all(one.done == 0 for one in of_ben.passes)
    assert get_table(tools, table.id).step is Step.TASTE


def test_before_the_reveal_a_phones_file_is_as_good_as_its_sending() -> None:
    on = bench()
    table = tasting(on.tools)
    ada = table.seats[0]
    sent, unsent = written(table, ada, 1), written(table, ada, 2, place=table.places[1])
    write_notes(on.tools, table.id, ada.id, [sent])

    first = take_notes_file(on.tools, saved_file(table, ada, sent, unsent), "ada.json")
    again = take_notes_file(on.tools, saved_file(table, ada, sent, unsent), "ada.json", table.id)

    assert (first.kept, first.new, first.late, first.seat_name) == (2, 1, False, "Ada")
    assert (again.kept, again.new) == (2, 0)
    assert [one.note for one in notes_of_seat(on.tools, table.id, ada.id)] == [sent, unsent]
    assert [event.kind for event in diary(on.tools, table.id)].count("notes file taken") == 1
    open_key(on.tools, table.id)
    assert analysis(on.tools, table.id).late == LateCount(0, 0)
    assert len(analysis(on.tools, table.id).written) == 2


def test_after_the_reveal_it_is_kept_and_shown_but_only_what_was_sent_in_time_counts() -> None:
    on = bench()
    table = tasting(on.tools)
    ada = table.seats[0]
    sent, unsent = written(table, ada, 1), written(table, ada, 2, place=table.places[1], value="tobacco")
    write_notes(on.tools, table.id, ada.id, [sent])
    open_key(on.tools, table.id)

    first = take_notes_file(on.tools, saved_file(table, ada, sent, unsent), "ada.json")
    again = take_notes_file(on.tools, saved_file(table, ada, sent, unsent), "ada.json")

    assert (first.kept, first.new, first.late) == (2, 1, True)
    assert (again.kept, again.new, again.late) == (2, 0, True)
    assert [one.note for one in notes_of_seat(on.tools, table.id, ada.id)] == [sent, unsent]
    late = [event for event in diary(on.tools, table.id) if event.kind == "late notes taken"]
    assert [event.detail for event in late] == [{"seat": ada.id, "notes": [unsent.id]}]
    assert on.news[-1] == (table.id, "notes")
    assert [written.text for written in analysis(on.tools, table.id).written] == ["cherry"]
    assert analysis(on.tools, table.id).late == LateCount(answers=1, tasters=1)
    tasters = [taster for coffee in comparison(on.tools, table.id).coffees for taster in coffee.tasters]
    assert [(len(one.written), [late.text for late in one.late]) for one in tasters] in (
        [(1, []), (0, ["tobacco"])],
        [(0, ["tobacco"]), (1, [])],
    )


def test_a_file_that_belongs_elsewhere_changes_nothing() -> None:
    on = bench()
    table = tasting(on.tools)
    ada = table.seats[0]
    note = written(table, ada)
    elsewhere = replace(table, id="another", plan=replace(table.plan, name="Tuesday"))
    stranger = replace(ada, id="nobody", name="Zoe")

    with pytest.raises(Refused, match="belongs to the table 'Tuesday', not to this one"):
        take_notes_file(on.tools, saved_file(elsewhere, ada, note), "ada.json", table.id)
    with pytest.raises(NotFound, match="belongs to the table 'Tuesday', which is not here"):
        take_notes_file(on.tools, saved_file(elsewhere, ada, note), "ada.json")
    with pytest.raises(NotFound, match="'Zoe'"):
        take_notes_file(on.tools, saved_file(table, stranger, note), "ada.json")

    assert notes_of_seat(on.tools, table.id, ada.id) == ()
    assert "notes file taken" not in [event.kind for event in diary(on.tools, table.id)]


def test_a_note_of_a_file_that_cannot_stand_is_told_and_the_others_are_kept() -> None:
    tools = bench().tools
    table = tasting(tools)
    ada = table.seats[0]
    good, bad = written(table, ada, 1), written(table, ada, 2, place="none")

    taken = take_notes_file(tools, saved_file(table, ada, bad, good), "ada.json")

    assert (taken.kept, taken.new) == (1, 1)
    assert [refused.number for refused in taken.refused] == [1]
    assert "no place 'none'" in taken.refused[0].message
    assert [one.note for one in notes_of_seat(tools, table.id, ada.id)] == [good]


def test_a_seats_file_cannot_change_what_is_kept() -> None:
    tools = bench().tools
    table = tasting(tools)
    ada = table.seats[0]
    note = written(table, ada)
    write_notes(tools, table.id, ada.id, [note])

    with pytest.raises(Clash):
        take_notes_file(tools, saved_file(table, ada, replace(note, value="tobacco")), "ada.json")

    assert [one.note for one in notes_of_seat(tools, table.id, ada.id)] == [note]
