"""Endings and slips of the keyboard."""

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.spelling import (
    DERIVED,
    EXACT,
    INFLECTED,
    ONE_SLIP,
    TWO_SLIPS,
    Candidate,
    Mender,
    inflected_from,
)

ENDINGS = small_lexicon().language.endings

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
    first = inflected_from(written, KNOWN, ENDINGS)[0]

    assert (first.word, first.certainty) == (meant, certainty)


def test_a_doubled_letter_before_an_ending_is_undone():
    assert inflected_from("nutty", {"nut"}, ENDINGS)[0].word == "nut"


@pytest.mark.parametrize("written", ["glass", "james", "her", "s", "es", "ier", ""])
def test_what_only_looks_like_an_ending_leads_nowhere(written):
    assert inflected_from(written, KNOWN, ENDINGS) == []


def test_a_quality_made_of_a_thing_stands_alone_and_number_does_not():
    assert inflected_from("lemony", KNOWN, ENDINGS)[0].alone
    assert not inflected_from("lemons", KNOWN, ENDINGS)[0].alone


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
    mender = Mender(["lemon", "sweet", "berry", "strawberry", "chocolate", "pomegranate"])

    candidate = mender.meant(written)

    assert candidate is not None
    assert (candidate.word, candidate.certainty) == (meant, certainty)


def test_only_words_of_a_to_z_are_mended_so_that_letters_count_alike_everywhere():
    mender = Mender(["strawberry"])

    assert mender.meant("strawberrÿ") is None
    assert mender.meant("str4wberry") is None


@pytest.mark.parametrize(
    ("written", "ending"), [("thinner", "er"), ("juiciest", "iest"), ("nuttiest", "iest"), ("lemons", "")]
)
def test_an_ending_that_compares_is_remembered(written, ending):
    assert inflected_from(written, KNOWN, ENDINGS)[0].compares == ending


def test_pear_and_pearl_never_become_each_other():
    assert Mender(["pear"]).meant("pearl") is None
    assert Mender(["pearl"]).meant("pear") is None


@pytest.mark.parametrize(
    "written",
    ["peace", "house", "honest", "bmelon", "xhocolate", "chxcolxte", "le", "strawberry" * 4, "ocean"],
)
def test_short_words_other_first_letters_and_far_words_are_not_mended(written):
    mender = Mender(["peach", "horse", "honey", "melon", "chocolate", "lemon", "strawberry", "bean"])

    assert mender.meant(written) is None


@pytest.mark.parametrize(("written", "meant"), [("berrry", "berry"), ("beeery", "beery"), ("bery", "beery")])
def test_of_several_small_slips_the_nearest_is_taken_and_of_equals_the_first_by_letter(written, meant):
    assert Mender(["berry", "beery", "beer"]).meant(written) == Candidate(meant, ONE_SLIP)
