"""A table as a file: a plan and its coffees by name, in TOML.

name = "Thursday"            # needed; all others have the defaults of a plan
tasters = ["Ada", "Ben"]
bowls_per_sample = 2
bowl_ml = 200

[[coffee]]                   # one or more; a name on the shelf is taken from there
name = "Hill lot 7"
published_notes = "plum, cocoa"
twice = true                 # also under a second code, unknown to the tasters
"""

import math
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.names import folded
from cupwright.core.plan.planning import checked_plan
from cupwright.core.plan.shelf import checked_coffee
from cupwright.core.plan.table import Blinding, Plan
from cupwright.errors import BadFile, Place, Refused

LARGEST_TABLE_FILE = 1_000_000

_NUMBERS = (
    *("bowl_ml", "grams_per_litre", "scale_step_g", "kettle_c", "purge_g", "pour_s", "break_s", "skim_s"),
    *("altitude_m", "room_c", "taste_from_c", "swallowed"),
)
_WHOLE = ("bowls_per_sample", "seed", "flight", "samples_each", "pourers")
_COFFEE_TEXTS = ("name", "roaster", "origin", "process", "variety", "published_notes")

# key -> (type, how a complaint calls it)
_TABLE_KEYS: Mapping[str, tuple[type | tuple[type, ...], str]] = {
    "name": (str, "text"),
    "sheet": (str, "text"),
    "blinding": (str, "text"),
    "protocol": (str, "text"),
    "vessel": (str, "text"),
    "tasters": (list, "a list of names"),
    "spare_bowl": (bool, "true or false"),
    "coffee": (list, "a list of coffees, each under [[coffee]]"),
    **dict.fromkeys(_WHOLE, (int, "a whole number")),
    **dict.fromkeys(_NUMBERS, ((int, float), "a number")),
}
_COFFEE_KEYS: Mapping[str, tuple[type | tuple[type, ...], str]] = {
    **dict.fromkeys(_COFFEE_TEXTS, (str, "text")),
    "roast_date": (date, "a date such as 2026-03-01, without quotes"),
    "grams_left": ((int, float), "a number"),
    "twice": (bool, "true or false"),
}


@dataclass(frozen=True, slots=True)
class TableFile:
    """A plan without coffees, and the coffees it wants, in the file's order. Their ids are empty.

    `twice` are the names of those that stand under a second code as well.
    """

    plan: Plan
    coffees: tuple[Coffee, ...]
    twice: tuple[str, ...] = ()


def read_table_file(text: str, file: str) -> TableFile:
    """What a table file asks for, if a table can be planned from it.

    Raises
    ------
    BadFile
        With line and column where they are known: no TOML, an unknown or missing key, a wrong type, a value
        that cannot be planned.
    """
    try:
        found = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise _not_toml(fault, text, file) from None
    spot = _Spots(text, file)
    _check_keys(found, _TABLE_KEYS, spot, "table")
    rows = found.pop("coffee", [])
    coffees, twice = [], []
    for number, row in enumerate(rows):
        stands_twice = isinstance(row, dict) and row.pop("twice", False)
        coffees.append(_coffee(row, number, spot))
        if stands_twice:
            twice.append(coffees[-1].name)
    _refuse_twins(tuple(coffees), spot)
    asked = TableFile(_plan(found, spot), tuple(coffees), tuple(twice))
    _check_values(asked, spot)
    return asked


class _Spots:
    """Finds the line of a key, for complaints."""

    def __init__(self, text: str, file: str) -> None:
        self._lines = text.splitlines()
        self.file = file

    def of(self, key: str, coffee: int | None = None) -> Place:
        """The line that gives the key: of the table, or of coffee number `coffee` from 0."""
        first, last = self._part(coffee)
        for number in range(first, last):
            if re.match(rf"\s*[\[\"']*\s*{re.escape(key)}\b", self._lines[number]):
                return Place(self.file, number + 1)
        return self.start(coffee)

    def start(self, coffee: int | None) -> Place:
        """Where the table or a coffee begins."""
        first, _ = self._part(coffee)
        return Place(self.file, first + 1) if first else Place(self.file)

    def _part(self, coffee: int | None) -> tuple[int, int]:
        headings = [i for i, line in enumerate(self._lines) if re.match(r"\s*\[\[\s*coffee\s*\]\]", line)]
        ends = [*headings, len(self._lines)]
        # Coffees written in one line, as coffee = [{...}], have no heading.
        if coffee is None or coffee >= len(headings):
            return 0, ends[0]
        return headings[coffee], ends[coffee + 1]


