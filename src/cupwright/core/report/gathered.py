"""Sections gathered: what has something to show in full, what has not in one sentence together."""

from collections.abc import Iterable, Sequence

from cupwright.core.report.document import Block, Figure, Heading, Paragraph, TableBlock
from cupwright.core.report.wording import listed

Blocks = Sequence[Block]


def gathered(sections: Iterable[Blocks]) -> tuple[Block, ...]:
    """The sections that show a picture or a table, in their order; the questions of the others in one line.

    A small table is silent on most questions, and nine headings over nine refusals would bury the answers.
    """
    told: list[Block] = []
    silent: list[str] = []
    for blocks in sections:
        if any(isinstance(block, Figure | TableBlock) for block in blocks):
            told += blocks
        else:
            silent += [block.text for block in blocks if isinstance(block, Heading) and block.level == 1]
    if silent:
        asked = [f"“{title}”" for title in dict.fromkeys(silent)]
        told += [Heading("What there is too little for"), Paragraph(f"Too little data for: {listed(asked)}.")]
    return tuple(told)
