"""Looking up a concept by what somebody calls it."""

import pytest

from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.look_up import concept_called
from cupwright.errors import NotFound

LEXICON = load_lexicon()


@pytest.mark.parametrize(
    ("text", "concept"),
    [("dark_chocolate", "dark_chocolate"), ("Dark Chocolate", "dark_chocolate"), ("quinces!", "quince")],
)
def test_a_concept_is_found_by_its_id_its_label_and_any_way_to_write_it(text, concept):
    assert concept_called(text, LEXICON) == concept


@pytest.mark.parametrize("text", ["", "xyzzy", "the taste", "\x00", "x" * 10_000])
def test_what_names_nothing_is_not_found(text):
    with pytest.raises(NotFound, match="No word of the lexicon"):
        concept_called(text, LEXICON)


def test_what_names_two_words_says_which():
    with pytest.raises(NotFound, match="'quince' and 'plum'"):
        concept_called("quince and plum", LEXICON)
