"""Reading a sheet file: how its headings number passes and fields, so that complaints find their line."""

import re
from typing import ClassVar

from cupwright.core import toml_reader
from cupwright.core.toml_reader import Reader, Spot
from cupwright.errors import BadSheet, Refused

__all__ = ["POINTS", "TOP", "Reader", "Source", "Spot"]

_ARRAY_HEADER = re.compile(r"\s*\[\[\s*(passes|passes\s*\.\s*fields)\s*\]\]")

_POINTS_HEADER = re.compile(r"\s*\[\s*points\s*\]")

TOP = (-1, -1)  # (number of the pass, number of the field in it), from 0; -1 for none
POINTS = (-1, -2)  # the rule for points, which stands before the passes


class Source(toml_reader.Source):
    """The text a sheet was read from."""

    __slots__ = ()

    refusal: ClassVar[type[Refused]] = BadSheet
    called: ClassVar[str] = "sheet"
    top: ClassVar[Spot] = TOP

    def spot_of(self, line: str, now: Spot) -> Spot | None:
        if _POINTS_HEADER.match(line):
            return POINTS
        header = _ARRAY_HEADER.match(line)
        if not header:
            return None
        part, field = now
        return (part + 1, -1) if header[1] == "passes" else (part, field + 1)
