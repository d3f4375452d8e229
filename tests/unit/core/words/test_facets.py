"""What concepts come from, their state and their sensations."""

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.facets import Facets, builtin_facets, facets_of, inherited, parse_facets
from cupwright.core.words.lexicon import load_lexicon
from cupwright.errors import BadFile

WORDS = """
[words]
states = "fresh dried"
feels = "sweet sour fruity"
"""


def test_every_concept_has_facets_of_its_own_or_inherited_or_a_place_on_a_scale():
    """Heads of touch, taste and what is said of the whole are left: they say only what a word is about.

    So are colours, kinds of coffee and some words of the whole, which have no sensation of their own.
    """
    lexicon = load_lexicon()
    heads = set(lexicon.families)

    facets = facets_of(lexicon)

    assert list(facets) == list(lexicon.concepts)
    bare = [
        concept
        for concept, f in facets.items()
        if not (f.made_of or f.state or f.feels or lexicon[concept].scale)
    ]
    of_no_sensation = {c for c in bare if lexicon[c].family in ("colour", "make", "verdict", "character")}
    assert set(bare) - of_no_sensation <= heads | {"body"}


def test_no_facet_stands_for_a_concept_that_is_not_in_the_lexicon():
    assert set(builtin_facets().rows) <= load_lexicon().concepts.keys()


def test_every_state_and_sensation_of_the_list_is_used():
    file, facets = builtin_facets(), facets_of(load_lexicon()).values()

    assert {f.state for f in facets} - {""} == set(file.states)
    assert {word for f in facets for word in f.feels} == set(file.feels)


def test_what_is_not_said_comes_from_the_parents():
    file = parse_facets(
        WORDS
        + """
        [facets]
        fruit = { from = "fruit", state = "fresh", feels = "fruity sweet" }
        acidity = { feels = "sour" }
        berry = { state = "dried" }
        """
    )

    facets = inherited(small_lexicon(), file)

    assert facets["lemon"] == facets["fruit"]
    assert facets["blueberry"] == Facets(frozenset({"fruit"}), "dried", frozenset({"fruity", "sweet"}))
    assert facets["sour_citrus"].feels == {"fruity", "sweet", "sour"}
    assert facets["touch"] == Facets(frozenset(), "", frozenset())


@pytest.mark.parametrize(
    ("row", "sentence"),
    [
        ('lemon = { smell = "sour" }', "'lemon' has a facet nobody reads: smell."),
        ('lemon = { feels = "sour loud" }', "'lemon' has a feels that is not one of the list: sour loud."),
        ('lemon = { state = "boiled" }', "'lemon' has a state that is not one of the list: boiled."),
        (
            'lemon = { state = "fresh dried" }',
            "'lemon' has a state that is not one of the list: fresh dried.",
        ),
        ("lemon = {", "This is not valid TOML"),
    ],
)
def test_a_file_that_is_wrong_is_refused_and_the_sentence_names_the_concept(row, sentence):
    with pytest.raises(BadFile) as refusal:
        parse_facets(f"{WORDS}[facets]\n{row}\n")

    assert sentence in str(refusal.value)
    assert "facets.toml" in str(refusal.value)
