"""Cells: how a value of a document is written for a reader, on screen and on paper alike."""

import math

from cupwright.core.report.document import Cell

NOTHING = "–"
_MINUS = "\N{MINUS SIGN}"


def cell_text(cell: Cell, digits: int | None) -> str:
    """A cell as text: numbers with `digits` decimals and thousands apart, a dash for what is not there."""
    if cell is None or (isinstance(cell, float) and not math.isfinite(cell)):
        return NOTHING
    if isinstance(cell, str):
        return cell
    text = f"{cell:,}" if digits is None else f"{cell:,.{digits}f}"
    unsigned = text.lstrip("-")
    # "-0" says nothing that "0" does not.
    return _MINUS + unsigned if text.startswith("-") and any(c in "123456789" for c in unsigned) else unsigned
