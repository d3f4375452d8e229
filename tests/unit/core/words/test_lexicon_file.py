"""Reading and refusing lexicon files."""

import pytest
from tests.unit.core.words.small_lexicon import CONCEPTS, LANGUAGE

from cupwright.core.words.lexicon_file import parse_lexicon, spellings
from cupwright.errors import BadFile


def refusal(concepts: str, language: str = LANGUAGE) -> str:
    with pytest.raises(BadFile) as caught:
        parse_lexicon(concepts, language)
    return caught.value.sentence()


def test_label_is_the_id_in_words_unless_the_file_gives_one():
    lexicon = parse_lexicon(CONCEPTS, LANGUAGE)
    named = parse_lexicon(CONCEPTS + 'label.en = "not liked"\n', LANGUAGE)

    assert lexicon["sour_citrus"].label == "sour citrus"
    assert named["disliked"].label == "not liked"


def test_family_is_the_head_above_the_first_parent():
    lexicon = parse_lexicon(CONCEPTS, LANGUAGE)

    assert lexicon["sour_citrus"].family == "fruit"
    assert lexicon["lemon"].family == "fruit"


@pytest.mark.parametrize(
    ("added", "part"),
    [
        ('[concept.quince]\nforms.en = ["quince"]', "'quince' has no parent and is no family"),
        ('[concept.quince]\nparents = ["pome"]\nforms.en = ["quince"]', "under 'pome', which does not exist"),
        ('[concept.quince]\nparents = ["fruit"]', "'quince' has no English form"),
        ('[concept.quince]\nparents = ["fruit"]\nforms.en = ["quince"]\nfamly = 1', "nobody reads: famly"),
        (
            '[concept.quince]\nparents = ["fruit"]\nforms.en = ["lemon"]',
            "belongs to both 'lemon' and 'quince'",
        ),
        (
            '[concept.quince]\nparents = ["fruit"]\nforms.en = ["Lémon"]',
            "belongs to both 'lemon' and 'quince'",
        ),
        ('[concept.quince]\nparents = ["fruit"]\nforms.en = ["q"]\nshared.en = ["z"]', "no concept owns it"),
        ('[concept.quince]\nparents = ["fruit"]\nforms.en = ["q"]\ncolour = "red"', "no #rrggbb: red"),
        ('[concept.quince]\nparents = ["fruit"]\nforms.en = ["q"]\nplace = 0.5', "both a scale and a place"),
        ('[concept.quince]\nparents = ["fruit"]\nforms.en = ["q"]\nscale = "x"\nplace = 2.0', "from -1 to 1"),
        (
            '[concept.quince]\nparents = ["fruit"]\nforms.en = ["q"]\nallergens = ["nuts"]',
            "none of the 14: nuts",
        ),
        ('[concept.quince]\nparents = ["fruit"]\nforms.en = ["q"]\nallergens = ["milk"]', "no reference"),
        ('[concept.quince]\nparents = ["fruit"]\nforms.en = ["q"]\ndefect = "Mould."', "what to do"),
        ("[concept.quince", "not valid TOML"),
    ],
)
def test_a_lexicon_that_does_not_hold_together_is_refused_with_the_concept_named(added, part):
    assert part in refusal(f"{CONCEPTS}\n{added}\n")


def test_a_circle_of_parents_is_refused_and_shown():
    circle = CONCEPTS.replace(
        '[concept.citrus]\nparents = ["fruit"]', '[concept.citrus]\nparents = ["lemon"]'
    )

    assert "run in a circle: citrus > lemon > citrus" in refusal(circle)


def test_a_family_with_a_parent_is_refused():
    hanging = CONCEPTS.replace("[concept.touch]\n", '[concept.touch]\nparents = ["taste"]\n')

    assert "The family 'touch' cannot hang under 'taste'" in refusal(hanging)


def test_a_group_in_braces_stands_for_each_of_its_words():
    assert spellings("light {body}", {"body": ["body", "feel"]}) == {("light", "body"), ("light", "feel")}


def test_a_hyphen_stands_for_together_and_apart():
    assert spellings("blue-berry pie", {}) == {("blueberry", "pie"), ("blue", "berry", "pie")}
