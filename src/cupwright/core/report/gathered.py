"""Sections gathered: what has something to show in full, what has not in one sentence together."""

from collections.abc import Iterable, Sequence

from cupwright.core.report.document import Block, Figure, Heading, Paragraph, TableBlock
from cupwright.core.report.wording import listed

Blocks = Sequence[Block]


def gathered(sections: Iterable[Blocks], *, reasons: bool = False) -> tuple[Block, ...]:
    """The sections that show a picture or a table, in their order; the questions of the others in one line.

    A small table is silent on most questions, and nine headings over nine refusals would bury the answers.
    Where there is no answer at all, `reasons` has every question say what it would take.
    """
    sections = tuple(sections)
    told: list[Block] = []
    silent: list[str] = []
    for blocks in sections:
        if any(isinstance(block, Figure | TableBlock) for block in blocks):
            told += blocks
        else:
            silent += [block.text for block in blocks if isinstance(block, Heading) and block.level == 1]
    if not told and reasons:
        return tuple(block for blocks in sections for block in blocks)
    if silent:
        asked = [f"“{title}”" for title in dict.fromkeys(silent)]
        told += [Heading("What there is too little for"), Paragraph(f"{listed(asked)}.")]
    return tuple(told)
