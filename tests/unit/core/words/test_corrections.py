"""What a user has said a piece of text means."""

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.corrections import NO_CORRECTIONS, corrections
from cupwright.core.words.own_words import NOT_THAT
from cupwright.core.words.reading import read_note

LEXICON = small_lexicon()


def concepts(note, said):
    return [word.concept for word in read_note(note, LEXICON, corrections=corrections(said, LEXICON)).words]


def test_the_next_reading_learns_what_a_text_means():
    assert concepts("sunshine and pear", {}) == ["pear"]
    assert concepts("sunshine and pear", {"Sunshine!": "lemon"}) == ["lemon", "pear"]


def test_a_correction_goes_before_the_lexicon_and_is_certain():
    said = corrections({"thin": "heavy"}, LEXICON)

    (word,) = read_note("thin", LEXICON, corrections=said).words

    assert (word.concept, word.certainty) == ("heavy", 1)


def test_a_text_can_be_said_to_mean_nothing():
    said = corrections({"lemon": NOT_THAT}, LEXICON)

    reading = read_note("lemon, pear", LEXICON, corrections=said)

    assert ([word.concept for word in reading.words], reading.unread) == (["pear"], ())


def test_a_longer_phrase_of_the_lexicon_stands():
    assert concepts("sour citrus, sour", {"sour": "pear"}) == ["sour_citrus", "pear"]


def test_the_longest_correction_is_taken_and_only_over_joined_words():
    said = {"lemon": "pear", "lemon tree": "blueberry"}

    assert concepts("lemon tree. lemon, tree", said) == ["blueberry", "pear"]


def test_denial_and_degree_are_read_around_a_corrected_text():
    said = corrections({"sunshine": "lemon"}, LEXICON)

    words = read_note("not sunshine; very sunshine", LEXICON, corrections=said).words

    assert [(word.negated, word.degree) for word in words] == [(True, "plain"), (False, "very")]


@pytest.mark.parametrize("said", [{"sunshine": "quince"}, {"?!": "lemon"}, {"": "lemon"}])
def test_what_was_said_with_another_lexicon_or_of_no_word_is_passed_over(said):
    assert corrections(said, LEXICON) == NO_CORRECTIONS


def test_the_same_said_in_another_order_is_the_same_and_can_key_a_cache():
    one = corrections({"sunshine": "lemon", "moon": "pear"}, LEXICON)
    other = corrections({"moon": "pear", "Sunshine": "lemon"}, LEXICON)

    assert (one, hash(one)) == (other, hash(other))
