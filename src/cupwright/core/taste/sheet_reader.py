"""Reading one table of a sheet file: values by key, each checked, every complaint with its line."""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from enum import StrEnum
from typing import Any, TypeVar

from cupwright.errors import BadSheet, Place

LONGEST_LABEL = 500
MOST_ENTRIES = 60

_ID = re.compile(r"[a-z][a-z0-9_]{0,39}")
_ARRAY_HEADER = re.compile(r"\s*\[\[\s*(passes|passes\s*\.\s*fields)\s*\]\]")
_KEY = re.compile(r"\s*[\"']?([A-Za-z0-9_-]+)[\"']?\s*=")

Spot = tuple[int, int]  # (number of the pass, number of the field in it), from 0; -1 for none
TOP: Spot = (-1, -1)

E = TypeVar("E", bound=StrEnum)


@dataclass(frozen=True, slots=True)
class Source:
    """The text a sheet was read from; finds lines again, which the TOML reader has forgotten."""

    file: str = ""
    text: str = ""

    def bad(self, message: str, todo: str, spot: Spot = TOP, key: str = "") -> BadSheet:
        """The complaint, with the line of `key` at `spot` where there is one."""
        return BadSheet(message, todo=todo, where=Place(self.file, self._line(spot, key)))

    def _line(self, spot: Spot, key: str) -> int | None:
        """The line of `key` at `spot`, else the line where `spot` begins, else None."""
        now, begins = TOP, None
        for number, line in enumerate(self.text.splitlines(), start=1):
            if header := _ARRAY_HEADER.match(line):
                now = (now[0] + 1, -1) if header[1] == "passes" else (now[0], now[1] + 1)
                begins = number if now == spot else begins
            elif now == spot and (found := _KEY.match(line)) and found[1] == key:
                return number
        return begins


@dataclass(frozen=True, slots=True)
class Reader:
    """One table of the file. `name` is how complaints call it, as in "The pass 'touch'"."""

    data: Mapping[str, Any]
    source: Source
    name: str
    spot: Spot = TOP

    def bad(self, complaint: str, todo: str, key: str = "") -> BadSheet:
        """The complaint about this table, or about its entry `key`."""
        return self.source.bad(f"{self.name} {complaint}", todo, self.spot, key)

    def only(self, *known: str) -> None:
        """Refuse a key nobody reads: most likely a slip of the keyboard."""
        for key in self.data:
            if key not in known:
                near = get_close_matches(str(key), known, n=1)
                todo = f"Did you mean '{near[0]}'?" if near else f"Known are: {', '.join(known)}."
                raise self.bad(f"has an unknown entry '{key}'.", todo, str(key))

    def needed(self, key: str) -> Any:
        """Whatever stands under `key`; it must be there."""
        if key not in self.data:
            raise self.bad(f"has no '{key}'.", f"Add a line {key} = ...")
        return self.data[key]

    def text(self, key: str) -> str:
        """A text that says something."""
        value = self.needed(key)
        if not isinstance(value, str) or not value.strip():
            raise self.bad(f"needs a text as its '{key}'.", 'Write it between quotes: "...".', key)
        if len(value) > LONGEST_LABEL:
            raise self.bad(f"has a '{key}' of {len(value)} characters.", f"Use at most {LONGEST_LABEL}.", key)
        return value

    def text_or_none(self, key: str) -> str:
        """A text, or "" where the key is missing or empty."""
        return self.text(key) if self.data.get(key, "") != "" else ""

    def ident(self, key: str) -> str:
        """A name that can stand in notes, addresses and column headings."""
        value = self.text(key)
        if not _ID.fullmatch(value):
            todo = "Use small letters, digits and _, beginning with a letter, at most 40."
            raise self.bad(f"has the {key} '{value}'.", todo, key)
        return value

    def whole_from_1(self, key: str) -> int:
        """A whole number, at least 1."""
        value = self.needed(key)
        if isinstance(value, bool) or not isinstance(value, int) or value < 1:
            raise self.bad(f"needs a whole number from 1 as its '{key}'.", f"Write {key} = 1.", key)
        return value

    def number(self, key: str, otherwise: float) -> float:
        """A finite number, or `otherwise` where the key is missing."""
        value = self.data.get(key, otherwise)
        if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
            raise self.bad(f"needs a number as its '{key}'.", "Write it without quotes: 0 or 0.25.", key)
        return float(value)

    def one_of(self, key: str, kinds: type[E]) -> E:
        """One of the values of an enumeration."""
        value = self.text(key)
        names = [kind.value for kind in kinds]
        if value not in names:
            raise self.bad(f"has the {key} '{value}'.", f"Choose one of: {', '.join(names)}.", key)
        return kinds(value)

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of texts; empty where the key is missing."""
        values = self.data.get(key, [])
        if not isinstance(values, list) or not all(isinstance(v, str) and v.strip() for v in values):
            raise self.bad(f"needs a list of texts as its '{key}'.", 'Write ["one", "two"].', key)
        if len(values) > MOST_ENTRIES or any(len(v) > LONGEST_LABEL for v in values):
            todo = f"Use at most {MOST_ENTRIES} texts of at most {LONGEST_LABEL} characters."
            raise self.bad(f"has too much in its '{key}'.", todo, key)
        return tuple(values)

    def rows(self, key: str) -> list[Mapping[str, Any]]:
        """An array of tables with at least one entry."""
        rows = self.data.get(key, [])
        if not isinstance(rows, list) or not rows or not all(isinstance(row, Mapping) for row in rows):
            raise self.bad(f"has no {key}.", f"Add at least one table of {key}.", key)
        if len(rows) > MOST_ENTRIES:
            raise self.bad(f"has {len(rows)} {key}.", f"Use at most {MOST_ENTRIES}.", key)
        return rows
