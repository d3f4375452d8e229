"""A document as plain data: every number in full, every block with its kind."""

import math
from dataclasses import fields
from typing import Any

from cupwright.core.report.document import Block, Caveat, Document, Figure, Heading, Paragraph, TableBlock

_KINDS: dict[type[Block], str] = {
    Heading: "heading",
    Paragraph: "paragraph",
    Caveat: "caveat",
    TableBlock: "table",
    Figure: "figure",
}
FORMAT = "cupwright report"
VERSION = 1


def document_data(document: Document) -> dict[str, Any]:
    """JSON-able data of a document. A number that does not exist is null, never NaN."""
    return {
        "format": FORMAT,
        "version": VERSION,
        "title": document.title,
        "subtitle": document.subtitle,
        "facts": [{"label": label, "value": value} for label, value in document.facts],
        "blocks": [{"block": kind_of(block), **_parts(block)} for block in document.blocks],
    }


def kind_of(block: Block) -> str:
    """What a kind of block is called in data and templates."""
    return _KINDS[type(block)]


def _parts(block: Any) -> dict[str, Any]:
    return {field.name: _plain(getattr(block, field.name)) for field in fields(block)}


def _plain(value: Any) -> Any:
    if isinstance(value, float) and not math.isfinite(value):
        return None
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    if hasattr(value, "__dataclass_fields__"):
        return _parts(value)
    return value
