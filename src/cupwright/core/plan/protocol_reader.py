"""Reading the sections of a protocol file, each into its value; every complaint with its line."""

import math
import re
from collections.abc import Callable, Mapping
from typing import Any, ClassVar, TypeVar

from cupwright.core import toml_reader
from cupwright.core.plan.protocol import (
    Band,
    Bowls,
    Crust,
    FirstTaste,
    Pace,
    Ratio,
    Rule,
    Session,
    Skim,
    Stage,
    Vessel,
)
from cupwright.core.toml_reader import Reader, Spot
from cupwright.errors import BadProtocol, Refused

LONGEST_S = 7200

_HEADING = re.compile(r"\s*(\[\[?)\s*([a-z]+)\s*\]")

T = TypeVar("T")


class Source(toml_reader.Source):
    """The text a protocol was read from. A spot is (heading, number of the table under it)."""

    __slots__ = ()

    refusal: ClassVar[type[Refused]] = BadProtocol
    called: ClassVar[str] = "protocol"
    top: ClassVar[Spot] = ("", 0)

    def spot_of(self, line: str, now: Spot) -> Spot | None:
        heading = _HEADING.match(line)
        if not heading:
            return None
        before = now[1] if now[0] == heading[2] else -1
        return (heading[2], before + 1 if heading[1] == "[[" else 0)

    def _line(self, spot: Spot, key: str) -> int | None:
        # A section that nobody knows is complained about at the top, where its key is a heading.
        found = super()._line(spot, key)
        return super()._line((key, 0), "") if found is None and spot == self.top else found


def section(top: Reader, key: str, read: Callable[[Reader], T]) -> T | None:
    """What `read` makes of the table under `[key]`; None where there is none."""
    if key not in top.data:
        return None
    data = top.data[key]
    if not isinstance(data, Mapping):
        raise top.bad(f"has no section '{key}'.", f"Write [{key}] on a line of its own.", key)
    return read(Reader(data, top.source, f"The section '{key}'", (key, 0)))


def needed_section(top: Reader, key: str, read: Callable[[Reader], T]) -> T:
    """The same, for a table that has to be there."""
    found = section(top, key, read)
    if found is None:
        raise top.bad(f"has no section '{key}'.", f"Add a section [{key}].")
    return found


def sections(top: Reader, key: str, read: Callable[[Reader], T]) -> tuple[T, ...]:
    """What `read` makes of each table under `[[key]]`; empty where there is none."""
    if key not in top.data:
        return ()
    rows = top.rows(key)
    return tuple(
        read(Reader(row, top.source, f"Number {number} of '{key}'", (key, number - 1)))
        for number, row in enumerate(rows, start=1)
    )


def read_ratio(reader: Reader) -> Ratio:
    reader.only("grams", "per_ml", "tolerance_g", "source")
    grams, per_ml = _within(reader, "grams", 0.1, 1000), _within(reader, "per_ml", 1, 10_000)
    if not 1 <= grams / per_ml * 1000 <= 1000:
        complaint = f"asks for {grams / per_ml * 1000:.3g} g/L."
        raise reader.bad(complaint, "Give grams and the millilitres they are for.", "grams")
    return Ratio(grams, per_ml, _within(reader, "tolerance_g", 0, grams), _source(reader))


def read_bowls(reader: Reader) -> Bowls:
    reader.only("least", "source")
    return Bowls(reader.whole_from_1("least"), _source(reader))


def read_vessel(reader: Reader) -> Vessel:
    reader.only("edition", "low_ml", "high_ml", "source")
    low, high = _ends(reader, "ml", 1, 10_000)
    return Vessel(
        reader.text("edition"),
        _given(reader, low, "low_ml"),
        _given(reader, high, "high_ml"),
        _source(reader),
    )


def band_reader(unit: str, lowest: float, highest: float) -> Callable[[Reader], Band]:
    """A reader of a section that holds low_<unit>, high_<unit> and a source; one end may be open."""

    def read(reader: Reader) -> Band:
        reader.only(f"low_{unit}", f"high_{unit}", "source")
        low, high = _ends(reader, unit, lowest, highest)
        return Band(low, high, _source(reader))

    return read


def read_pace(reader: Reader) -> Pace:
    reader.only("every_s", "source")
    return Pace(_seconds(reader, "every_s"), _source(reader))


