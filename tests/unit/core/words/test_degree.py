"""How much of it."""

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.reading import read_note


def degrees(note, lexicon):
    return [(word.concept, word.degree) for word in read_note(note, lexicon).words]


@pytest.mark.parametrize(
    ("note", "expected"),
    [
        ("lemon", [("lemon", "plain")]),
        ("very sweet", [("sweet", "very")]),
        ("too sweet, pear", [("sweet", "too"), ("pear", "plain")]),
        ("very sweet and lemon", [("sweet", "very"), ("lemon", "very")]),
        ("very sweet lemon", [("sweet", "very"), ("lemon", "plain")]),
        ("a hint of sour citrus and pear", [("sour_citrus", "trace"), ("pear", "trace")]),
        ("hint of sweet lemon", [("sweet", "trace"), ("lemon", "trace")]),
        ("pear hints, lemon", [("pear", "trace"), ("lemon", "plain")]),
        ("pear hints of lemon", [("pear", "plain"), ("lemon", "trace")]),
        ("strong lemon", [("lemon", "marked")]),
        ("very strong lemon", [("lemon", "very")]),
        ("very low lemon", [("lemon", "trace")]),
        ("slightly strong lemon", [("lemon", "plain")]),
        ("more sweet", [("sweet", "marked")]),
        ("less sweet", [("sweet", "slight")]),
        ("sweeter", [("sweet", "marked")]),
        ("a little sweeter", [("sweet", "plain")]),
        ("very. sweet", [("sweet", "plain")]),
        ("so lemon/pear", [("lemon", "very"), ("pear", "very")]),
        ("very table lemon", [("lemon", "plain")]),
    ],
)
def test_a_degree_reaches_the_word_it_belongs_to(note, expected):
    assert degrees(note, small_lexicon()) == expected


@pytest.mark.parametrize(
    ("note", "concept", "surface"),
    [
        ("low acidity", "low_acidity", "low acidity"),
        ("acidity is high", "high_acidity", "acidity is high"),
        ("Acidity: low", "low_acidity", "Acidity: low"),
        ("very acid", "high_acidity", "very acid"),
        ("a hint of acidity", "low_acidity", "hint of acidity"),
        ("soft acidity", "low_acidity", "soft acidity"),
        ("not too acid", "low_acidity", "not too acid"),
        ("acidity is not high", "low_acidity", "acidity is not high"),
    ],
)
def test_little_and_much_of_something_are_the_concepts_that_mean_it(note, concept, surface):
    (word,) = read_note(note, small_lexicon()).words

    assert (word.concept, note[word.start : word.end], word.degree, word.negated) == (
        concept,
        surface,
        "plain",
        False,
    )


@pytest.mark.parametrize("note", ["more acid", "less acid", "no acid", "acid"])
def test_what_is_only_compared_or_denied_stays_what_it_is(note):
    assert [concept for concept, _ in degrees(note, small_lexicon())] == ["acidity"]


@pytest.mark.parametrize(
    ("note", "expected"),
    [
        ("strong plum", [("plum", "marked")]),
        ("Strong, plum", [("intense", "plain"), ("plum", "plain")]),
        ("light and fruity", [("light", "plain"), ("fruit", "plain")]),
        ("light citrus", [("citrus", "slight")]),
        ("light smooth", [("light", "plain"), ("smooth", "plain")]),
        ("mild sweetness", [("little_sweet", "plain")]),
        ("light sweet", [("light", "plain"), ("sweet", "plain")]),
        ("mouthfeel: light", [("light_body", "plain")]),
        ("body is medium", [("medium_body", "plain")]),
        ("lots of body", [("full_body", "plain")]),
        ("clarity is high", [("clear", "marked")]),
        ("more prominent bitterness", [("bitter", "very")]),
        ("Smoky slightly.", [("smoke", "slight")]),
        (
            "a little fruity and floral and sort of tea",
            [("fruit", "slight"), ("flower", "slight"), ("tea", "plain")],
        ),
        ("gentle acidity", [("low_acidity", "plain")]),
        ("searing acidity", [("high_acidity", "plain")]),
        ("gentle", [("soft", "plain")]),
        ("chocolate forward", [("chocolate", "marked")]),
        ("bitterness went down", [("bitter", "slight")]),
        ("liked it less", [("liked", "slight")]),
    ],
)
def test_a_word_that_marks_and_means_is_told_apart_by_the_words_beside_it(note, expected):
    assert degrees(note, load_lexicon()) == expected


@pytest.mark.parametrize(
    ("note", "expected"),
    [
        ("dry mouthfeel", ["drying"]),
        ("bitter aftertaste", ["bitter"]),
        ("finish is dry", ["drying"]),
        ("thick in texture", ["thick"]),
        ("interesting aftertaste", ["distinctive"]),
        ("nice body", ["liked", "body"]),
        ("no finish", ["finish"]),
        ("some acidity", ["acidity"]),
        ("finish, dry", ["finish", "drying"]),
        ("aftertaste of dark chocolate", ["dark_chocolate"]),
        ("acidity and sweetness", ["acidity", "sweet"]),
    ],
)
def test_a_noun_of_the_mouth_is_no_word_of_its_own_where_another_says_how(note, expected):
    assert [word.concept for word in read_note(note, load_lexicon()).words] == expected
