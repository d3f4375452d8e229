"""Endings and slips of the keyboard."""

import pytest

from cupwright.core.words.spelling import (
    DERIVED,
    EXACT,
    INFLECTED,
    ONE_SLIP,
    TWO_SLIPS,
    inflected_from,
    mistyped_from,
)

KNOWN = {
    "berry",
    "peach",
    "tomato",
    "nut",
    "nutty",
    "thin",
    "juicy",
    "lemon",
    "spice",
    "sweet",
    "tea",
    "glas",
    "jam",
}


def by_letter(*words: str) -> dict[str, list[str]]:
    return {word[0]: sorted(other for other in words if other[0] == word[0]) for word in words}


@pytest.mark.parametrize(
    ("written", "meant", "certainty"),
    [
        ("lemon", "lemon", EXACT),
        ("berries", "berry", INFLECTED),
        ("peaches", "peach", INFLECTED),
        ("tomatoes", "tomato", INFLECTED),
        ("lemon's", "lemon", INFLECTED),
        ("thinner", "thin", INFLECTED),
        ("juiciest", "juicy", INFLECTED),
        ("nuttiest", "nutty", INFLECTED),
        ("lemony", "lemon", DERIVED),
        ("spicy", "spice", DERIVED),
        ("sweetish", "sweet", DERIVED),
        ("sweetness", "sweet", DERIVED),
        ("tealike", "tea", DERIVED),
    ],
)
def test_endings_lead_back_to_the_known_word(written, meant, certainty):
    first = inflected_from(written, KNOWN)[0]

    assert (first.word, first.certainty) == (meant, certainty)


def test_a_doubled_letter_before_an_ending_is_undone():
    assert inflected_from("nutty", {"nut"})[0].word == "nut"


@pytest.mark.parametrize("written", ["glass", "james", "her", "s", "es", "ier", ""])
def test_what_only_looks_like_an_ending_leads_nowhere(written):
    assert inflected_from(written, KNOWN) == []


def test_a_quality_made_of_a_thing_stands_alone_and_number_does_not():
    assert inflected_from("lemony", KNOWN)[0].alone
    assert not inflected_from("lemons", KNOWN)[0].alone


@pytest.mark.parametrize(
    ("written", "meant", "certainty"),
    [
        ("lmeon", "lemon", ONE_SLIP),
        ("lemmon", "lemon", ONE_SLIP),
        ("sweeeet", "sweet", ONE_SLIP),
        ("bery", "berry", ONE_SLIP),
        ("strawbery", "strawberry", ONE_SLIP),
        ("chocolste", "chocolate", ONE_SLIP),
        ("pomegrenite", "pomegranate", TWO_SLIPS),
    ],
)
def test_a_slip_is_mended_and_less_certain(written, meant, certainty):
    known = by_letter("lemon", "sweet", "berry", "strawberry", "chocolate", "pomegranate")

    candidate = mistyped_from(written, known)

    assert candidate is not None
    assert (candidate.word, candidate.certainty) == (meant, certainty)


def test_pear_and_pearl_never_become_each_other():
    assert mistyped_from("pearl", by_letter("pear")) is None
    assert mistyped_from("pear", by_letter("pearl")) is None


@pytest.mark.parametrize(
    "written",
    ["peace", "house", "honest", "bmelon", "xhocolate", "chxcolxte", "le", "strawberry" * 4, "ocean"],
)
def test_short_words_other_first_letters_and_far_words_are_not_mended(written):
    known = by_letter("peach", "horse", "honey", "melon", "chocolate", "lemon", "strawberry", "bean")

    assert mistyped_from(written, known) is None


def test_of_several_small_slips_the_nearest_is_taken():
    candidate = mistyped_from("bery", by_letter("beery", "berry", "beer"))

    assert candidate is not None
    assert candidate.word in {"beery", "berry"}
    assert mistyped_from("berrry", by_letter("beery", "berry")).word == "berry"
