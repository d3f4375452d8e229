"""What a taster usually likes is not said of this cup."""

import pytest

from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.reading import read_note


@pytest.mark.parametrize(
    ("note", "said"),
    [
        ("I usually don't like citrus, but this lemon is good", {"lemon", "liked"}),
        ("I normally drink dark roast but this is bright", {"bright"}),
        ("I usually love naturals because of the fruit", {"fruit"}),
        ("sweeter than the coffee I usually like", {"sweet"}),
        ("balanced, usually I drink espresso", {"balanced"}),
    ],
)
def test_a_habit_holds_to_the_end_of_its_clause_or_to_a_contrast(note, said):
    reading = read_note(note, load_lexicon())

    assert (reading.concepts, reading.denied) == (said, frozenset())


@pytest.mark.parametrize(
    ("note", "said"),
    [
        ("could use more acid, but sweet", {"sweet"}),
        ("I wish it had more fruit. Cocoa", {"cocoa"}),
        ("hard to distinguish sour from bitter, grape though", {"grape"}),
        ("not a dark roast person, yet lovely", {"liked"}),
        ("for dark chocolate lovers", {"dark_chocolate"}),
    ],
)
def test_what_was_wished_for_or_could_not_be_told_apart_is_not_said(note, said):
    reading = read_note(note, load_lexicon())

    assert (reading.concepts, reading.denied) == (said, frozenset())
