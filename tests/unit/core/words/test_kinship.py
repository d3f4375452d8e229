"""How near two concepts are."""

from itertools import combinations

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.kinship import kinship
from cupwright.core.words.lexicon import load_lexicon


def test_kinship_is_the_share_of_what_stands_above_both():
    lexicon = small_lexicon()

    assert kinship("lemon", "lemon", lexicon) == 1
    assert kinship("lemon", "citrus", lexicon) == pytest.approx(2 / 6**0.5)
    assert kinship("lemon", "orange", lexicon) == pytest.approx(2 / 3)
    assert kinship("lemon", "blueberry", lexicon) == pytest.approx(1 / 3)
    assert kinship("lemon", "sour_citrus", lexicon) == pytest.approx(2 / 15**0.5)
    assert kinship("lemon", "sweet", lexicon) == 0


def test_words_on_one_scale_are_as_near_as_their_places():
    lexicon = small_lexicon()

    assert kinship("thin", "heavy", lexicon) == 0
    assert kinship("thin", "light", lexicon) == pytest.approx(0.9 * 0.8)
    assert kinship("thin", "light", lexicon) > kinship("light", "heavy", lexicon)


def test_kinship_is_symmetric_lies_between_0_and_1_and_is_1_only_for_the_same():
    lexicon = load_lexicon()
    ids = list(lexicon.concepts)[::4]

    for a, b in combinations(ids, 2):
        assert kinship(a, b, lexicon) == kinship(b, a, lexicon)
        assert 0 <= kinship(a, b, lexicon) < 1


@pytest.mark.parametrize(
    ("word", "nearer", "farther"),
    [
        ("quince", "pear", "smoke"),
        ("lemon", "lime", "blueberry"),
        ("lemon", "blueberry", "almond"),
        ("blackcurrant", "blackberry", "pineapple"),
        ("dark_chocolate", "cocoa", "honey"),
        ("dark_chocolate", "milk_chocolate", "caramel"),
        ("thin", "light_body", "full_body"),
        ("silky", "velvety", "grainy"),
        ("tart", "sour", "low_acidity"),
        ("astringent", "drying", "juicy"),
        ("red_wine", "wine", "beer"),
        ("liked", "easy_drinking", "disliked"),
        ("papery", "wood", "rose"),
    ],
)
def test_the_nearer_word_is_nearer(word, nearer, farther):
    lexicon = load_lexicon()

    assert kinship(word, nearer, lexicon) > kinship(word, farther, lexicon)


def test_an_unknown_concept_is_a_key_error():
    with pytest.raises(KeyError):
        kinship("lemon", "quince", small_lexicon())
