"""Kinship of phrases that name several concepts."""

import pytest

from cupwright.core.words.explain import explain_phrases
from cupwright.core.words.kinship import kinship, nearest_kin
from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.look_up import concepts_called
from cupwright.core.words.phrase_kinship import nearest_to_phrase, phrase_kinship

LEXICON = load_lexicon()


def near(one, other):
    return phrase_kinship(concepts_called(one, LEXICON), concepts_called(other, LEXICON), LEXICON).kinship


def test_of_single_concepts_it_is_their_kinship():
    assert near("lemon", "lime") == kinship("lemon", "lime", LEXICON)


def test_it_is_the_mean_of_how_near_each_concept_comes_to_the_other_phrase():
    jelly, cooked = "fruit_jelly", "cooked_fruit"
    across = (1 + kinship(jelly, cooked, LEXICON)) / 2

    assert near("quince jelly", "poached quince") == pytest.approx(across)
    assert near("quince jelly", "jelly") == pytest.approx(
        ((kinship("quince", jelly, LEXICON) + 1) / 2 + 1) / 2
    )


def test_quince_jelly_is_near_poached_quince_and_far_from_smoke():
    assert near("quince jelly", "poached quince") > 0.75
    assert near("quince jelly", "smoke") < 0.1
    assert near("quince jelly", "jelly") > near("quince jelly", "plum")


@pytest.mark.parametrize(
    "words", [("quince jelly", "plum jam"), ("lemon", "lemon tea"), ("smoke", "oak and ash")]
)
def test_it_does_not_matter_which_comes_first_and_only_the_same_is_one(words):
    one, other = words

    assert near(one, other) == pytest.approx(near(other, one))
    assert 0 <= near(one, other) < 1
    assert near(one, one) == near(other, other) == 1


def test_each_concept_is_told_its_nearest():
    told = phrase_kinship(("quince", "fruit_jelly"), ("cooked_fruit", "quince"), LEXICON).nearest

    assert [pair[:2] for pair in told] == [
        ("quince", "quince"),
        ("fruit_jelly", "cooked_fruit"),
        ("cooked_fruit", "fruit_jelly"),
        ("quince", "quince"),
    ]


def test_the_nearest_to_a_phrase_are_kin_of_all_of_it_and_of_one_concept_its_kin():
    found = nearest_to_phrase(("quince", "fruit_jelly"), LEXICON, count=5)

    assert nearest_to_phrase(("plum",), LEXICON) == nearest_kin("plum", LEXICON)
    assert found[0][0] == "jam"
    assert {concept for concept, _ in found}.isdisjoint({"quince", "fruit_jelly"})
    assert all(
        value == pytest.approx(phrase_kinship(("quince", "fruit_jelly"), (concept,), LEXICON).kinship)
        for concept, value in found
    )


@pytest.mark.parametrize(
    ("one", "other", "said"),
    [
        (
            "quince jelly",
            "poached quince",
            "Both name quince. Cooked fruit comes nearest to fruit jelly (near, ",
        ),
        ("quince jelly", "smoke", "strangers (0.00). Nothing we know of makes them kin."),
        ("lemon and smoke", "lime", "Smoke has no kin there."),
        ("lemon", "lime", "Both belong to citrus."),
    ],
)
def test_why_is_told_in_words(one, other, said):
    assert said in explain_phrases(concepts_called(one, LEXICON), concepts_called(other, LEXICON), LEXICON)
