"""How near two concepts are."""

from math import log, sqrt

import numpy as np
import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.kinship import joined, kin_of, kinship, kinship_matrix, nearest_kin
from cupwright.core.words.kinship_weights import KinshipWeights
from cupwright.core.words.lexicon import load_lexicon

LEXICON = load_lexicon()
GRAPH_ONLY = KinshipWeights(1.0, 0.0, 0.0, frozenset(), {})
FACETS_ONLY = KinshipWeights(0.0, 1.0, 0.0, frozenset(), {})


def test_graph_is_the_share_of_what_stands_above_both_and_what_tells_more_counts_more():
    lexicon = small_lexicon()
    kin = joined(lexicon, GRAPH_ONLY)

    n = len(lexicon)
    lemon, citrus, fruit = log((n + 1) / 1), log((n + 1) / 4), log((n + 1) / 8)
    expected = (citrus + fruit) / sqrt((lemon + citrus + fruit) * (citrus + fruit))
    assert kin.kinship[kin.row["lemon"], kin.row["citrus"]] == pytest.approx(expected)
    assert kin.kinship[kin.row["lemon"], kin.row["sweet"]] == 0


def test_only_the_kinds_of_facet_that_both_have_are_compared():
    """Sour has no source and no state, so it is compared with lemon by sensations alone."""
    kin = joined(LEXICON, FACETS_ONLY)

    assert kin.kinship[kin.row["lemon"], kin.row["sour"]] > 0.5
    assert kin.kinship[kin.row["honey"], kin.row["sour"]] == 0
    assert kin.kinship[kin.row["touch"], kin.row["lemon"]] == 0


def test_families_that_keep_like_company_make_their_words_kin():
    weights = KinshipWeights(
        0.0, 0.0, 0.8, frozenset({"fruit", "taste", "touch"}), {("fruit", "taste"): 0.75}
    )
    lexicon = small_lexicon()

    kin = joined(lexicon, weights)

    assert kin.kinship[kin.row["lemon"], kin.row["sweet"]] == pytest.approx(0.8 * 0.5)
    assert kin.kinship[kin.row["lemon"], kin.row["disliked"]] == 0


def test_words_on_one_scale_are_as_near_as_their_places():
    lexicon = small_lexicon()

    assert kinship("thin", "heavy", lexicon) == 0
    assert kinship("thin", "light", lexicon) == pytest.approx(0.9 * 0.8)
    assert kinship("thin", "light", lexicon) > kinship("light", "heavy", lexicon)


def test_kinship_is_symmetric_lies_between_0_and_1_and_is_1_only_for_the_same():
    matrix = kinship_matrix(LEXICON)

    assert matrix.shape == (len(LEXICON), len(LEXICON))
    assert np.array_equal(matrix, matrix.T)
    assert np.all((matrix >= 0) & (matrix <= 1))
    assert np.array_equal(matrix == 1, np.eye(len(LEXICON), dtype=bool))


def test_matrix_is_in_the_order_of_the_lexicon_and_cannot_be_changed():
    matrix, ids = kinship_matrix(LEXICON), list(LEXICON.concepts)

    assert matrix[ids.index("lemon"), ids.index("lime")] == kinship("lemon", "lime", LEXICON)
    assert kin_of(LEXICON) is kin_of(LEXICON)
    with pytest.raises(ValueError, match="read-only"):
        matrix[0, 0] = 0.5


def test_nearest_kin_come_nearest_first_without_the_word_itself():
    nearest = nearest_kin("dark_chocolate", LEXICON, count=5)

    assert len(nearest) == 5
    assert [kin for _, kin in nearest] == sorted((kin for _, kin in nearest), reverse=True)
    assert "cocoa" in dict(nearest)
    assert "dark_chocolate" not in dict(nearest)


@pytest.mark.parametrize(
    ("word", "nearer", "farther"),
    [
        ("quince", "pear", "smoke"),
        ("lemon", "lime", "blueberry"),
        ("lemon", "blueberry", "almond"),
        ("lemon", "sour", "bitter"),
        ("honey", "sweet", "salty"),
        ("orange_blossom", "orange", "tobacco"),
        ("blackcurrant", "blackberry", "pineapple"),
        ("dark_chocolate", "cocoa", "honey"),
        ("dark_chocolate", "milk_chocolate", "caramel"),
        ("caramel", "brown_sugar", "lemon"),
        ("thin", "light_body", "full_body"),
        ("silky", "velvety", "grainy"),
        ("tart", "sour", "low_acidity"),
        ("astringent", "drying", "juicy"),
        ("astringent", "black_tea", "honey"),
        ("red_wine", "wine", "beer"),
        ("liked", "easy_drinking", "disliked"),
        ("papery", "wood", "rose"),
        ("smoke", "tobacco", "quince"),
    ],
)
def test_the_nearer_word_is_nearer(word, nearer, farther):
    assert kinship(word, nearer, LEXICON) > kinship(word, farther, LEXICON)


def test_an_unknown_concept_is_a_key_error():
    with pytest.raises(KeyError):
        kinship("lemon", "quince", small_lexicon())
