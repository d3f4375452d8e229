"""The diary: what happened at a table, chained so that a change to an old line shows.

Each line's digest is SHA-256 over the digest before it and its own content. A chain alone does not show
that lines are missing at the end or that all of it was written anew: the last digest, printed on the
report, does.
"""

import hashlib
import json
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

BEGINNING = "0" * 64
KEY_OPENED = "key opened"
POUR_LIST_SEEN = "pour list seen"


def digest(before: str, table_id: str, kind: str, at: datetime, detail: Mapping[str, Any]) -> str:
    """The digest of a line, 64 hex digits.

    Parameters
    ----------
    before : str
        Digest of the line before, or `BEGINNING`.
    detail : mapping
        JSON-able.

    Notes
    -----
    Error: none; two contents with one digest would be a collision of SHA-256.
    Source: [FIPS180-4] for the hash. The bytes are the UTF-8 of a JSON array [before, table, kind, time,
    detail] with sorted keys, no blanks and the time in ISO 8601, UTC, microseconds.
    """
    moment = at.astimezone(UTC).isoformat(timespec="microseconds")
    line = [before, table_id, kind, moment, dict(detail)]
    text = json.dumps(line, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
    return hashlib.sha256(text.encode()).hexdigest()
