"""In which language a note is read."""

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.languages import spoken
from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.reading import read_note


@pytest.mark.parametrize(
    ("unknown", "code"),
    [
        ([], "en"),
        (["chair"], "en"),
        (["limon"], "es"),
        (["con", "una"], "es"),
        (["con"], "en"),
        (["peras", "x"], "es"),
    ],
)
def test_english_is_left_when_another_language_knows_enough_of_the_other_words(unknown, code):
    assert spoken(unknown, small_lexicon()) == code


@pytest.mark.parametrize(
    ("note", "expected"),
    [
        ("muy dulce, con notas de membrillo", ["sweet", "quince"]),
        ("no es amargo, acidez alta, cuerpo ligero", ["bitter", "high_acidity", "light_body"]),
        ("chocolate ao leite, muito doce; retrogosto longo", ["milk_chocolate", "sweet", "long_finish"]),
        ("sem amargor, corpo aveludado, ameixas", ["bitter", "velvety", "plum"]),
        ("clean, bright, jazmín", ["clean", "bright", "jasmine"]),
        ("leche, limón and honey", ["dairy", "lemon", "honey"]),
    ],
)
def test_notes_in_other_languages_and_mixed_ones_are_read(note, expected):
    assert [word.concept for word in read_note(note, load_lexicon()).words] == expected


def test_denial_degree_and_doubt_are_read_in_other_languages_too():
    words = read_note("sin acidez, un toque de jazmín, quizás miel; más dulce que la B", load_lexicon()).words

    assert [(w.concept, w.negated, w.degree, w.hedged, w.comparison) for w in words] == [
        ("acidity", True, "plain", False, ""),
        ("jasmine", False, "trace", False, ""),
        ("honey", False, "plain", True, ""),
        ("sweet", False, "marked", False, "more"),
    ]


@pytest.mark.parametrize("note", ["the pan was hot", "James said so", "once more, sin city", "a real mole"])
def test_english_stays_english(note):
    assert not {"bread", "jam", "blackberry"} & read_note(note, load_lexicon()).concepts
