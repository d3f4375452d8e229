"""Waters and concentrates as people write them: in a TOML file, or in one line of a command.

    litres = 4
    range = "2009"                  # or a [target] of amounts with units
    scale_step_g = 0.1
    deionised = true

    [[source]]
    name = "tap water"
    hardness = "12 dH"
    alkalinity = "8 dKH"

    [[concentrate]]
    name = "B"
    [concentrate.grams_per_litre]   # in one litre of deionised water
    "sodium bicarbonate" = 16.8

In a line: "tap water: hardness=12dH, alkalinity=8dKH" and "B: sodium bicarbonate 16.8 g/L + Epsom salt 4
g/L".
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from typing import ClassVar, TypeVar

from cupwright.core.pour.concentrate import Concentrate, concentrate
from cupwright.core.pour.water import Water, by_parameter, read_analysis
from cupwright.core.pour.water_ranges import WaterRange, range_called
from cupwright.core.pour.water_units import read_amount
from cupwright.core.toml_reader import Reader, Source, Spot
from cupwright.errors import BadFile, Refused

_LONGEST_NAME = 60
_HEADING = re.compile(r"\s*\[+\s*(source|concentrate|target)\b")
_SALT = re.compile(r"\s*(.+?)[\s:=]+([+-]?[\w.]+)\s*g\s*/\s*L\s*", re.I)

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterFile:
    """What a file says; None where it does not say it."""

    litres: float | None = None
    scale_step_g: float | None = None
    deionised: bool | None = None
    target: Mapping[str, float] | None = None
    into: WaterRange | None = None
    sources: tuple[Water, ...] = ()
    concentrates: tuple[Concentrate, ...] = ()


@dataclass(frozen=True, slots=True)
class _WaterSource(Source):
    """Parts are ("source", 2), ("concentrate", 1), ("target", 1), counted from 1."""

    refusal: ClassVar[type[Refused]] = BadFile
    called: ClassVar[str] = "water file"
    top: ClassVar[Spot] = ("", 0)

    def spot_of(self, line: str, now: Spot) -> Spot | None:
        heading = _HEADING.match(line)
        if heading is None:
            return None
        if heading[1] == now[0] and not line.strip().startswith("[["):
            return now
        return (heading[1], now[1] + 1 if heading[1] == now[0] else 1)


def read_water_file(text: str, file: str = "") -> WaterFile:
    """A water file, checked; nothing at all is needed in it, as flags may say the rest.

    Raises
    ------
    BadFile
        With file and line, for text that is no TOML, an unknown entry, or a value that cannot be.
    """
    source = _WaterSource(file, text)
    reader = Reader(source.data(), source, "The water file", source.top)
    reader.only("litres", "range", "scale_step_g", "deionised", "target", "source", "concentrate")
    placed = _Placing(source)

    def given(key: str, read: Callable[[], T], spot: Spot = source.top) -> T | None:
        return placed.asked(spot, read) if key in reader.data else None

    return WaterFile(
        litres=given("litres", lambda: reader.number("litres", 0.0)),
        scale_step_g=given("scale_step_g", lambda: reader.number("scale_step_g", 0.0)),
        deionised=given("deionised", lambda: reader.truth("deionised")),
        target=given("target", lambda: read_target(_amounts(reader)), ("target", 1)),
        into=given("range", lambda: range_called(reader.text("range"))),
        sources=placed.rows(reader, "source", _source),
        concentrates=placed.rows(reader, "concentrate", _concentrate),
    )


@dataclass(frozen=True, slots=True)
class _Placing:
    source: _WaterSource

    def asked(self, spot: Spot, read: Callable[[], T]) -> T:
        """What `read` makes of a part of the file; its refusal gets the line."""
        try:
            return read()
        except BadFile:
            raise
        except Refused as refusal:
            raise self.source.bad(refusal.message, refusal.todo, spot, refusal.about) from None

    def rows(self, reader: Reader, key: str, read: Callable[[Mapping[str, object], int], T]) -> tuple[T, ...]:
        """The tables under `key`, each read with its number from 1; none where the key is missing."""
        tables = reader.rows(key) if key in reader.data else []
        return tuple(
            self.asked((key, number), partial(read, table, number)) for number, table in enumerate(tables, 1)
        )


def _amounts(reader: Reader) -> Mapping[str, object]:
    target = reader.data["target"]
    if not isinstance(target, Mapping):
        todo = "Write [target] on a line of its own."
        raise reader.bad("needs a table of amounts as its 'target'.", todo, "target")
    return target


def _source(row: Mapping[str, object], number: int) -> Water:
    name = _name(row.get("name", f"water {number}"))
    return read_analysis(name, _written({key: value for key, value in row.items() if key != "name"}))


def _concentrate(row: Mapping[str, object], number: int) -> Concentrate:
    name = _name(row.get("name", f"{number}"))
    unknown = next((key for key in row if key not in {"name", "grams_per_litre"}), None)
    if unknown is not None:
        raise Refused(
            f"Concentrate {name} has an unknown entry '{unknown}'.",
            todo="Its salts stand in a table grams_per_litre.",
            about=unknown,
        )
    salts = row.get("grams_per_litre", {})
    if not isinstance(salts, Mapping):
        todo = 'Write { "Epsom salt" = 10 }.'
        raise Refused(f"Concentrate {name} needs a table grams_per_litre.", todo=todo)
    for salt, grams in salts.items():
        if isinstance(grams, bool) or not isinstance(grams, int | float):
            todo = "Write it without quotes, as 10."
            raise Refused(f"The {salt} of concentrate {name} needs a number of grams.", todo=todo)
    return concentrate(name, {str(salt): float(grams) for salt, grams in salts.items()})


def _name(written: object) -> str:
    if not isinstance(written, str) or not written.strip() or len(written) > _LONGEST_NAME:
        raise Refused(
            "A name is a text between quotes.", todo=f"Use at most {_LONGEST_NAME} characters.", about="name"
        )
    return written.strip()


def _written(values: Mapping[str, object]) -> dict[str, str]:
    """Amounts are texts with units; a bare number is let through as text, so that its unit is asked for."""
    for key, value in values.items():
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise Refused(f"The {key} is not an amount.", todo='Write it as "12 dH".', about=key)
    return {key: str(value) for key, value in values.items()}


def read_target(written: Mapping[str, object]) -> dict[str, float]:
    """A target from texts with units. Raises Refused as `read_amount` does."""
    return {key: read_amount(text, key) for key, text in by_parameter(_written(written)).items()}


def read_source_line(line: str, number: int = 1) -> Water:
    """ "tap water: hardness=12dH, alkalinity=8dKH"; the name may be left out. Raises Refused."""
    name, colon, rest = line.partition(":")
    if not colon or "=" in name:
        name, rest = f"water {number}" if number > 1 else "source water", line
    return read_analysis(_name(name), amounts_in_line(rest))


def amounts_in_line(line: str) -> dict[str, str]:
    """ "hardness=12dH, alkalinity=8dKH" as texts by parameter. Raises Refused for a piece without "="."""
    found: dict[str, str] = {}
    for piece in line.split(","):
        key, equals, value = piece.partition("=")
        if not equals or not key.strip() or not value.strip():
            raise Refused(
                f"'{piece.strip()[:40]}' is not of the form name=amount.",
                todo="Write hardness=12dH,alkalinity=8dKH, with a point for decimals.",
            )
        if key.strip() in found:
            raise Refused(f"'{key.strip()}' is given twice.", todo="Leave one out.")
        found[key.strip()] = value.strip()
    return found


def read_concentrate_line(line: str) -> Concentrate:
    """ "B: sodium bicarbonate 16.8 g/L + Epsom salt 4 g/L". Raises Refused if it is not of that form."""
    name, colon, recipe = line.partition(":")
    if not colon:
        raise Refused(
            f"'{line.strip()[:40]}' is neither a file nor a recipe.",
            todo='Write "B: sodium bicarbonate 16.8 g/L", or name a file.',
        )
    salts: dict[str, float] = {}
    for piece in recipe.split("+"):
        match = _SALT.fullmatch(piece)
        grams = _grams(match[2]) if match else None
        if match is None or grams is None:
            raise Refused(
                f"'{piece.strip()[:40]}' is not a salt with its grams a litre.",
                todo="Write it as in sodium bicarbonate 16.8 g/L.",
            )
        if match[1] in salts:
            raise Refused(f"Concentrate {name.strip()} names {match[1]} twice.", todo="Add its grams up.")
        salts[match[1]] = grams
    return concentrate(_name(name), salts)


def _grams(written: str) -> float | None:
    try:
        return float(written)
    except ValueError:
        return None