def _not_toml(fault: tomllib.TOMLDecodeError, text: str, file: str) -> BadFile:
    # tomllib says the place only at the end of its message.
    message = str(fault)
    said = re.search(r" \(at (?:line (\d+), column (\d+)|end of document)\)$", message)
    line = int(said[1]) if said and said[1] else text.count("\n") + 1
    column = int(said[2]) if said and said[2] else None
    reason = message[: said.start()] if said else message
    return BadFile(
        f"This is not TOML ({reason}).",
        todo='Write one key a line, as in name = "Thursday".',
        where=Place(file, line, column),
    )


def _check_keys(
    found: Mapping[str, Any],
    known: Mapping[str, tuple[type | tuple[type, ...], str]],
    spot: _Spots,
    what: str,
    coffee: int | None = None,
) -> None:
    for key, value in found.items():
        if key not in known:
            raise BadFile(
                f"A {what} has no '{key}'.",
                todo=f"The keys are {', '.join(known)}.",
                where=spot.of(key, coffee),
            )
        kind, called = known[key]
        # bool is a kind of int in Python, and datetime a kind of date; neither is meant.
        stray = (isinstance(value, bool) and kind is not bool) or isinstance(value, datetime)
        if stray or not isinstance(value, kind):
            quotes = " without quotes" if isinstance(value, str) and kind not in (list, date) else ""
            raise BadFile(
                f"'{key}' is not {called}.", todo=f"Give {called}{quotes}.", where=spot.of(key, coffee)
            )
    if "name" not in found:
        todo = 'Add a line such as name = "Thursday".'
        raise BadFile(f"The {what} has no name.", todo=todo, where=spot.start(coffee))


def _plan(found: dict[str, Any], spot: _Spots) -> Plan:
    tasters = found.pop("tasters", None)
    if tasters is not None and not all(isinstance(name, str) for name in tasters):
        raise BadFile(
            "'tasters' is not a list of names.", todo="Put names in quotes.", where=spot.of("tasters")
        )
    blinding = found.pop("blinding", Blinding.CODES)
    if blinding not in list(Blinding):
        raise BadFile(
            f"'{blinding}' is no way of blinding.",
            todo=f"Choose one of {', '.join(Blinding)}.",
            where=spot.of("blinding"),
        )
    found |= {key: _number(found[key]) for key in _NUMBERS if key in found}
    plan = Plan(coffees=(), blinding=Blinding(blinding), **found)
    return plan if tasters is None else replace(plan, tasters=tuple(tasters))


def _check_values(asked: TableFile, spot: _Spots) -> None:
    """The checks of the steps, made here too because only here the line is known."""
    for number, coffee in enumerate(asked.coffees):
        try:
            checked_coffee(coffee)
        except Refused as refusal:
            column = str(refusal.where.column) if refusal.where else ""
            raise _with_line(refusal, spot.of(column, number)) from None
    stand_ins = {coffee.name: str(number) for number, coffee in enumerate(asked.coffees)}
    twice = tuple(stand_ins[name] for name in asked.twice)
    try:
        checked_plan(replace(asked.plan, coffees=tuple(stand_ins.values()), duplicates=twice))
    except Refused as refusal:
        where = spot.start(0) if refusal.about == "coffees" else spot.of(refusal.about or "name")
        raise _with_line(refusal, where) from None


def _with_line(refusal: Refused, where: Place) -> BadFile:
    return BadFile(refusal.message, todo=refusal.todo, where=where)


def _number(value: float) -> float:
    try:
        return float(value)
    except OverflowError:
        # A whole number of hundreds of digits; no check lets it pass.
        return math.inf


def _refuse_twins(coffees: tuple[Coffee, ...], spot: _Spots) -> None:
    names = [folded(coffee.name) for coffee in coffees]
    for number, coffee in enumerate(coffees):
        if names[number] in names[:number]:
            raise BadFile(
                f"'{coffee.name}' is on the table already.",
                todo="Take it out; twice = true gives it a second code, bowls_per_sample more bowls.",
                where=spot.of("name", number),
            )


def _coffee(row: Any, number: int, spot: _Spots) -> Coffee:
    if not isinstance(row, dict):
        raise BadFile("A coffee is not written as [[coffee]].", todo="Write it so.", where=spot.of("coffee"))
    _check_keys(row, _COFFEE_KEYS, spot, "coffee", number)
    grams = row.pop("grams_left", None)
    return Coffee(id="", grams_left=None if grams is None else _number(grams), **row)
