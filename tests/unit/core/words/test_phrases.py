"""Finding the longest phrase."""

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words import marks
from cupwright.core.words.phrases import AMBIGUOUS, phrase_index
from cupwright.core.words.tokens import tokens


@pytest.fixture(scope="module")
def index():
    return phrase_index(small_lexicon())


def longest(index, text, first=0):
    found = index.longest(tokens(text), first)
    return found and (found.concept, found.after - found.first)


def test_the_longest_phrase_wins(index):
    assert longest(index, "light mouth feel") == ("light", 3)
    assert longest(index, "lemon peel") == ("lemon", 2)
    assert longest(index, "lemon pear") == ("lemon", 1)


def test_a_phrase_does_not_reach_over_punctuation(index):
    assert longest(index, "sour, citrus") is None
    assert longest(index, "sour citrus") == ("sour_citrus", 2)


def test_two_words_run_together_are_one_phrase(index):
    assert longest(index, "sourcitrus") == ("sour_citrus", 1)
    assert longest(index, "mouthfeel") == ("touch", 1)


def test_a_word_that_was_only_derived_ends_no_longer_phrase(index):
    assert longest(index, "lemon peely") == ("lemon", 1)
    assert longest(index, "lemon peels") == ("lemon", 2)


def test_small_and_protected_words_stand_for_themselves_only(index):
    assert longest(index, "pearls") is None
    assert longest(index, "ofs good") is None


def test_a_form_owned_by_one_and_shared_by_another_concept_is_uncertain(index):
    found = index.longest(tokens("thin"), 0)

    assert (found.concept, found.certainty) == ("thin", AMBIGUOUS)


def test_an_empty_phrase_is_found_as_nothing(index):
    found = index.longest(tokens("not sure"), 0)

    assert (found.concept, found.marks, found.after) == ("", {marks.EMPTY}, 2)


def test_no_phrase_starts_at_an_unknown_word(index):
    assert longest(index, "chair lemon") is None
    assert longest(index, "chair lemon", 1) == ("lemon", 1)


def test_a_word_may_mark_and_mean(index):
    found = index.longest(tokens("acidity"), 0)

    assert (found.concept, found.marks) == ("acidity", {marks.CARRIER})


def test_a_common_misspelling_is_less_certain_than_the_word(index):
    found = index.longest(tokens("lemmen"), 0)

    assert (found.concept, found.certainty) == ("lemon", 0.8)


def test_a_shared_form_has_the_meaning_of_the_field_it_was_written_in():
    lexicon = small_lexicon()

    asked_for_touch = phrase_index(lexicon, field="touch").longest(tokens("thin"), 0)
    asked_for_colour = phrase_index(lexicon, field="colour").longest(tokens("orange"), 0)
    asked_for_nothing = phrase_index(lexicon).longest(tokens("orange"), 0)

    assert (asked_for_touch.concept, asked_for_touch.certainty) == ("heavy", 1)
    assert asked_for_colour.concept == "orange_colour"
    assert (asked_for_nothing.concept, asked_for_nothing.certainty) == ("orange", 1)


def test_another_language_is_read_together_with_english_by_its_own_endings():
    index = phrase_index(small_lexicon(), "es")

    assert longest(index, "limon") == ("lemon", 1)
    assert longest(index, "lemons") == ("lemon", 1)
    assert longest(phrase_index(small_lexicon()), "limon") is None


def test_an_index_is_compiled_once_for_a_lexicon_a_language_and_a_field():
    lexicon = small_lexicon()

    assert phrase_index(lexicon) is phrase_index(lexicon)
    assert phrase_index(lexicon) is not phrase_index(lexicon, "es")
    assert phrase_index(lexicon) is not phrase_index(lexicon, field="touch")
    assert phrase_index(lexicon) is phrase_index(lexicon, field="fruit"), "no form is shared there"
