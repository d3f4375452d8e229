"""Sections: the blocks of a document under their headings of the first level."""

from cupwright.core.report.document import Block, Document, Heading


def sections(document: Document) -> list[list[Block]]:
    """Blocks in order, a new list from each heading of level 1; what comes before the first stands alone."""
    parts: list[list[Block]] = [[]]
    for block in document.blocks:
        if isinstance(block, Heading) and block.level == 1 and parts[-1]:
            parts.append([])
        parts[-1].append(block)
    return parts
