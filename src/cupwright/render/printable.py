"""Printable: characters that no page, picture or paper can carry are shown as replacement marks.

XML 1.0 (production 2, Char) leaves out most control characters, surrogates and two non-characters; the
drawing library ends the whole process over one of them. The notes themselves are never changed by this.
"""

import re
from dataclasses import fields, is_dataclass, replace
from typing import Any

from cupwright.core.report.document import Document, Figure

_UNPRINTABLE = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_MARK = "\N{REPLACEMENT CHARACTER}"


def printable(document: Document) -> Document:
    """The document with every unprintable character replaced."""
    cleaned: Document = _clean(document)
    return cleaned


def printable_figure(figure: Figure) -> Figure:
    """The figure with every unprintable character replaced."""
    cleaned: Figure = _clean(figure)
    return cleaned


def _clean(value: Any) -> Any:
    if isinstance(value, str):
        # An enumeration's member is text too, and ours are all printable.
        return _UNPRINTABLE.sub(_MARK, value) if type(value) is str else value
    if isinstance(value, tuple):
        return tuple(_clean(item) for item in value)
    if isinstance(value, dict):
        return {key: _clean(item) for key, item in value.items()}
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{part.name: _clean(getattr(value, part.name)) for part in fields(value)})
    return value
