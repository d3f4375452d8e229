"""Why two words are kin."""

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.explain import degree, explain
from cupwright.core.words.kinship import kinship
from cupwright.core.words.lexicon import load_lexicon

LEXICON = load_lexicon()


@pytest.mark.parametrize(
    ("a", "b", "reason"),
    [
        ("lemon", "lime", "Both belong to citrus."),
        ("lemon", "citrus", "Lemon belongs to citrus."),
        ("citrus", "lemon", "Lemon belongs to citrus."),
        ("rum", "molasses", "Rum belongs to molasses."),
        ("orange_blossom", "orange", "Both come from citrus."),
        ("raisin", "fig", "Both are dried."),
        ("bergamot", "citrus_peel", "Both are peel."),
        ("lemon", "sour", "What carries both is sour."),
        ("dark_chocolate", "hazelnut", "Words of chocolate and of nuts keep like company."),
        ("thin", "watery", "Both speak of weight, and mean much the same of it."),
        ("thin", "full_body", "Both speak of weight, but from its two ends."),
        ("thin", "medium_body", "Both speak of weight, some way apart."),
        ("smoke", "quince", "Nothing we know of makes them kin."),
    ],
)
def test_the_reason_is_named(a, b, reason):
    assert reason.lower() in explain(a, b, LEXICON).lower()


def test_it_opens_with_both_words_and_how_near_they_are():
    near = kinship("lemon", "lime", LEXICON)

    assert explain("lemon", "lime", LEXICON).startswith(f"Lemon and lime: near ({near:.2f}).")


def test_the_same_word_is_said_to_be_one():
    assert explain("lemon", "lemon", LEXICON) == "It is one word: lemon."


def test_every_kinship_above_nothing_has_a_reason_and_no_kinship_has_none():
    ids = list(LEXICON.concepts)[::11]

    for a in ids:
        for b in ids:
            if a != b:
                unexplained = "Nothing we know of" in explain(a, b, LEXICON)
                assert not (unexplained and kinship(a, b, LEXICON) > 0)


def test_degrees_fall_from_very_near_to_strangers():
    assert [degree(near) for near in (0.9, 0.6, 0.4, 0.2, 0.0)] == [
        "very near",
        "near",
        "distant kin",
        "hardly kin",
        "strangers",
    ]


def test_an_unknown_concept_is_a_key_error():
    with pytest.raises(KeyError):
        explain("lemon", "quince", small_lexicon())
