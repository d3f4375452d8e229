"""A document on paper: the report's own template, filled with data only."""

from typing import Any

from cupwright.core.report.document import Block, Document, Figure, TableBlock
from cupwright.render.cells import cell_text
from cupwright.render.data import kind_of
from cupwright.render.figures import figure_svg
from cupwright.render.printable import printable
from cupwright.render.sections import sections
from cupwright.render.typesetting import typeset, typst_paper


def document_pdf(document: Document, *, size: str = "a4") -> bytes:
    """A tagged PDF; `size` is "a4" or "letter"."""
    document = printable(document)
    parts = sections(document)
    return typeset(
        "report.typ",
        {
            "title": document.title,
            "subtitle": document.subtitle,
            "paper": typst_paper(size),
            "facts": [list(fact) for fact in document.facts],
            "sections": [[{"kind": kind_of(block), **_parts(block)} for block in part] for part in parts],
        },
    )


def _parts(block: Block) -> dict[str, Any]:
    if isinstance(block, Figure):
        return {"svg": figure_svg(block), "alt": block.alt, "caption": block.caption}
    if isinstance(block, TableBlock):
        return _table(block)
    return {"text": block.text, "level": getattr(block, "level", 0), "lead": getattr(block, "lead", "")}


def _table(block: TableBlock) -> dict[str, Any]:
    return {
        "caption": block.caption,
        "columns": [{"title": column.title, "align": column.align} for column in block.columns],
        "rows": [
            [cell_text(cell, column.digits) for cell, column in zip(row, block.columns, strict=True)]
            for row in block.rows
        ],
    }
