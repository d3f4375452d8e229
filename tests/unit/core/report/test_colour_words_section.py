"""Words and colours over all tables, as a report says it."""

from dataclasses import replace

from tests.unit.core.analyse.tables import (
    TWO_CODES,
    answers_of,
    note,
    small_lexicon,
    small_table_answers,
    table_of,
)

from cupwright.core.analyse.coloured_cups import coloured_cups
from cupwright.core.plan.table import Seat
from cupwright.core.report.colour_words_section import colour_words_section
from cupwright.core.report.document import Caveat, Figure, Paragraph, TableBlock
from cupwright.core.words.colour import OKLab
from cupwright.core.words.colour_words import ColouredCup

PALE, DARK = OKLab(0.9, 0.0, 0.1), OKLab(0.3, 0.05, 0.03)


def cups(tasters: int, *, linked: bool) -> list[ColouredCup]:
    """Each taster finds lemon in one cup and cocoa in another; linked, the first is pale, the other dark."""
    found = []
    for number in range(tasters):
        first, second = (PALE, DARK) if linked or number % 2 else (DARK, PALE)
        shade = 0.01 * (number % 3)
        found.append(ColouredCup(f"t{number}", replace(first, l=first.l - shade), frozenset({"lemon"})))
        found.append(ColouredCup(f"t{number}", replace(second, l=second.l + shade), frozenset({"cocoa"})))
    return found


def test_families_with_a_colour_of_their_own_are_shown_with_and_without():
    blocks = colour_words_section(cups(12, linked=True), small_lexicon())

    (figure,) = [block for block in blocks if isinstance(block, Figure)]
    (table,) = [block for block in blocks if isinstance(block, TableBlock)]
    assert [(row["group"], row["label"]) for row in figure.rows][:2] == [
        ("fruit", "with"),
        ("fruit", "without"),
    ]
    assert [row[0] for row in table.rows] == ["“fruit”", "“roast”"]
    assert str(table.rows[0][4]).startswith("lighter by 0.5")
    assert str(table.rows[1][4]).startswith("darker by 0.5")
    assert isinstance(blocks[-1], Caveat)


def test_where_nothing_goes_together_a_sentence_says_so():
    blocks = colour_words_section(cups(12, linked=False), small_lexicon())

    assert not any(isinstance(block, Figure) for block in blocks)
    (said,) = [block.text for block in blocks if isinstance(block, Paragraph)]
    assert said.startswith("24 cups of all opened tables")
    assert "No family of words goes with a colour of its own" in said


def test_with_too_few_tasters_the_sentence_says_how_many_it_takes():
    (said,) = [
        block.text
        for block in colour_words_section(cups(3, linked=True), small_lexicon())
        if isinstance(block, Paragraph)
    ]

    assert said == "3 tasters picked a colour; what goes together needs 5. Wait for more tables."


def test_without_any_coloured_cup_nothing_is_said():
    assert colour_words_section([], small_lexicon()) == ()


# coloured cups


def test_a_cup_counts_if_one_taster_gave_it_both_a_colour_and_words():
    _, answers = small_table_answers()

    found = coloured_cups(answers)

    assert [(cup.taster, sorted(cup.concepts)) for cup in found] == [
        ("taster 1", ["lemon"]),
        ("taster 2", ["lemon", "orange"]),
    ]
    assert found[0].colour == OKLab(0.9, -0.02, 0.15)


def test_words_of_one_cup_from_several_passes_belong_together_and_other_cups_stay_apart():
    table = replace(table_of(1, tuple(TWO_CODES)), seats=(Seat("s1", " ÀDA ", tuple(TWO_CODES)),))
    colour = {"l": 0.5, "a": 0.0, "b": 0.0}
    notes = [
        note(1, "241", "aroma/words", "lemon"),
        note(1, "241", "flavour/words", "smoky"),
        note(1, "573", "flavour/words", "cocoa"),
        note(1, "241", "colour/colour", colour),
        note(1, "573", "verdict/line", "no words asked for here"),
    ]

    (cup,) = coloured_cups(answers_of(table, notes, TWO_CODES))

    assert cup == ColouredCup("àda", OKLab(0.5, 0.0, 0.0), frozenset({"lemon", "smoke"}))
