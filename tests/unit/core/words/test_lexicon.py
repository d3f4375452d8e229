"""The lexicon that comes with the program."""

import re

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.colour import oklab_from_hex
from cupwright.core.words.forms import spellings
from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.phrases import phrase_index
from cupwright.core.words.reading import read_note
from cupwright.core.words.tokens import tokens


@pytest.fixture(scope="module")
def lexicon():
    return load_lexicon()


def test_the_lexicon_holds_together_and_is_read_only_once(lexicon):
    assert len(lexicon) >= 450
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


@pytest.mark.parametrize("code", ["es", "pt"])
def test_the_most_used_concepts_have_labels_and_forms_in_other_languages(lexicon, code):
    labelled = [concept for concept in lexicon if code in concept.labels]

    assert len(labelled) >= 150
    assert all(concept.forms_in(code) for concept in labelled)
    assert [
        concept.id for concept in labelled if concept.label_in(code) != concept.label_in(code).strip()
    ] == []


def test_what_is_asked_how_much_and_what_is_asked_how_it_is_are_told_apart(lexicon):
    assert {lexicon[c].about for c in ("sweet", "bitter", "acidity", "body", "astringent", "finish")} == {
        "intensity"
    }
    assert {lexicon[c].about for c in ("plum", "jasmine", "cocoa", "cedar")} == {"character"}
    assert lexicon["sour"].takes["gentle"] == "slight"


def test_british_and_american_forms_are_both_known(lexicon):
    for one, other in (
        ("flavour bomb", "flavor bomb"),
        ("mouldy", "moldy"),
        ("yoghurt", "yogurt"),
        ("liquorice", "licorice"),
    ):
        assert (
            {w.concept for w in read_note(one, lexicon).words}
            == {w.concept for w in read_note(other, lexicon).words}
            != set()
        )


def test_labels_are_american_where_america_spells_otherwise(lexicon):
    assert lexicon["yoghurt"].label_in("en-us") == "yogurt"
    assert lexicon["plum"].label_in("en-us") == "plum"


def test_common_misspellings_are_known_and_less_certain(lexicon):
    slips = [(concept.id, slip) for concept in lexicon for slip in concept.slips]

    assert len(slips) >= 100
    for concept, slip in slips:
        (word,) = read_note(slip, lexicon).words
        assert (word.concept, word.certainty) == (concept, 0.8), slip


def test_every_form_is_read_as_its_concept(lexicon):
    """What a form stands for in a phrase may change its concept (low, high), never its family line."""
    for concept in lexicon:
        for form in concept.synonyms:
            for spelling in spellings(form, lexicon.language):
                found = phrase_index(lexicon).longest(tokens(" ".join(spelling)), 0)
                assert (found.concept, found.after) == (concept.id, len(spelling)), form


def test_a_form_in_another_language_is_read_as_its_concept(lexicon):
    for code, language in lexicon.others.items():
        for concept in lexicon:
            for form in concept.forms_in(code):
                for spelling in spellings(form, language):
                    found = phrase_index(lexicon, code).longest(tokens(" ".join(spelling)), 0)
                    assert (found.concept, found.after) == (concept.id, len(spelling)), form


def test_ancestors_follow_every_parent():
    lexicon = small_lexicon()

    assert lexicon.ancestors("sour_citrus") == {"sour_citrus", "citrus", "fruit", "acidity", "taste"}
    assert lexicon.ancestors("fruit") == {"fruit"}


def test_an_unknown_concept_is_a_key_error():
    lexicon = small_lexicon()

    assert "quince" not in lexicon
    with pytest.raises(KeyError):
        lexicon["quince"]
