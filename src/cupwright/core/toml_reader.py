"""Reading files that users write in TOML: values by key, each checked, every complaint with its line.

A kind of file says which refusal it raises and how its headings number its parts by deriving a `Source`
(core/taste/sheet_reader.py, core/plan/protocol_file.py); one table of the file is read by a `Reader`.
"""

import math
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from enum import StrEnum
from typing import Any, ClassVar, TypeVar

from cupwright.errors import Place, Refused

LARGEST_FILE = 200_000
LONGEST_LABEL = 500
MOST_ENTRIES = 60
GREATEST_WHOLE = 1_000_000

_ID = re.compile(r"[a-z][a-z0-9_]{0,39}")
_NAME = re.compile(r"[a-z][a-z0-9_-]{0,39}")
_DECIMAL = re.compile(r"-?[0-9]{1,9}(\.[0-9]{1,9})?")
_KEY = re.compile(r"\s*[\"']?([A-Za-z0-9_-]+)[\"']?\s*=")
# tomllib names the place of an error only at the end of its message
_PLACE_IN_MESSAGE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")

Spot = tuple[Any, ...]  # which part of the file, as a Source makes it of its headings; () for the top

E = TypeVar("E", bound=StrEnum)


@dataclass(frozen=True, slots=True)
class Source:
    """The text something was read from; finds lines again, which the TOML reader has forgotten."""

    file: str = ""
    text: str = ""

    refusal: ClassVar[type[Refused]] = Refused
    called: ClassVar[str] = "file"
    top: ClassVar[Spot] = ()

    def spot_of(self, line: str, now: Spot) -> Spot | None:
        """Which part a line begins, after the part `now`; None for a line that is no heading."""
        raise NotImplementedError

    def bad(self, message: str, todo: str, spot: Spot = (), key: str = "") -> Refused:
        """The complaint, with the line of `key` at `spot` where there is one."""
        line = self._line(spot or self.top, key)
        return self.refusal(message, todo=todo, where=Place(self.file, line))

    def data(self) -> dict[str, Any]:
        """What the text says. Raises the refusal with line and column if it is no TOML, or too long."""
        if len(self.text) > LARGEST_FILE:
            raise self.refusal(
                f"This {self.called} has {len(self.text)} characters.",
                todo=f"A {self.called} has at most {LARGEST_FILE}.",
                where=Place(self.file),
            )
        try:
            return tomllib.loads(self.text)
        except tomllib.TOMLDecodeError as error:
            raise self._not_toml(str(error)) from error

    def _not_toml(self, message: str) -> Refused:
        place = _PLACE_IN_MESSAGE.search(message)
        reason = _PLACE_IN_MESSAGE.sub("", message)
        line = int(place[1]) if place and place[1] else len(self.text.splitlines())
        column = int(place[2]) if place and place[2] else None
        return self.refusal(
            f"This is not valid TOML: {reason[:1].lower()}{reason[1:]}.",
            todo="Mend that line; texts stand between quotes, one entry a line.",
            where=Place(self.file, line, column),
        )

    def _line(self, spot: Spot, key: str) -> int | None:
        """The line of `key` at `spot`, else the line where `spot` begins, else None."""
        now, begins = self.top, None
        for number, line in enumerate(self.text.splitlines(), start=1):
            heading = self.spot_of(line, now)
            if heading is not None:
                now = heading
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
    spot: Spot = ()

    def bad(self, complaint: str, todo: str, key: str = "") -> Refused:
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

    def name_of_form(self, key: str) -> str:
        """A name that can be typed on a command line."""
        value = self.text(key)
        if not _NAME.fullmatch(value):
            todo = "Use small letters, digits, - and _, beginning with a letter, at most 40."
            raise self.bad(f"has the {key} '{value}'.", todo, key)
        return value

    def whole_from_1(self, key: str, otherwise: int | None = None) -> int:
        """A whole number from 1 to a million; one that may be missing has an `otherwise`."""
        if otherwise is not None and key not in self.data:
            return otherwise
        value = self.needed(key)
        if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= GREATEST_WHOLE:
            raise self.bad(f"needs a whole number from 1 as its '{key}'.", f"Write {key} = 1.", key)
        return value

    def truth(self, key: str) -> bool:
        """true or false; false where the key is missing."""
        value = self.data.get(key, False)
        if not isinstance(value, bool):
            raise self.bad(f"needs true or false as its '{key}'.", f"Write {key} = true.", key)
        return value

    def decimal(self, key: str, otherwise: str) -> str:
        """A decimal number written as a text, so that it means exactly what is written."""
        value = self.data.get(key, otherwise)
        if value != otherwise and (not isinstance(value, str) or not _DECIMAL.fullmatch(value)):
            raise self.bad(f"needs a number in quotes as its '{key}'.", f'Write {key} = "0.25".', key)
        return str(value)

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