def read_crust(reader: Reader) -> Crust:
    reader.only("at_s", "earliest_s", "latest_s", "source")
    crust = Crust(
        _seconds(reader, "at_s"),
        _seconds(reader, "earliest_s"),
        _seconds(reader, "latest_s"),
        _source(reader),
    )
    if not crust.earliest_s <= crust.at_s <= crust.latest_s:
        complaint = f"is due at {crust.at_s} s, outside {crust.earliest_s} to {crust.latest_s} s."
        raise reader.bad(complaint, "Make earliest_s, at_s and latest_s rise.", "at_s")
    return crust


def read_skim(reader: Reader) -> Skim:
    reader.only("at_s", "source")
    return Skim(_seconds(reader, "at_s"), _source(reader))


def read_taste(reader: Reader) -> FirstTaste:
    reader.only("from_s", "to_s", "about_c", "source")
    taste = FirstTaste(
        _seconds(reader, "from_s"),
        _seconds(reader, "to_s"),
        _number_or_none(reader, "about_c", 0, 100),
        _source(reader),
    )
    if taste.from_s >= taste.to_s:
        complaint = f"runs from {taste.from_s} to {taste.to_s} s."
        raise reader.bad(complaint, "Make from_s smaller than to_s.", "to_s")
    return taste


def read_stage(reader: Reader) -> Stage:
    reader.only("title", "from_c", "to_c", "source")
    start, end = _number_or_none(reader, "from_c", 0, 100), _number_or_none(reader, "to_c", 0, 100)
    if start is not None and end is not None and start < end:
        raise reader.bad(f"warms from {start:g} to {end:g} °C.", "Cups cool: exchange the two.", "from_c")
    return Stage(reader.text("title"), start, end, _source(reader))


def read_session(reader: Reader) -> Session:
    reader.only("minutes", "source")
    return Session(_within(reader, "minutes", 1, 600), _source(reader))


def read_rule(reader: Reader) -> Rule:
    reader.only("what", "asks", "low", "high", "unit", "source")
    low, high = _number_or_none(reader, "low", -1e6, 1e6), _number_or_none(reader, "high", -1e6, 1e6)
    _check_rising(reader, low, high, "low", "high")
    unit = reader.text_or_none("unit")
    return Rule(reader.text("what"), reader.text("asks"), low, high, unit, _source(reader))


def _source(reader: Reader) -> str:
    """Where the numbers come from; "ours" is an answer, silence is none."""
    if "source" not in reader.data:
        todo = 'Add source = "...": a book, a page, or "ours".'
        raise reader.bad("does not say where its numbers come from.", todo)
    return reader.text("source")


def _ends(reader: Reader, unit: str, lowest: float, highest: float) -> tuple[float | None, float | None]:
    keys = f"low_{unit}", f"high_{unit}"
    low, high = (_number_or_none(reader, key, lowest, highest) for key in keys)
    if low is None and high is None:
        raise reader.bad(
            f"has neither {keys[0]} nor {keys[1]}.", "Give one of them, or leave the section out."
        )
    _check_rising(reader, low, high, *keys)
    return low, high


def _check_rising(reader: Reader, low: float | None, high: float | None, first: str, second: str) -> None:
    if low is not None and high is not None and low > high:
        todo = f"Make {first} no greater than {second}."
        raise reader.bad(f"runs from {low:g} to {high:g}.", todo, second)


def _given(reader: Reader, value: float | None, key: str) -> float:
    return float(reader.needed(key)) if value is None else value


def _within(reader: Reader, key: str, lowest: float, highest: float) -> float:
    reader.needed(key)
    value = reader.number(key, math.nan)
    if not lowest <= value <= highest:
        raise reader.bad(f"has the {key} {value:.10g}.", f"Give {lowest:g} to {highest:g}.", key)
    return value


def _number_or_none(reader: Reader, key: str, lowest: float, highest: float) -> float | None:
    return _within(reader, key, lowest, highest) if reader.data.get(key) is not None else None


def _seconds(reader: Reader, key: str) -> int:
    value: Any = reader.needed(key)
    if isinstance(value, bool) or not isinstance(value, int):
        raise reader.bad(f"needs whole seconds as its '{key}'.", f"Write {key} = 240 for four minutes.", key)
    return int(_within(reader, key, 0, LONGEST_S))
