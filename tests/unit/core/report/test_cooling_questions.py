"""Words and colours as the cups cool: asked only where a temperature is known."""

from dataclasses import dataclass, replace

from tests.unit.core.analyse.tables import TWO_CODES, answers_of, note, table_of

from cupwright.core.pour.cooling_fit import Estimate
from cupwright.core.report.cooling_questions import colours_cooling_question, words_cooling_question
from cupwright.core.report.document import Heading, Paragraph, TableBlock

WARMTH = dict(zip(range(1, 7), (65.0, 60.0, 55.0, 50.0, 45.0, 40.0), strict=True))


@dataclass(frozen=True)
class Cups:
    """Cups whose warmth goes by the moment of tasting."""

    def at(self, moments):
        return tuple(Estimate(WARMTH[at], WARMTH[at] - 1, WARMTH[at] + 1) for _, at in moments)


def answers(*, known: bool):
    """Nine tasters, each at both coffees: lemon while hot, cocoa when cool; colours darken."""
    notes = []
    for seat in range(1, 10):
        for turn, place in enumerate(TWO_CODES):
            cool = (seat + 3 * turn - 1) % 6 + 1
            word = "lemon" if cool <= 3 else "cocoa"
            colour = {"l": 0.9 - 0.1 * cool + 0.01 * (seat % 3), "a": 0.01 * cool, "b": 0.1}
            for question, value in (("flavour/words", word), ("colour/colour", colour)):
                notes.append(replace(note(seat, place, question, value), written_at=cool))
    found = answers_of(table_of(9, tuple(TWO_CODES)), notes, TWO_CODES)
    return replace(found, cups=Cups()) if known else found


def test_without_temperatures_nothing_is_asked():
    assert words_cooling_question(answers(known=False), level=0.95) == ()
    assert colours_cooling_question(answers(known=False), level=0.95) == ()


def test_words_that_come_when_the_cup_is_cool_are_told():
    blocks = words_cooling_question(answers(known=True), level=0.95)

    assert blocks[0] == Heading("Which words go with warmth?")
    assert "cocoa" in str(blocks[1])
    (table,) = [block for block in blocks if isinstance(block, TableBlock)]
    assert {row[0] for row in table.rows} == {"lemon", "cocoa"}


def test_each_component_of_the_colours_has_its_answer():
    blocks = colours_cooling_question(answers(known=True), level=0.95)

    leads = " and ".join(block.lead for block in blocks if isinstance(block, Paragraph))
    assert "lightness" in leads
    assert "green to red" in leads
