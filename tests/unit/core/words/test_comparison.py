"""With what a cup is compared."""

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.reading import read_note


def compared(note, lexicon):
    return [(word.concept, word.comparison, word.against) for word in read_note(note, lexicon).words]


@pytest.mark.parametrize(
    ("note", "expected"),
    [
        ("sweet", [("sweet", "", "")]),
        ("sweeter than B", [("sweet", "more", "B")]),
        ("more acid than cup two, lemon", [("acidity", "more", "cup two"), ("lemon", "", "")]),
        ("less sweet than the other", [("sweet", "less", "the other")]),
        ("sweet more than B", [("sweet", "more", "B")]),
        ("most sweet", [("sweet", "most", "")]),
        ("sweetest of the four", [("sweet", "most", "")]),
        ("good of the four", [("liked", "most", "")]),
        ("second favourite", [("liked", "most", "")]),
        ("second lemon", [("lemon", "", "")]),
        ("sweeter than the lemon", [("sweet", "more", "the lemon"), ("lemon", "other", "")]),
        ("lemon, sweeter", [("lemon", "", ""), ("sweet", "more", "")]),
    ],
)
def test_what_is_said_against_another_cup_is_marked(note, expected):
    assert compared(note, small_lexicon()) == expected


def test_what_is_said_only_of_another_cup_is_not_said_of_this_one():
    reading = read_note("smoother than the sour one", load_lexicon())

    assert reading.concepts == {"smooth"}


def test_a_cup_compared_with_itself_earlier_is_not_compared_with_another():
    (word,) = read_note("got sweeter as it cooled", load_lexicon()).words

    assert (word.compared, word.stage) == (False, "cooling")


@pytest.mark.parametrize("word", ["bitter", "butter", "water", "ginger", "porter", "sweet"])
def test_a_word_that_only_ends_like_a_comparison_compares_nothing(word):
    assert [found.comparison for found in read_note(word, load_lexicon()).words] == [""]


@pytest.mark.parametrize(
    ("note", "comparison"),
    [("lighter", "more"), ("smoothest", "most"), ("better", "more"), ("worst", "most")],
)
def test_a_word_that_compares_is_known_by_its_ending_or_by_itself(note, comparison):
    assert [found.comparison for found in read_note(note, load_lexicon()).words] == [comparison]


@pytest.mark.parametrize("note", ["sweeter than I like", "sweeter than expected", "sweeter than when hot"])
def test_what_is_held_against_a_wish_or_itself_is_held_against_no_other_cup(note):
    (word,) = read_note(note, load_lexicon()).words

    assert (word.concept, word.degree, word.comparison, word.against) == ("sweet", "marked", "", "")


def test_among_the_four_compares_nothing_if_what_is_least_so_was_not_understood():
    words = read_note("fruity, least coffee tasting of the bunch", load_lexicon()).words

    assert [(word.concept, word.comparison) for word in words] == [("fruit", "")]


def test_the_other_cup_ends_where_a_reason_begins():
    liked, balanced = read_note("liked it more than B because it was balanced", load_lexicon()).words

    assert (liked.against, balanced.comparison) == ("B", "")


@pytest.mark.parametrize(
    ("note", "told"),
    [
        ("not sour, more tart", [("sour", "", ""), ("tart", "", "")]),
        ("no bitterness, more acidity", [("bitter", "", ""), ("acidity", "more", "")]),
        ("more nutty than fruity", [("nuts", "", ""), ("fruit", "", "")]),
        ("more nutty than B", [("nuts", "more", "B")]),
        ("compared to B this is thin and sour", [("thin", "more", "B"), ("sour", "more", "B")]),
    ],
)
def test_within_one_cup_nothing_is_compared_and_a_cup_named_first_is_told(note, told):
    reading = read_note(note, load_lexicon())

    assert [(word.concept, word.comparison, word.against) for word in reading.words] == told
