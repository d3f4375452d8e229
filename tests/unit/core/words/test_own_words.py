"""Own words: what can be one, the id made from a label, and the file."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.words.own_words import (
    MOST_OWN_WORDS,
    OwnConcept,
    OwnForm,
    id_of,
    own_concept,
    own_form,
    own_words_file,
    parse_own_words,
)
from cupwright.errors import BadFile, Refused


def test_a_concept_is_read_where_its_label_or_one_of_its_forms_is_written():
    soda = own_concept("  Quince   soda ", ["quince"], ["quince pop", "Quince soda", "quince pop"])

    assert soda == OwnConcept("quince_soda", "Quince soda", ("quince",), ("quince pop",))
    assert soda.written == ("Quince soda", "quince pop")


@pytest.mark.parametrize(
    ("label", "made"),
    [
        ("Quince soda", "quince_soda"),
        ("crème brûlée!", "creme_brulee"),
        ("7-up", "7_up"),
        ("柚子", "u67da_5b50"),
    ],
)
def test_an_id_is_made_of_the_letters_of_the_label(label, made):
    assert id_of(label) == made


@pytest.mark.parametrize("form", ["", "   ", "12", "!?", "a\x00b", "{fruit}", "x" * 81, "a b c d e f g h i"])
def test_a_form_that_no_note_could_be_read_by_is_refused(form):
    with pytest.raises(Refused):
        own_form("quince", form)


def test_the_word_for_no_concept_is_no_concept():
    with pytest.raises(Refused, match="can be called"):
        own_concept("None!", ["quince"])


@pytest.mark.parametrize("parents", [[], ["a", "b", "c", "d", "e", "f"]])
def test_a_concept_hangs_under_something_but_not_under_everything(parents):
    with pytest.raises(Refused, match="hangs under"):
        own_concept("Quince soda", parents)


def test_the_file_gives_back_what_was_written():
    kept = (
        own_concept('Grandma\'s "kompot" \\ warm', ["stewed_fruit", "drink"], ["kompot", "компот"]),
        own_form("quince", "membrillo"),
    )

    assert parse_own_words(own_words_file(kept)) == kept


@given(st.text(max_size=80))
def test_every_form_that_is_taken_survives_the_file(text):
    try:
        form = own_form("quince", text)
    except Refused:
        return

    assert parse_own_words(own_words_file([form])) == (form,)


def test_a_file_by_hand_needs_no_forms():
    text = (
        '[[concept]]\nlabel = "quince soda"\nparents = ["quince"]\n[[form]]\nconcept = "plum"\nform = "ploom"'
    )

    assert parse_own_words(text) == (
        OwnConcept("quince_soda", "quince soda", ("quince",)),
        OwnForm("plum", "ploom"),
    )


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[[concept", "valid TOML"),
        ("[[word]]\na = 1", "'word' is not known"),
        ("concept = 3", "no list of tables"),
        ("[[concept]]\nlabel = 'x'", r"\[\[concept\]\] 1 has no 'parents'"),
        ("[[form]]\nconcept = 'a'\nform = 'bb'\ncolour = 'red'", "key nobody reads: 'colour'"),
        ("[[form]]\nconcept = 'a'\nform = 3", "'form' is no text"),
        ("[[concept]]\nlabel = 'x'\nparents = 'y'", "'parents' is no list of texts"),
        ("[[form]]\nconcept = 'a'\nform = '?'", r"\[\[form\]\] 1: '\?' holds no word"),
        ("[[form]]\nconcept = 'a'\nform = 'bb'\n" * (MOST_OWN_WORDS + 1), "more than"),
    ],
)
def test_a_file_that_is_not_as_expected_is_refused_and_names_the_entry(text, says):
    with pytest.raises(BadFile, match=says) as refusal:
        parse_own_words(text, file="mine.toml")

    assert refusal.value.where is not None
    assert refusal.value.where.file == "mine.toml"
