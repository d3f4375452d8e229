"""Typesetting: a Typst template and data become a PDF.

Data reaches a template only as JSON in `sys.inputs`, never as source, so nothing a user typed can become
markup. The fonts are those inside the Typst package: the same table prints the same everywhere, to the
byte. Every PDF is tagged and held to PDF/UA-1 by the typesetter itself. Only a text in a script that these
fonts lack falls back on the fonts of the machine, and where they lack it too, on empty boxes.
"""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import typst

from cupwright.errors import Refused

TEMPLATES = Path(__file__).with_name("templates")

_TYPST_PAPERS = {"a4": "a4", "letter": "us-letter"}

# PDF/UA-1 refuses a character that no font at hand has.
_MISSING_GLYPH = "could not be displayed with font"


def typeset(template: str, data: Mapping[str, Any]) -> bytes:
    """A PDF from one of our templates.

    Parameters
    ----------
    template : str
        A file in render/templates/, as "labels.typ". It reads its data by
        `json(bytes(sys.inputs.data))` and must set a document title.
    data : mapping
        Anything JSON can hold.
    """
    text = _as_json(data)
    for own_fonts_only in (True, False):
        try:
            return _compile(template, text, own_fonts_only=own_fonts_only)
        except typst.TypstError as error:
            if _MISSING_GLYPH not in str(error):
                raise
    return _compile(template, text, own_fonts_only=False, strict=False)


def _compile(template: str, data: str, *, own_fonts_only: bool, strict: bool = True) -> bytes:
    return typst.compile(
        str(TEMPLATES / template),
        root=str(TEMPLATES),
        ignore_system_fonts=own_fonts_only,
        format="pdf",
        sys_inputs={"data": data},
        pdf_standards=["ua-1"] if strict else [],
    )


def _as_json(data: Mapping[str, Any]) -> str:
    # A lone surrogate is no character and cannot be handed over: it becomes "?".
    return json.dumps(data, ensure_ascii=False).encode("utf-8", "replace").decode("utf-8")


def typst_paper(size: str) -> str:
    """Typst's name of a paper size.

    Raises
    ------
    Refused
        If the size is neither "a4" nor "letter".
    """
    if size not in _TYPST_PAPERS:
        raise Refused(f"There is no paper size '{size}' here.", todo="Take a4 or letter.")
    return _TYPST_PAPERS[size]
