"""How sure the taster was."""

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.reading import read_note


@pytest.mark.parametrize(
    ("note", "doubted"),
    [
        ("lemon", []),
        ("maybe lemon", ["lemon"]),
        ("maybe a lemon, pear", ["lemon"]),
        ("maybe sweet lemon and pear", ["sweet", "lemon"]),
        ("lemon maybe", ["lemon"]),
        ("lemon maybe pear", ["pear"]),
        ("sort of sweet", ["sweet"]),
        ("lemon?", ["lemon"]),
        ("lemon, sweet pear? good", ["sweet", "pear"]),
        ("lemon. pear?", ["pear"]),
        ("lemon/pear?", ["lemon", "pear"]),
        ("maybe, lemon", []),
        ("maybe: lemon", ["lemon"]),
        ("sort of, lemon", ["lemon"]),
        ("?", []),
    ],
)
def test_a_doubt_covers_the_name_it_stands_at(note, doubted):
    assert [word.concept for word in read_note(note, small_lexicon()).words if word.hedged] == doubted
