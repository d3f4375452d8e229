"""Finding the longest phrase."""

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.phrases import AMBIGUOUS, NOTHING, phrase_index
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
    assert longest(index, "notes good") is None


def test_a_form_owned_by_one_and_shared_by_another_concept_is_uncertain(index):
    found = index.longest(tokens("thin"), 0)

    assert (found.concept, found.certainty) == ("thin", AMBIGUOUS)


def test_an_empty_phrase_is_found_as_nothing(index):
    assert longest(index, "not sure") == (NOTHING, 2)


def test_no_phrase_starts_at_an_unknown_word(index):
    assert longest(index, "chair lemon") is None
    assert longest(index, "chair lemon", 1) == ("lemon", 1)
