"""Naming the coffee of a note from notes on some coffees."""

from math import log

import pytest

from cupwright.core.words.kinship_weights import KinshipWeights
from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.reading import read_note
from cupwright.core.words.telling import (
    VIEWS,
    ViewWeight,
    builtin_company,
    builtin_weights,
    company_of,
    evidence,
    learn,
    likeliest,
    marks_of,
)
from cupwright.errors import TooFewObservations

LEXICON = load_lexicon()
CONCEPTS_ONLY = {"concepts": ViewWeight(1.0, 1.0)}


def read(text):
    return read_note(text, LEXICON)


def portraits(*notes, weights=None):
    return learn([(coffee, read(text)) for coffee, text in notes], LEXICON, weights=weights)


def test_a_word_that_was_written_of_a_coffee_speaks_for_it():
    known = portraits(("one", "lemon, bright"), ("two", "smoke, dark chocolate"))

    assert likeliest(read("lemon"), known) == "one"
    assert likeliest(read("dark chocolate"), known) == "two"


def test_a_word_that_nobody_wrote_speaks_through_its_kin():
    known = portraits(("one", "lemon, jasmine"), ("two", "smoke, dark chocolate"))

    assert likeliest(read("lime"), known) == "one"
    assert likeliest(read("cocoa, ash"), known) == "two"


def test_what_is_denied_speaks_the_other_way():
    known = portraits(("one", "sweet"), ("two", "bitter"))

    assert likeliest(read("not sweet"), known) == "two"
    assert likeliest(read("not bitter"), known) == "one"


def test_a_note_in_which_nothing_is_read_speaks_for_none():
    known = portraits(("one", "lemon"), ("two", "smoke"))

    assert evidence(read(""), known) == {"one": 0.0, "two": 0.0}
    assert evidence(read("zzz"), known) == {"one": 0.0, "two": 0.0}


def test_evidence_is_the_logarithm_of_smoothed_shares_centred_over_the_coffees():
    """By hand: 2 of 3 words against 0 of 1, each concept taken as seen once before."""
    known = portraits(("one", "lemon"), ("one", "lemon, rose"), ("two", "smoke"), weights=CONCEPTS_ONLY)

    n = len(LEXICON)
    one, two = log((2 + 1) / (3 + n)), log((0 + 1) / (1 + n))
    said = evidence(read("lemon"), known)
    assert said["one"] == pytest.approx((one - two) / 2)
    assert said["two"] == pytest.approx((two - one) / 2)


def test_a_word_never_seen_weighs_only_how_much_was_written_of_each_coffee():
    known = portraits(("one", "lemon, rose"), ("two", "smoke"), weights=CONCEPTS_ONLY)

    n = len(LEXICON)
    said = evidence(read("banana"), known)
    assert said["two"] - said["one"] == pytest.approx(log((2 + n) / (1 + n)))


def test_order_of_notes_does_not_matter():
    notes = [("one", "lemon"), ("two", "smoke"), ("one", "bright"), ("two", "bitter")]

    assert evidence(read("lime"), portraits(*notes)) == pytest.approx(
        evidence(read("lime"), portraits(*reversed(notes)))
    )


def test_one_coffee_alone_cannot_be_told_apart():
    with pytest.raises(TooFewObservations, match="two coffees"):
        portraits(("one", "lemon"), ("one", "rose"))


def test_marks_of_a_note_are_counted_for_what_it_says_and_off_for_what_it_denies():
    marks = marks_of(read("lemon, lime, not orange"), LEXICON, "above")

    assert marks == {"citrus": 1.0, "fruit": 1.0}
    assert marks_of(read("no lemon"), LEXICON, "concepts") == {"lemon": -1.0}


def test_a_little_says_less_than_plainly_much_says_more_and_less_than_elsewhere_speaks_against():
    said = {
        text: marks_of(read(text), LEXICON, "concepts").get("plum", 0.0)
        for text in ("plum", "slight plum", "lots of plum", "maybe plum", "less plum than B", "not plum")
    }

    assert said["not plum"] < said["less plum than B"] < 0 < said["slight plum"]
    assert said["slight plum"] < said["maybe plum"] < said["plum"] == 1 < said["lots of plum"]
    assert marks_of(read("sweeter than the plum of B"), LEXICON, "concepts").get("plum", 0.0) == 0


def test_a_concept_keeps_company_with_its_own_family_and_with_those_whose_company_is_alike():
    company = builtin_company(LEXICON)

    assert company["hazelnut"]["nuts"] == 1
    assert 0 < company["hazelnut"]["chocolate"] < 1
    assert "flower" not in company["hazelnut"]
    assert set(company) == set(LEXICON.concepts)


def test_company_of_ones_own_is_used_instead():
    kept = company_of(
        LEXICON, KinshipWeights(0.0, 0.0, 0.0, frozenset(["fruit", "hearth"]), {("fruit", "hearth"): 1.0})
    )
    weights = {"company": ViewWeight(1.0, 1.0)}

    known = learn([("one", read("lemon")), ("two", read("sweet"))], LEXICON, weights=weights, company=kept)

    assert kept["lime"] == {"fruit": 1.0, "hearth": 1.0}
    assert kept["sweet"] == {}
    assert likeliest(read("smoke"), known) == "one"


def test_weights_that_come_with_the_program_cover_every_view():
    weights = builtin_weights()

    assert tuple(weights) == VIEWS
    assert any(weight.weight > 0 for weight in weights.values())
    assert all(weight.weight >= 0 and weight.seen_before > 0 for weight in weights.values())
