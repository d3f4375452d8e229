"""Names: tidied, refused with a sentence, compared as people would."""

import pytest

from cupwright.core.plan.names import checked_name, folded
from cupwright.errors import Refused


def test_runs_of_white_space_become_one_space():
    assert checked_name("  Morning \n\t table ", of="The table") == "Morning table"


def test_letters_of_any_script_are_kept():
    assert checked_name("Søndagsbordet 珈琲 ☕", of="The table") == "Søndagsbordet 珈琲 ☕"


@pytest.mark.parametrize("name", ["", "   ", "\n", "\u200b", "\u2060 \ufeff"])
def test_an_empty_name_is_refused_and_whose_it_is_is_said(name: str):
    with pytest.raises(Refused, match="Taster 3 has no name"):
        checked_name(name, of="Taster 3")


def test_a_name_of_200_characters_is_taken_and_one_of_201_is_refused():
    assert len(checked_name("x" * 200, of="The table")) == 200
    with pytest.raises(Refused, match="201 characters"):
        checked_name("x" * 201, of="The table")


@pytest.mark.parametrize("character", ["\x00", "\x1b", "\ud800", "\u202e", "\u2066"])
def test_a_character_that_cannot_be_printed_is_refused(character: str):
    with pytest.raises(Refused, match="cannot be printed"):
        checked_name(f"Ann{character}a", of="Taster 1")


@pytest.mark.parametrize("other", ["JOSÉ", " josé ", "Jose\u0301"])
def test_spellings_of_one_name_fold_alike(other: str):
    assert folded(other) == folded("José")


def test_an_accent_makes_another_name():
    assert folded("Jose") != folded("José")


def test_two_names_that_look_the_same_are_the_same():
    assert folded("Ada\u200b") == folded("\u2060ada")
