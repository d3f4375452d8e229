"""Cutting text into words."""

import unicodedata

import pytest

from cupwright.core.words.tokens import COLON, JOINED, LINK, PAUSE, STOP, fold, tokens


def words(text: str) -> list[str]:
    return [token.word for token in tokens(text)]


def test_words_keep_their_place_in_the_text_as_written():
    text = "Crème  brûlée, “nutty”!"

    assert [text[token.start : token.end] for token in tokens(text)] == ["Crème", "brûlée", "nutty"]


@pytest.mark.parametrize("form", ["NFC", "NFD", "NFKC", "NFKD"])
def test_accents_case_and_composition_do_not_matter(form):
    assert words(unicodedata.normalize(form, "CRÈME Brûlée façade")) == ["creme", "brulee", "facade"]


@pytest.mark.parametrize("mark", ["'", "\u2019", "\u02bc"])
def test_every_kind_of_apostrophe_is_one(mark):
    assert words(f"didn{mark}t") == ["didn't"]


def test_quotation_marks_and_apostrophes_at_the_edges_are_no_part_of_a_word():
    assert words("'bright' it’s ’round") == ["bright", "it's", "round"]


def test_a_soft_hyphen_inside_a_word_is_dropped():
    assert words("straw\u00adberry") == ["strawberry"]


def test_underscores_and_html_only_separate():
    assert words("dark_chocolate <b>nutty</b>") == ["dark", "chocolate", "b", "nutty", "b"]


@pytest.mark.parametrize(
    ("text", "joined"),
    [
        ("dark chocolate", True),
        ("dark  chocolate", True),
        ("dark-chocolate", True),
        ("“dark” chocolate", True),
        ("dark - chocolate", False),
        ("dark, chocolate", False),
        ("dark\nchocolate", False),
        ("dark/chocolate", False),
        ("dark\x00chocolate", False),
        ("dark 🍫 chocolate", False),
    ],
)
def test_punctuation_parts_phrases_and_spaces_and_hyphens_do_not(text, joined):
    assert tokens(text)[1].joined is joined


@pytest.mark.parametrize(
    ("between", "gap"),
    [
        (" ", JOINED),
        ("-", JOINED),
        ("/", LINK),
        (" & ", JOINED),
        (": ", COLON),
        (" - ", COLON),
        (", ", PAUSE),
        (" (", PAUSE),
        ("... ", STOP),
        ("? ", STOP),
        ("\n", STOP),
        (", . ", STOP),
    ],
)
def test_what_parts_two_words_is_told(between, gap):
    assert tokens(f"dark{between}chocolate")[1].gap == gap


def test_a_word_knows_whether_it_is_asked():
    assert [token.asked for token in tokens("plum? pear, lime ?")] == [True, False, True]


def test_with_and_without_in_short_are_words():
    assert words("w/o acid w/ milk 50w/m2") == ["w/o", "acid", "w/", "milk", "50w", "m2"]


def test_other_scripts_are_words_too():
    assert words("ليمون と レモン") == ["ليمون", "と", "レモン"]


def test_folding_is_stable():
    assert fold(fold("Straße’s ＣＩＴＲＵＳ")) == fold("Straße’s ＣＩＴＲＵＳ") == "strasse's citrus"


@pytest.mark.parametrize("address", ["https://example.org/ripe-plum?tea", "www.example.org/lemon"])
def test_an_address_is_passed_over_and_what_follows_keeps_its_place(address):
    text = f"honey {address} cherry"

    assert [(token.word, token.start) for token in tokens(text)] == [
        ("honey", 0),
        ("cherry", len(text) - len("cherry")),
    ]
