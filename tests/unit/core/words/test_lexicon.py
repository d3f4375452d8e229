"""The lexicon that comes with the program."""

import re

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.colour import oklab_from_hex
from cupwright.core.words.lexicon import load_lexicon


@pytest.fixture(scope="module")
def lexicon():
    return load_lexicon()


def test_the_lexicon_holds_together_and_is_read_only_once(lexicon):
    assert len(lexicon) >= 350
    assert load_lexicon() is lexicon


def test_every_concept_hangs_under_a_head_that_is_listed_as_a_family(lexicon):
    for concept in lexicon:
        heads = [above for above in lexicon.ancestors(concept.id) if not lexicon[above].parents]

        assert concept.family in heads
        assert set(heads) <= set(lexicon.families)


def test_no_two_concepts_are_shown_alike(lexicon):
    labels = [concept.label.casefold() for concept in lexicon]

    assert len(labels) == len(set(labels))


def test_a_label_is_plain_words(lexicon):
    assert not [c.label for c in lexicon if set(c.label) & set("{}_") or c.label != c.label.strip()]


def test_every_fault_says_its_cause_and_what_to_do_at_the_table(lexicon):
    faults = [concept for concept in lexicon if concept.family == "fault"]

    assert len(faults) >= 15
    assert all(fault.defect.endswith(".") and fault.todo.endswith(".") for fault in faults)


@pytest.mark.parametrize(
    ("word", "allergen"),
    [
        ("nut", "tree nuts"),
        ("almond", "tree nuts"),
        ("peanut", "peanut"),
        ("milk", "milk"),
        ("butter", "milk"),
        ("bread", "gluten"),
        ("biscuit", "gluten"),
        ("soy", "soya"),
        ("sesame", "sesame"),
        ("celery", "celery"),
        ("custard", "egg"),
    ],
)
def test_a_kitchen_sample_that_names_an_allergen_is_marked_with_it(lexicon, word, allergen):
    naming = [concept for concept in lexicon if re.search(rf"\b{word}s?\b", concept.reference.casefold())]

    assert naming
    assert not [concept.id for concept in naming if allergen not in concept.allergens]


def test_samples_with_caffeine_quinine_or_alcohol_say_so(lexicon):
    holding = {
        "black tea": "caffeine",
        "green tea": "caffeine",
        "tonic water": "quinine",
        "red wine": "alcohol",
    }

    for start, warning in holding.items():
        references = [c.reference for c in lexicon if c.reference.casefold().startswith(start)]
        assert references
        assert all(warning in reference.casefold() for reference in references)


def test_typical_colours_can_be_shown(lexicon):
    colours = [oklab_from_hex(concept.colour) for concept in lexicon if concept.colour]

    assert len(colours) >= 200
    assert all(0 <= colour.l <= 1 for colour in colours)


def test_scales_reach_from_one_end_to_the_other(lexicon):
    places: dict[str, list[float]] = {}
    for concept in lexicon:
        if concept.scale:
            places.setdefault(concept.scale, []).append(concept.place)

    assert {"weight", "texture", "drying", "acidity", "sweetness"} <= places.keys()
    for scale in ("weight", "texture", "drying", "acidity", "bitterness", "liking"):
        assert min(places[scale]) < 0 < max(places[scale])


def test_ancestors_follow_every_parent():
    lexicon = small_lexicon()

    assert lexicon.ancestors("sour_citrus") == {"sour_citrus", "citrus", "fruit", "acidity", "taste"}
    assert lexicon.ancestors("fruit") == {"fruit"}


def test_an_unknown_concept_is_a_key_error():
    lexicon = small_lexicon()

    assert "quince" not in lexicon
    with pytest.raises(KeyError):
        lexicon["quince"]
