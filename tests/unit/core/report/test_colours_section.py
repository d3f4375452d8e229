"""Colours at a table of many."""

from tests.unit.core.analyse.tables import TWO_CODES, answers_of, note, table_of

from cupwright.core.report.colours_section import colours_section
from cupwright.core.report.document import Figure


def test_many_colours_are_cut_and_the_caption_says_so():
    grey = [
        note(seat, "241", "colour/colour", {"l": seat / 100, "a": 0.0, "b": 0.0}) for seat in range(1, 61)
    ]

    blocks = colours_section(answers_of(table_of(60, tuple(TWO_CODES)), grey, TWO_CODES))

    figure, _middles = [block for block in blocks if isinstance(block, Figure)]
    assert len(figure.rows) == 48
    assert "the first 48 of each" in figure.caption
