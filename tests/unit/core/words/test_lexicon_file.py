"""Reading and refusing lexicon files."""

import pytest
from tests.unit.core.words.small_lexicon import CONCEPTS, LANGUAGE, SPANISH

from cupwright.core.words.lexicon_file import parse_lexicon
from cupwright.errors import BadFile


def refusal(concepts: str, language: str = LANGUAGE, spanish: str = SPANISH) -> str:
    with pytest.raises(BadFile) as caught:
        parse_lexicon(concepts, language, others={"es": spanish})
    return caught.value.sentence()


def test_label_is_the_id_in_words_unless_the_file_gives_one():
    lexicon = parse_lexicon(CONCEPTS, LANGUAGE)
    named = parse_lexicon(
        CONCEPTS.replace('forms.en = ["not good"]', 'forms.en = ["not good"]\nlabel.en = "not liked"'),
        LANGUAGE,
    )

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
        (
            '[concept.quince]\nparents = ["fruit"]\nforms.en = ["q"]\nslips.en = ["lemmen"]',
            "both 'lemon' and 'quince'",
        ),
        ('[concept.quince]\nparents = ["fruit"]\nforms.en = ["q"]\nabout = "size"', "about 'size'"),
        (
            '[concept.quince]\nparents = ["fruit"]\nforms.en = ["q"]\ntakes.en = { raw = "huge" }',
            "degree 'huge'",
        ),
        ('[concept.quince]\nparents = ["fruit"]\nforms.en = ["q"]\nlow = "apple"', "'apple' when low"),
        ('[concept.Quince]\nparents = ["fruit"]\nforms.en = ["q"]', "not named in small letters"),
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


@pytest.mark.parametrize(
    ("language", "part"),
    [
        (LANGUAGE + '[marks.smell]\nword = ["x"]\n', "a kind of mark nobody reads: smell.word"),
        (LANGUAGE + "[smalls]\nx = 1\n", "a key nobody reads: smalls"),
        (
            LANGUAGE.replace('slight = ["a little"', 'slight = ["very", "a little"'),
            "'very' has two degrees in 'degree'",
        ),
    ],
)
def test_a_language_file_with_something_nobody_reads_is_refused(language, part):
    assert part in refusal(CONCEPTS, language)


@pytest.mark.parametrize(
    ("spanish", "part"),
    [
        (
            SPANISH.replace('pear = ["pera', 'quince = ["pera'),
            "'es' has words for 'quince', which does not exist",
        ),
        (SPANISH.replace('["pera", "peras"]', '["limon"]'), "'limon' belongs to both 'lemon' and 'pear'"),
        ("[label", "not valid TOML"),
    ],
)
def test_another_language_is_checked_like_english(spanish, part):
    assert part in refusal(CONCEPTS, spanish=spanish)


def test_labels_and_forms_of_another_language_stand_beside_the_english_ones():
    lexicon = parse_lexicon(CONCEPTS, LANGUAGE, others={"es": SPANISH})

    assert lexicon["lemon"].label_in("es") == "limón"
    assert lexicon["pear"].label_in("es") == "pear"
    assert lexicon["pear"].forms_in("es") == ("pera", "peras")
    assert lexicon["pear"].forms_in("en") == ("pear",)


def test_degree_words_and_what_they_ask_are_inherited():
    lexicon = parse_lexicon(
        CONCEPTS + '[concept.sourness]\nparents = ["acidity"]\nforms.en = ["sourness"]\n', LANGUAGE
    )

    assert lexicon["sourness"].about == "intensity"
    assert lexicon["sourness"].takes == {"soft": "slight"}
    assert lexicon["lemon"].about == "character"
