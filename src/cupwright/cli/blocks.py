"""Blocks of a document on a terminal: the sentences as they stand, tables in plain columns.

Pictures are left out: the table beside each holds the same numbers.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from cupwright.cli.said import say, say_rows

if TYPE_CHECKING:
    from cupwright.core.report.document import Block, TableBlock

# Whoever wants more lines than that wants them as data.
MOST_ROWS = 60


def say_blocks(blocks: "Sequence[Block]") -> None:
    """Headings apart, everything else line by line; a sub-heading over pictures alone is left out."""
    from cupwright.core.report.document import Caveat, Figure, Heading

    waiting: list[Heading] = []
    for block in blocks:
        if isinstance(block, Heading):
            waiting = [*(one for one in waiting if one.level < block.level), block]
        elif not isinstance(block, Figure):
            # A caveat is said of the whole section.
            for heading in waiting:
                if heading.level > 1 and isinstance(block, Caveat):
                    continue
                say(f"\n{heading.text}")
            waiting = []
            _say_block(block)


def _say_block(block: "Block") -> None:
    from cupwright.core.report.document import Caveat, Paragraph, TableBlock

    if isinstance(block, Paragraph):
        say(f"{block.lead}: {block.text}" if block.lead else block.text)
    elif isinstance(block, Caveat):
        say(block.text)
    elif isinstance(block, TableBlock):
        _say_table(block)


def _say_table(block: "TableBlock") -> None:
    def cell(value: object, digits: int | None) -> str:
        if isinstance(value, int | float) and digits is not None:
            return f"{value:.{digits}f}"
        return "-" if value is None else str(value)

    if block.caption:
        say(f"\n{block.caption}")
    digits = [column.digits for column in block.columns]
    shown = block.rows[:MOST_ROWS]
    rows = [[cell(value, wanted) for value, wanted in zip(row, digits, strict=True)] for row in shown]
    say_rows([column.title for column in block.columns], rows)
    if len(block.rows) > MOST_ROWS:
        say(f"The first {MOST_ROWS} of {len(block.rows):,} lines; --json holds all.")
