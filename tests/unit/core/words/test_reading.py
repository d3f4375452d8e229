"""Reading whole notes."""

import time
from itertools import pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from tests.unit.core.words.small_lexicon import small_lexicon

from cupwright.core.words.lexicon import load_lexicon
from cupwright.core.words.reading import Reading, read_note


@pytest.fixture(scope="module")
def lexicon():
    return load_lexicon()


def concepts(text, lexicon):
    return [word.concept for word in read_note(text, lexicon).words]


@pytest.mark.parametrize(
    ("note", "expected"),
    [
        (
            "poached quince, sort of rhubarb-soda-ish; grippy!",
            ["cooked_fruit", "quince", "rhubarb", "soft_drink", "astringent"],
        ),
        (
            "quince jelly, toasted hazelnut, white tea",
            ["quince", "fruit_jelly", "toasted", "hazelnut", "white_tea"],
        ),
        ("dark chocolate covered cherry", ["dark_chocolate", "cherry"]),
        ("Green apple, then green", ["green_apple", "green"]),
        ("stone fruit & black tea", ["stone_fruit", "black_tea"]),
        ("CRÈME BRÛLÉE; brown-sugar", ["creme_brulee", "brown_sugar"]),
        ("lighter bodied, silky mouth feel", ["light_body", "silky"]),
        ("mouthfeel: heavy", ["heavy_body"]),
        ("blueberries / strawbery / choclate", ["blueberry", "strawberry", "chocolate"]),
        ("raw potato in one bowl", ["potato"]),
        ("gas station coffee", ["everyday_coffee"]),
        ("wet cardboard, baggy", ["papery", "baggy"]),
        ("with milk chocolate", ["milk_chocolate"]),
        ("chocolate covered cherry", ["chocolate", "cherry"]),
        ("smoky flavour, moldy", ["smoke", "mould"]),
    ],
)
def test_notes_are_read_as_a_taster_means_them(lexicon, note, expected):
    assert concepts(note, lexicon) == expected


def test_a_word_is_given_with_its_place_label_and_certainty(lexicon):
    text = "Hints of Jasmine."

    (word,) = read_note(text, lexicon).words

    assert (text[word.start : word.end], word.label, word.certainty, word.negated) == (
        "Jasmine",
        "jasmine",
        1,
        False,
    )


def test_what_carries_meaning_and_is_not_understood_comes_back_as_written():
    reading = read_note("The Chair is very lemon, 42 x. Hot table!", small_lexicon())

    assert reading.unread_words() == ("Chair", "table")
    assert [word.concept for word in reading.words] == ["lemon"]


def test_a_slip_is_read_with_less_certainty_than_the_right_word(lexicon):
    right, slip = (read_note(text, lexicon).words[0] for text in ("strawberry", "strawbery"))

    assert slip.concept == right.concept
    assert slip.certainty < right.certainty


@pytest.mark.parametrize(
    "word", ["pearl", "pearls", "personally", "dinner", "closer", "notes", "clam", "peace"]
)
def test_an_everyday_word_is_never_taken_for_a_flavour(lexicon, word):
    assert concepts(word, lexicon) == []


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "\x00",
        "\n\n",
        "🍋🍋🍋",
        "<script>alert('x')</script>",
        "\u202enoitcarta",
        "ليمون حلو",
        "'",
        "-",
        "''''",
        "\ud800",
    ],
)
def test_text_without_anything_to_read_gives_no_words(lexicon, text):
    reading = read_note(text, lexicon)

    assert reading.text == text
    assert reading.words == ()


@pytest.mark.parametrize(
    "text",
    ["lemon " * 17_000, "x" * 100_000, "lemon" * 20_000, "not " * 25_000, "'" * 100_000, "\u0300" * 100_000],
)
def test_a_text_of_100_kilobytes_is_read(lexicon, text):
    reading = read_note(text, lexicon)

    assert reading.text == text
    assert len(reading.words) == (17_000 if text.startswith("lemon ") else 0)


@pytest.mark.parametrize(
    "text",
    [
        "strong ",
        "at first ",
        "compared to ",
        "of the four ",
        "not sweet, ",
        "maybe ",
        "lemon ",
        "in the acidity ",
        "acidity is ",
        "sweeter than ",
        "finish ",
        "with milk chocolate ",
        "sweet and ",
        "a hint of ",
        "xyzzyx ",
        "xyzzy",
        "a'",
        "choc\u0301olate ",
    ],
)
def test_the_time_of_a_long_text_grows_no_faster_than_the_text(lexicon, text):
    """Of one core: 100 kB may take eight times what 20 kB takes, and as much again as a machine is uneven."""
    read_note(text * 10, lexicon)
    short, long = (seconds(text * (size // len(text)), lexicon) for size in (20_000, 100_000))

    assert long < 16 * short + 0.5


def seconds(text, lexicon):
    """The best of two: a process full of other tests' leavings collects its garbage at any moment."""
    taken = []
    for _ in range(2):
        start = time.process_time()
        read_note(text, lexicon)
        taken.append(time.process_time() - start)
    return min(taken)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("<b>lemon</b>&nbsp;<i>honey</i>", ["lemon", "honey"]),
        ("lemon\x00honey", ["lemon", "honey"]),
        ("🍋lemon🍯honey", ["lemon", "honey"]),
        ("\u202elemon\u202c ليمون honey", ["lemon", "honey"]),
        ("limón lemon zitrone HONEY", ["lemon", "lemon", "honey"]),
        ("lemon\ud800honey", ["lemon", "honey"]),
    ],
)
def test_what_can_be_read_in_odd_text_is_read(lexicon, text, expected):
    assert concepts(text, lexicon) == expected


def check(reading: Reading, text: str) -> None:
    """What holds for every reading of every text."""
    spans = sorted([(w.start, w.end) for w in reading.words] + [(s.start, s.end) for s in reading.unread])
    assert reading.text == text
    assert all(0 <= start < end <= len(text) for start, end in spans)
    assert all(before[1] <= after[0] for before, after in pairwise(spans))
    assert all(0 < word.certainty <= 1 for word in reading.words)
    assert not reading.concepts & reading.denied


@given(st.text(max_size=400))
@example("İ'ß\u0345ﬁ")
@settings(max_examples=300)
def test_any_text_can_be_read_and_spans_lie_apart_and_inside(text):
    check(read_note(text, load_lexicon()), text)


@given(
    st.lists(
        st.sampled_from(
            [
                "lemon",
                "not",
                "body",
                "lacks",
                "and",
                ",",
                "but",
                "🍋",
                "\x00",
                "light",
                "missing",
                "xyzzy",
                "very",
                "acidity",
                "is",
                "high",
                "balanced",
                "liked",
                "too",
                "finish",
                "at first",
                "than",
                "?",
            ]
        )
    )
)
@settings(max_examples=300)
def test_any_mixture_of_known_words_and_denials_can_be_read(pieces):
    text = " ".join(pieces)

    check(read_note(text, load_lexicon()), text)


@given(st.text(max_size=80), st.sampled_from(["jasmine", "dark chocolate", "silky"]))
@settings(max_examples=200)
def test_a_known_phrase_on_a_line_of_its_own_is_found_in_any_surroundings(noise, phrase):
    reading = read_note(f"{noise}\n{phrase}\n{noise}", load_lexicon())

    assert phrase in {reading.text[word.start : word.end] for word in reading.words}
