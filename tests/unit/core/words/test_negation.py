"""What a note denies."""

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.reading import read_note


@pytest.mark.parametrize(
    ("note", "denied", "said"),
    [
        ("not sweet", {"sweet"}, set()),
        ("sweet, not acid", {"acidity"}, {"sweet"}),
        ("no acidity, sweet", {"acidity"}, {"sweet"}),
        ("no acidity but sweet", {"acidity"}, {"sweet"}),
        ("not very sweet or fruity", {"sweet", "fruit"}, set()),
        ("no acid and sweet", {"acidity"}, {"sweet"}),
        ("without acid and fruit", {"acidity", "fruit"}, set()),
        ("lacking fruit", {"fruit"}, set()),
        ("fruit lacking", {"fruit"}, set()),
        ("sweet, fruit is missing", {"fruit"}, {"sweet"}),
        ("sweet lacking fruit", {"fruit"}, {"sweet"}),
        ("not only sweet", set(), {"sweet"}),
        ("not sure, lemon", set(), {"lemon"}),
        ("not sure lemon", set(), {"lemon"}),
        ("not good, lemon", set(), {"disliked", "lemon"}),
        ("not at all a very very sweet coffee", {"sweet"}, set()),
        ("not i in the coffee of the coffee at all sweet", set(), {"sweet"}),
        ("not anything other than lemon", set(), {"lemon"}),
        ("sweet. not", set(), {"sweet"}),
    ],
)
def test_a_denial_reaches_as_far_as_it_is_meant(note, denied, said):
    reading = read_note(note, small_lexicon())

    assert (reading.denied, reading.concepts) == (denied, said)


@pytest.mark.parametrize(
    ("note", "denied"),
    [
        ("Lacks body.", {"body"}),
        ("No acidity", {"acidity"}),
        ("isn’t bright at all", {"bright"}),
        ("didn't get any chocolate", {"chocolate"}),
        ("neither juicy nor floral", {"juicy", "flower"}),
        ("light but not thin", {"thin"}),
        ("smooth without being bitter", {"bitter"}),
        ("not bitter, sour or harsh", {"bitter", "sour", "harsh"}),
        ("not bitter/sour", {"bitter", "sour"}),
        ("no sweetness and acidity", {"sweet", "acidity"}),
        ("no acid and smooth", {"acidity"}),
        ("no sourness or bitterness fruity", {"sour", "bitter"}),
        ("w/o sweetness", {"sweet"}),
        ("free of astringency", {"astringent"}),
        ("hardly any sweetness", {"sweet"}),
        ("lost its sweetness", {"sweet"}),
        ("I don't think I'd want to drink it every day", {"easy_drinking"}),
        ("didn't get the dark and bitter flavor", {"dark", "bitter"}),
        ("lacking body, sweetness and juiciness", {"body", "sweet", "juicy"}),
        ("without sourness, caramel and nuts", {"sour"}),
        ("Acidity: none", {"acidity"}),
        ("acidity no, body yes", {"acidity"}),
        ("chocolate with no flavor", set()),
        ("the sweetness is gone", {"sweet"}),
        ("I miss the fruit", {"fruit"}),
        ("anything but smooth", {"smooth"}),
        ("not fruity chocolate", {"fruit", "chocolate"}),
        ("I don't dislike the funk", {"disliked"}),
        ("not a great acidity", set()),
        ("not without sweetness", set()),
        ("isn't lacking in body", set()),
        ("the roast doesn't hide the fruit", set()),
        ("no question, plum", set()),
    ],
)
def test_denials_in_the_words_of_tasters_are_found(note, denied):
    assert read_note(note, load_lexicon()).denied == denied


@pytest.mark.parametrize(
    ("note", "concept"),
    [
        ("not my favourite", "disliked"),
        ("did not like this", "disliked"),
        ("not bad", "acceptable"),
        ("nothing special", "unremarkable"),
        ("out of balance", "unbalanced"),
        ("not very acidic", "low_acidity"),
        ("not too bitter", "low_bitterness"),
        ("acidity is not too high", "low_acidity"),
    ],
)
def test_a_phrase_that_denies_as_a_whole_is_one_concept_and_not_negated(note, concept):
    reading = read_note(note, load_lexicon())

    assert (reading.concepts, reading.denied) == ({concept}, frozenset())


@pytest.mark.parametrize(
    ("note", "said", "denied"),
    [
        ("not a coffee I'd enjoy", {"disliked"}, set()),
        ("neither offensive nor exemplary", set(), {"disliked", "liked"}),
        ("nothing in it, either good or bad", set(), {"liked", "disliked"}),
        ("lacks balance", {"unbalanced"}, set()),
        ("I never knew that I liked this", {"liked"}, set()),
    ],
)
def test_a_denial_that_means_the_opposite_is_the_opposite(note, said, denied):
    reading = read_note(note, load_lexicon())

    assert (reading.concepts, reading.denied) == (said, denied)


@pytest.mark.parametrize("note", ["less fruity than the others", "least fruity", "not as fruity"])
def test_having_less_of_something_than_another_cup_denies_nothing_and_says_nothing(note):
    reading = read_note(note, load_lexicon())

    assert [word.concept for word in reading.words] == ["fruit"]
    assert (reading.concepts, reading.denied) == (frozenset(), frozenset())


def test_a_concept_both_said_and_denied_counts_as_said():
    reading = read_note("sweet, later not sweet", small_lexicon())

    assert reading.concepts == {"sweet"}
    assert reading.denied == frozenset()
