"""When in the life of a sip or a cup."""

import pytest
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.reading import read_note


def stages(note, lexicon):
    return [(word.concept, word.stage) for word in read_note(note, lexicon).words]


@pytest.mark.parametrize(
    ("note", "expected"),
    [
        ("sweet", [("sweet", "")]),
        ("sweet at first, lemon", [("sweet", "first"), ("lemon", "")]),
        ("at first sweet, lemon. pear", [("sweet", "first"), ("lemon", "first"), ("pear", "")]),
        ("at first sweet then lemon", [("sweet", "first"), ("lemon", "")]),
        ("at first sweet but later lemon", [("sweet", "first"), ("lemon", "cooling")]),
        ("sweet on the finish", [("sweet", "finish")]),
        ("lemon with a sweet finish", [("lemon", ""), ("sweet", "finish")]),
        ("sweet and lemon finish", [("sweet", "finish"), ("lemon", "finish")]),
        ("finish is lemon", [("lemon", "finish")]),
        ("lemon as it cools", [("lemon", "cooling")]),
        ("as it cools: lemon, pear", [("lemon", "cooling"), ("pear", "cooling")]),
        ("got sweeter", [("sweet", "cooling")]),
        ("got lemon", [("lemon", "")]),
    ],
)
def test_a_stage_holds_for_what_is_said_of_it(note, expected):
    assert stages(note, small_lexicon()) == expected


@pytest.mark.parametrize(
    ("note", "expected"),
    [
        ("clean finish", [("clean_finish", "finish")]),
        ("lingering bitterness", [("long_finish", "finish"), ("bitter", "finish")]),
        ("bitter when hot, sweet once cooled", [("bitter", "first"), ("sweet", "cooling")]),
        ("starts sour, finishes with cocoa", [("sour", "first"), ("cocoa", "finish")]),
        ("became more chocolate", [("chocolate", "cooling")]),
        ("as it cooled it was more bitter", [("bitter", "cooling")]),
        ("aftertaste is bitter, chocolate", [("bitter", "finish"), ("chocolate", "")]),
        ("lingers, fruity", [("long_finish", "finish"), ("fruit", "")]),
        ("fruity to begin with", [("fruit", "first")]),
    ],
)
def test_stages_in_the_words_of_tasters_are_found(note, expected):
    assert stages(note, load_lexicon()) == expected


def test_a_stage_that_ends_its_clause_does_not_go_on_behind_the_comma():
    words = read_note("tart that faded over time, nutty", load_lexicon()).words

    assert [(word.concept, word.stage) for word in words] == [
        ("tart", "cooling"),
        ("short_finish", "cooling"),
        ("nuts", ""),
    ]
