"""One taster, one coffee, two codes: what lies between, and when that is too little to say."""

from tests.unit.core.analyse.tables import NORTH, SOUTH, answers_of, note, small_table_answers, table_of

from cupwright.core.analyse.repeats import repeats
from cupwright.core.report.document import Paragraph, TableBlock
from cupwright.core.report.repeats_section import repeats_section

PLACES = {"241": NORTH.id, "573": SOUTH.id, "812": NORTH.id}


def again(*notes):
    return answers_of(table_of(3, tuple(PLACES)), notes, PLACES)


def liking(seat, place, value):
    return note(seat, place, "verdict/liking", value)


def test_each_tasters_two_answers_and_what_lies_between_are_there():
    answers = again(liking(1, "241", 60.0), liking(1, "812", 72.0), liking(1, "573", 10.0))

    (scale,) = repeats(answers).scales

    (one,) = scale.repeats
    assert (one.name, one.coffee, one.places) == ("Taster 1", NORTH.id, ("241", "812"))
    assert (one.values, one.apart) == ((60.0, 72.0), 12.0)


def test_one_pair_is_too_little_to_say_and_two_are_enough():
    first = (liking(1, "241", 60.0), liking(1, "812", 72.0))
    second = (liking(2, "241", 50.0), liking(2, "812", 46.0))

    (one,), (two,) = repeats(again(*first)).scales, repeats(again(*first, *second)).scales

    assert one.spread is None
    assert "too little to say" in one.why_not
    assert two.spread is not None
    assert two.spread.low < two.spread.estimate < two.spread.high


def test_repeats_without_any_difference_are_not_called_free_of_scatter():
    answers = again(*(liking(seat, place, 50.0) for seat in (1, 2) for place in ("241", "812")))

    (scale,) = repeats(answers).scales

    assert scale.spread is None
    assert "not to say that they do not" in scale.why_not


def test_words_at_both_places_are_matched_with_near_ones_in_part():
    answers = again(
        note(1, "241", "aroma/words", "lemon, cocoa"), note(1, "812", "aroma/words", "lemon, orange")
    )

    (one,) = repeats(answers).words

    assert (one.places, one.shared) == (("241", "812"), 1)
    assert 0.5 <= one.share < 1


def test_a_table_without_a_second_code_has_no_repeats_and_no_section():
    _, answers = small_table_answers()

    found = repeats(answers)

    assert (found.scales, found.words) == ((), ())
    assert repeats_section(answers, found) == ()


def test_the_report_shows_both_answers_and_says_when_it_is_too_little():
    answers = again(liking(1, "241", 60.0), liking(1, "812", 72.0))

    blocks = repeats_section(answers, repeats(answers))

    (table,) = [block for block in blocks if isinstance(block, TableBlock)]
    assert table.rows == (("Liking", "North Slope", "Taster 1", "241 and 812", "60 and 72", 12.0),)
    assert any("too little to say" in block.text for block in blocks if isinstance(block, Paragraph))
