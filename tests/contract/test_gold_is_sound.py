"""The hand-made answers are sound in form: notes annotated after docs/methods/annotating.md, pairs in order.

Nothing here asks how well notes are read or kinship is computed: both are measured against these files.
"""

import json
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

HERE = Path(__file__).parent
LEXICON = tomllib.loads(
    (HERE.parents[1] / "src/cupwright/core/words/lexicon.toml").read_text(encoding="utf-8")
)
CONCEPTS = set(LEXICON["concept"])
NOTES = [json.loads(line) for line in (HERE / "reading_gold.jsonl").read_text(encoding="utf-8").splitlines()]
SECOND = [
    json.loads(line) for line in (HERE / "reading_second.jsonl").read_text(encoding="utf-8").splitlines()
]
THIRD = [json.loads(line) for line in (HERE / "reading_third.jsonl").read_text(encoding="utf-8").splitlines()]
DENIALS = [
    json.loads(line) for line in (HERE / "negation_gold.jsonl").read_text(encoding="utf-8").splitlines()
]
KIN = tomllib.loads((HERE / "kin_pairs.toml").read_text(encoding="utf-8"))
PAIRS, TRIPLES = KIN["pair"], KIN["triple"]

DEGREES = {"low", "plain", "high"}
STAGES = {"", "first", "finish", "cooling"}
FIELDS = {"concept", "text", "negated", "degree", "compared", "hedged", "stage"}
# Families that the pairs must reach, as named in the lexicon.
REACHED = {"fruit", "flower", "garden", "tea", "sweets", "spice", "hearth", "cellar"}
REACHED |= {"touch", "taste", "verdict", "fault"}


def ancestors(concept: str) -> set[str]:
    """The concept and all above it."""
    above = {concept}
    for parent in LEXICON["concept"][concept].get("parents", []):
        above |= ancestors(parent)
    return above


def words_of_all() -> list[tuple[int, str, dict[str, Any]]]:
    return [(note["id"], note["note"], word) for note in NOTES for word in note["words"]]


def test_three_hundred_notes_are_numbered_from_one():
    assert [note["id"] for note in NOTES] == list(range(1, 301))


def test_no_note_is_empty_or_stands_twice():
    texts = [note["note"].strip().casefold() for note in NOTES]

    assert all(re.search("[a-z]{2}", text) for text in texts)
    assert len(set(texts)) == 300


def test_a_note_has_nothing_to_read_exactly_when_it_has_no_words():
    assert all(set(note) == {"id", "note", "words", "nothing"} for note in NOTES)
    assert [note["id"] for note in NOTES if note["nothing"] is not (note["words"] == [])] == []


def test_every_annotated_word_stands_in_its_note_and_words_follow_its_order():
    astray = []
    for note in NOTES:
        place = 0
        for word in note["words"]:
            place = note["note"].find(word["text"], place) if word["text"].strip() else -1
            if place < 0:
                astray.append((note["id"], word["text"]))
                break

    assert astray == []


def test_every_concept_is_in_the_lexicon_or_was_new_when_it_was_annotated():
    # The mark stays when the lexicon takes a new concept in later: it tells what was there at the time.
    wrong = [
        (number, word["concept"])
        for number, _, word in words_of_all()
        if word["concept"] not in CONCEPTS and not word.get("new", False)
    ]

    assert wrong == []


def test_every_word_has_its_fields_and_each_field_an_allowed_value():
    for number, _, word in words_of_all():
        assert set(word) - {"new"} == FIELDS, number
        assert re.fullmatch("[a-z]+(_[a-z]+)*", word["concept"]), number
        assert word["degree"] in DEGREES, number
        assert word["stage"] in STAGES, number
        assert all(type(word[flag]) is bool for flag in ("negated", "compared", "hedged")), number


def test_no_word_is_annotated_twice_with_the_same_concept_at_the_same_place():
    for note in NOTES:
        for text in {word["text"] for word in note["words"]}:
            concepts = [word["concept"] for word in note["words"] if word["text"] == text]
            assert len(concepts) <= note["note"].count(text) * len(set(concepts)), note["id"]


def test_there_are_120_different_pairs_of_known_concepts():
    assert len(PAIRS) == 120
    assert {word for pair in PAIRS for word in pair["words"]} <= CONCEPTS
    assert all(len(pair["words"]) == 2 for pair in PAIRS)
    assert len({frozenset(pair["words"]) for pair in PAIRS if len(set(pair["words"])) == 2}) == 120


def test_pairs_stand_in_order_of_their_tiers_and_every_tier_is_used():
    tiers = [pair["tier"] for pair in PAIRS]

    assert tiers == sorted(tiers)
    assert set(tiers) == set(range(1, 11))


@pytest.mark.parametrize("family", sorted(REACHED))
def test_pairs_reach_every_family(family: str):
    assert family in LEXICON["families"]
    assert any(family in ancestors(word) for pair in PAIRS for word in pair["words"])


def test_there_are_40_different_triples_of_known_concepts_with_the_odd_one_among_them():
    assert len(TRIPLES) == 40
    assert len({frozenset(triple["words"]) for triple in TRIPLES}) == 40
    for triple in TRIPLES:
        assert len(set(triple["words"])) == len(triple["words"]) == 3
        assert set(triple["words"]) <= CONCEPTS
        assert triple["odd"] in triple["words"]


@pytest.mark.parametrize(("notes", "number"), [(SECOND, 150), (THIRD, 111)], ids=["second", "third"])
def test_the_further_sets_of_notes_are_sound_in_form(notes: list[dict[str, Any]], number: int):
    texts = [note["note"].casefold() for note in notes]
    words = [(note, word) for note in notes for word in note["words"]]

    assert [note["id"] for note in notes] == list(range(1, number + 1))
    assert len(set(texts)) == number
    assert all(note["nothing"] is (note["words"] == []) for note in notes)
    assert all(set(word) == FIELDS and word["concept"] in CONCEPTS for _, word in words)
    assert all(word["text"] in note["note"] and word["degree"] in DEGREES for note, word in words)
    assert all(word["stage"] in STAGES for _, word in words)


def test_no_note_of_the_second_set_stands_in_the_first():
    texts = {note["note"].casefold() for note in NOTES}

    assert texts.isdisjoint(note["note"].casefold() for note in SECOND)


def test_the_notes_full_of_denials_are_sound_in_form():
    texts = [note["note"].casefold() for note in DENIALS]
    words = [(note["note"], word) for note in DENIALS for word in note["words"]]

    assert [note["id"] for note in DENIALS] == list(range(1, len(DENIALS) + 1))
    assert len(set(texts)) == len(DENIALS) >= 120
    assert all(set(word) == {"concept", "text", "negated", "compared", "hedged"} for _, word in words)
    assert all(word["text"] in note and word["concept"] in CONCEPTS for note, word in words)
    assert sum(word["negated"] for _, word in words) >= 100
