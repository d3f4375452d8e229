"""One thing said in two words is read once."""

import pytest

from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.reading import read_note


def read(note: str) -> list[tuple[str, str, str]]:
    return [
        (note[word.start : word.end], word.concept, word.comparison)
        for word in read_note(note, load_lexicon()).words
    ]


@pytest.mark.parametrize(
    ("note", "words"),
    [
        ("Liked it better than B", [("Liked it better", "liked", "more")]),
        ("I liked this the best", [("liked this the best", "liked", "most")]),
        ("nice and better than A", [("nice", "liked", ""), ("better", "liked", "more")]),
        ("good, best of the four", [("good", "liked", ""), ("best", "liked", "most")]),
    ],
)
def test_how_much_it_was_liked_belongs_to_the_verb_of_liking_but_not_to_another_praise(note, words):
    assert read(note) == words


@pytest.mark.parametrize("sign", ["/", " and ", " or ", " & "])
def test_milk_and_sugar_are_one_addition(sign):
    text, concept, _ = read(f"cocoa, needs milk{sign}sugar")[-1]

    assert (concept, text) == ("goes_with_milk", f"needs milk{sign}sugar")


def test_sugar_behind_something_else_is_a_taste():
    assert read("milk and sugar, plum/sugar")[-1] == ("sugar", "sugar", "")
