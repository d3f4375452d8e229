"""Reading a sheet file: how its headings number passes and fields, so that complaints find their line."""

import re
from typing import ClassVar

from cupwright.core import toml_reader
from cupwright.core.toml_reader import Reader, Spot
from cupwright.errors import BadSheet, Refused

__all__ = ["TOP", "Reader", "Source", "Spot"]

_ARRAY_HEADER = re.compile(r"\s*\[\[\s*(passes|passes\s*\.\s*fields)\s*\]\]")

TOP = (-1, -1)  # (number of the pass, number of the field in it), from 0; -1 for none


class Source(toml_reader.Source):
    """The text a sheet was read from."""

    __slots__ = ()

    refusal: ClassVar[type[Refused]] = BadSheet
    called: ClassVar[str] = "sheet"
    top: ClassVar[Spot] = TOP

    def spot_of(self, line: str, now: Spot) -> Spot | None:
        header = _ARRAY_HEADER.match(line)
        if not header:
            return None
        part, field = now
        return (part + 1, -1) if header[1] == "passes" else (part, field + 1)
