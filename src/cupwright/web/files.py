"""Files: answers that a browser shows or saves. Names are made here, never taken from outside."""

import re

from fastapi import Response

from cupwright.web.doorway import PAPER_POLICY, REPORT_POLICY

_POLICY = {"pdf": PAPER_POLICY, "html": REPORT_POLICY}
_MEDIA = {
    "pdf": "application/pdf",
    "json": "application/json",
    "html": "text/html; charset=utf-8",
    "toml": "application/toml",  # as the specification of TOML 1.0 asks
}


def pdf(data: bytes, stem: str) -> Response:
    """A PDF to look at."""
    return as_file(data, "pdf", stem)


def as_file(data: bytes, form: str, stem: str) -> Response:
    """A file of the form "pdf", "json", "html" or "toml", to look at and to save under a plain name."""
    name = f"cupwright-{_plain(stem)}.{form}"
    headers = {"Content-Disposition": f'inline; filename="{name}"'}
    if form in _POLICY:
        headers["Content-Security-Policy"] = _POLICY[form]
    return Response(data, media_type=_MEDIA[form], headers=headers)


def _plain(stem: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", stem.lower()).strip("-")[:60] or "file"
