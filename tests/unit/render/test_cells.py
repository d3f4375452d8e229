"""Cells as text."""

import pytest

from cupwright.render.cells import cell_text


@pytest.mark.parametrize(
    ("cell", "digits", "text"),
    [
        (1234.567, 1, "1,234.6"),
        (1234, None, "1,234"),
        (-0.5, 1, "\N{MINUS SIGN}0.5"),
        (-0.04, 1, "0.0"),
        (None, 2, "–"),
        (float("nan"), 2, "–"),
        ("573", 0, "573"),
        ("", 0, ""),
    ],
)
def test_a_cell_is_written_for_a_reader(cell, digits, text):
    assert cell_text(cell, digits) == text
