"""Own words in the lexicon: what they are read as, what is refused, and what a newer program sets aside."""

import pytest

from cupwright.core.words.extending import extended, fitting
from cupwright.core.words.kinship import kinship
from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.own_words import OwnConcept, OwnForm, own_concept, own_form
from cupwright.core.words.reading import read_note
from cupwright.errors import Clash, Refused

SODA = own_concept("quince soda", ["quince"], ["quince-pop"])
KWEEPEER = own_form("quince", "kweepeer paste")


def concepts(text: str, *additions: OwnConcept | OwnForm) -> frozenset[str]:
    return read_note(text, extended(load_lexicon(), additions)).concepts


def test_an_own_concept_is_read_by_its_label_and_its_forms_in_any_spelling():
    for text in ("Quince Soda!", "some quince pop", "quincepop", "quince sodas"):
        assert concepts(text, SODA) == {"quince_soda"}, text


def test_an_own_form_is_read_as_the_concept_it_was_added_to():
    assert "quince" in concepts("kweepeer paste", KWEEPEER)
    assert "quince" not in concepts("kweepeer paste")


def test_an_own_concept_belongs_to_the_family_of_its_first_parent_and_is_kin_to_it():
    lexicon = extended(load_lexicon(), [SODA])

    assert lexicon["quince_soda"].family == lexicon["quince"].family
    assert kinship("quince_soda", "quince", lexicon) > kinship("quince_soda", "smoke", lexicon)


def test_a_lexicon_knows_how_many_own_words_it_holds():
    first = extended(load_lexicon(), [SODA])

    assert load_lexicon().own == 0
    assert extended(first, [own_form("quince", "membrillo paste")]).own == 2
    assert fitting(load_lexicon(), [SODA, own_concept("quince", ["fruit"])])[0].own == 1


def test_the_lexicon_that_came_with_the_program_stays_as_it_is():
    before = len(load_lexicon())

    extended(load_lexicon(), [SODA, KWEEPEER])

    assert len(load_lexicon()) == before
    assert "quince_soda" not in load_lexicon()


def test_concepts_may_hang_under_each_other_and_stand_in_any_order():
    jam = own_concept("quince soda jam", ["quince_soda"])

    assert concepts("quince soda jam", own_form("quince_soda_jam", "qsj"), jam, SODA) == {"quince_soda_jam"}


def test_a_concept_that_exists_is_refused():
    with pytest.raises(Clash, match="'quince' already"):
        extended(load_lexicon(), [own_concept("Quince", ["fruit"])])


@pytest.mark.parametrize("addition", [own_form("plum", "Quinces"), own_form("plum", "quince")])
def test_a_form_that_is_owned_is_refused_and_the_owner_named(addition):
    with pytest.raises(Clash, match="a way to write 'quince' already"):
        extended(load_lexicon(), [own_form("quince", "quinces"), addition])


def test_two_additions_cannot_own_one_form():
    with pytest.raises(Clash, match="'quince soda' already"):
        extended(load_lexicon(), [SODA, own_form("plum", "quince pop")])


@pytest.mark.parametrize(
    "addition", [own_concept("quince soda", ["no_such_thing"]), own_form("no_such_thing", "quince soda")]
)
def test_a_parent_or_concept_that_is_missing_is_refused(addition):
    with pytest.raises(Refused, match="'no_such_thing', which is no concept"):
        extended(load_lexicon(), [addition])


def test_concepts_that_hang_under_each_other_in_a_circle_are_refused():
    a, b = own_concept("aaa bbb", ["bbb_aaa"]), own_concept("bbb aaa", ["aaa_bbb"])

    with pytest.raises(Refused, match="which is no concept"):
        extended(load_lexicon(), [a, b])


@pytest.mark.parametrize("form", ["not", "the taste", "as it cools"])
def test_small_words_cannot_become_a_flavour(form):
    with pytest.raises(Refused, match="carry no taste"):
        extended(load_lexicon(), [own_form("quince", form)])


def test_what_a_newer_program_has_itself_is_set_aside_and_the_rest_still_read():
    old = own_concept("quince", ["fruit"], ["quince cheese"])
    hanging = own_form("quince", "kweepeer paste")

    lexicon, aside = fitting(load_lexicon(), [old, SODA, hanging])

    assert [one.addition for one in aside] == [old]
    assert "'quince' already" in aside[0].why
    assert read_note("kweepeer paste, quince soda", lexicon).concepts == {"quince", "quince_soda"}


def test_an_addition_is_taken_whole_or_not_at_all():
    half = own_concept("quince soda", ["fruit"], ["quince fizz", "plum"])

    lexicon, aside = fitting(load_lexicon(), [half])

    assert [one.addition for one in aside] == [half]
    assert "quince_soda" not in read_note("quince fizz", lexicon).concepts
    assert fitting(lexicon, [own_form("plum", "quince fizz")])[1] == ()
