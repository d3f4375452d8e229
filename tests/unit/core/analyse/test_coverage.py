"""Coverage: every chance to write is counted once, as empty, read or unread."""

from dataclasses import replace

from tests.unit.core.analyse.tables import TWO_CODES, answers_of, note, table_of

from cupwright.core.analyse.coverage import coverage


def covered(*notes, tasters=2):
    return coverage(answers_of(table_of(tasters, tuple(TWO_CODES)), notes, TWO_CODES))


def test_chances_to_write_are_tasters_times_places_times_fields_for_words():
    found = covered(note(1, "241", "aroma/words", "lemon"))

    assert (found.asked, found.empty, found.written) == (2 * 2 * 2, 7, 1)


def test_only_places_that_a_taster_was_given_or_wrote_about_are_chances():
    # given the first taster has one of two places, and writes about the other all the same
    table = table_of(2, tuple(TWO_CODES))
    part = replace(table, seats=(replace(table.seats[0], order=("241",)), table.seats[1]))

    apart = coverage(answers_of(part, (), TWO_CODES))
    beyond = coverage(answers_of(part, (note(1, "573", "aroma/words", "lemon"),), TWO_CODES))

    assert (apart.asked, apart.empty) == (3 * 2, 6)
    assert (beyond.asked, beyond.empty) == (4 * 2, 7)


def test_a_note_without_any_known_word_is_unread():
    found = covered(
        note(1, "241", "aroma/words", "gribble"),
        note(2, "241", "aroma/words", "gribble  frump"),
        note(1, "573", "aroma/words", "lemon gribble"),
    )

    assert (found.read, found.unread) == (1, 2)
    assert found.unread_notes == (("gribble", 1), ("gribble frump", 1))


def test_unread_words_are_counted_by_notes_and_without_regard_to_case():
    found = covered(
        note(1, "241", "aroma/words", "Gribble gribble"),
        note(2, "241", "aroma/words", "gribble frump"),
        note(1, "573", "aroma/words", "lemon gribble"),
    )

    assert found.unread_words == (("gribble", 3), ("frump", 1))


def test_a_denied_word_has_been_read():
    assert covered(note(1, "241", "aroma/words", "not smoky")).read == 1


def test_text_that_is_only_kept_is_no_note_to_read():
    found = covered(note(1, "241", "verdict/line", "gribble"))

    assert (found.written, found.unread) == (0, 0)
