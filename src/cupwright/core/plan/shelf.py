"""The shelf: what a coffee must be to be kept, and how a table of rows becomes coffees."""

import math
from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass, fields, replace
from datetime import date

from cupwright.core.flow import is_sealed
from cupwright.core.plan.coffee import LONGEST_NAME, LONGEST_TEXT, Coffee
from cupwright.core.plan.names import checked_name, folded, is_writable
from cupwright.core.plan.table import Table
from cupwright.core.rows import Row, Rows
from cupwright.errors import BadFile, Clash, Place, Refused, TooLarge, WrongStep

MOST_COFFEES_A_FILE = 5000
MOST_GRAMS = 1_000_000.0

_SHORT_TEXTS = ("roaster", "origin", "process", "variety")
_TEXTS = {**dict.fromkeys(_SHORT_TEXTS, LONGEST_NAME), "published_notes": LONGEST_TEXT}
_ALSO_CALLED = {"published_notes": ("published notes", "notes"), "grams_left": ("grams left", "grams")}


@dataclass(frozen=True, slots=True)
class RefusedLine:
    """A line of a file that cannot become a coffee. Lines count from 1, the heading line included."""

    line: int
    column: str
    message: str


@dataclass(frozen=True, slots=True)
class ImportResult:
    """What came of a file of coffees: all of them, or none and every line that stood in the way."""

    added: tuple[Coffee, ...]
    refused: tuple[RefusedLine, ...]
    unused: tuple[str, ...] = ()  # headings of columns that no coffee has a field for


def checked_coffee(coffee: Coffee) -> Coffee:
    """The coffee with outer blanks removed, if it can be kept.

    Raises
    ------
    Refused
        For a name or text that is missing, overlong or unprintable, or grams that are not a number from 0 up.
        The complaint's place names the field.
    """
    tidy = replace(coffee, name=_name(coffee.name), **{f: getattr(coffee, f).strip() for f in _TEXTS})
    for field, longest in _TEXTS.items():
        _require_text(tidy, field, longest)
    _require_grams(tidy.grams_left)
    return tidy


def require_change(before: Coffee, after: Coffee, tables: Iterable[Table]) -> None:
    """Refuse to change what a coffee is while it stands on a sealed table; its grams may change.

    The seal binds codes to ids: a coffee renamed before the key is opened would be another one under the
    same id, and no seal would show it.

    Raises
    ------
    WrongStep
        With the name of the table that is sealed.
    """
    held = _sealed_with(before, tables)
    if held and replace(after, grams_left=before.grams_left) != before:
        raise WrongStep(
            f"'{before.name}' stands on the sealed table '{held}', so only its grams can change now.",
            todo="Open that table's key first.",
        )


def require_removal(coffee: Coffee, tables: Collection[Table]) -> None:
    """Refuse to take away a coffee that a table needs.

    Raises
    ------
    WrongStep
        With the name of the table that is sealed, if one of them is.
    Clash
        With the name of another table the coffee is part of.
    """
    held = _sealed_with(coffee, tables)
    if held:
        raise WrongStep(
            f"'{coffee.name}' stands on the sealed table '{held}', so it cannot be removed now.",
            todo="Open that table's key first.",
        )
    at = [table.plan.name for table in tables if coffee.id in table.plan.coffees]
    if at:
        raise Clash(f"'{coffee.name}' is part of the table '{at[0]}'.", todo="Remove that table first.")


def _sealed_with(coffee: Coffee, tables: Iterable[Table]) -> str:
    """Name of a table that holds the coffee under its seal, or nothing."""
    sealed = (table for table in tables if is_sealed(table.step))
    return next((table.plan.name for table in sealed if coffee.id in table.plan.coffees), "")


def coffees_from(rows: Rows, taken: Collection[str], new_id: Callable[[], str]) -> ImportResult:
    """Coffees from rows, all or none.

    Parameters
    ----------
    rows : Rows
        Columns name, roaster, origin, process, variety, roast_date (YYYY-MM-DD), published_notes (or notes),
        grams_left; only name has to be there, further columns are left alone and told.
    taken : collection of str
        Names on the shelf already.

    Raises
    ------
    BadFile
        If there is no column name, or no line under the headings.
    TooLarge
        If there are more lines than a shelf takes.
    """
    columns = _columns(rows)
    names = {folded(name): "is on the shelf already" for name in taken}
    added: list[Coffee] = []
    refused: list[RefusedLine] = []
    for row in rows.rows:
        try:
            coffee = checked_coffee(_coffee(row, columns, new_id()))
            _require_new_name(coffee.name, row.number, names)
            added.append(coffee)
        except Refused as refusal:
            refused.append(_refused_line(row, refusal))
    unused = tuple(h for i, h in enumerate(rows.headings) if h.strip() and i not in columns.values())
    return ImportResult(() if refused else tuple(added), tuple(refused), unused)


def _columns(rows: Rows) -> dict[str, int]:
    """Field of a coffee -> column."""
    rows.need("name", todo="Write 'name' over the column of the names.")
    if not rows.rows:
        raise BadFile("There is no coffee under the headings.", where=Place(rows.file))
    if len(rows.rows) > MOST_COFFEES_A_FILE:
        raise TooLarge(
            f"{len(rows.rows)} coffees are more than the {MOST_COFFEES_A_FILE} a file may hold.",
            todo="Split the file.",
            where=Place(rows.file),
        )
    found: dict[str, int] = {}
    for field in fields(Coffee):
        for heading in (field.name, *_ALSO_CALLED.get(field.name, ())):
            column = rows.column(heading)
            if field.name != "id" and column is not None:
                found.setdefault(field.name, column)
    return found


def _coffee(row: Row, columns: dict[str, int], coffee_id: str) -> Coffee:
    texts = {name: row.cells[column].strip() for name, column in columns.items()}
    grams = texts.pop("grams_left", "")
    roasted = texts.pop("roast_date", "")
    return Coffee(
        id=coffee_id,
        roast_date=_date(roasted) if roasted else None,
        grams_left=_grams(grams) if grams else None,
        **texts,
    )


def _date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise _refusal("roast_date", f"'{text}' is not a date.", "Write it as 2026-11-25.") from None


def _grams(text: str) -> float:
    try:
        return float(text.removesuffix("g").strip().replace(",", "."))
    except ValueError:
        raise _refusal("grams_left", f"'{text}' is not a number of grams.", "Write a number.") from None


def _require_new_name(name: str, line: int, names: dict[str, str]) -> None:
    where = names.get(folded(name))
    if where:
        raise _refusal("name", f"The name '{name}' {where}.", "Give every coffee its own name.")
    names[folded(name)] = f"is in line {line} too"


def _name(name: str) -> str:
    try:
        return checked_name(name, of="The coffee")
    except Refused as refusal:
        raise _refusal("name", refusal.message, refusal.todo) from None


def _require_text(coffee: Coffee, field: str, longest: int) -> None:
    text, said = getattr(coffee, field), field.replace("_", " ")
    if len(text) > longest:
        raise _refusal(field, f"The {said} is {len(text)} characters long; {longest} fit.", "Shorten it.")
    if not is_writable(text):
        raise _refusal(field, f"The {said} holds a character that cannot be kept.", "Type it anew.")


def _require_grams(grams: float | None) -> None:
    if grams is not None and not (math.isfinite(grams) and 0 <= grams <= MOST_GRAMS):
        raise _refusal(
            "grams_left", f"{grams:g} grams cannot be on the shelf.", "Give 0 or more, or nothing."
        )


def _refusal(field: str, message: str, todo: str) -> Refused:
    return Refused(message, todo=todo, where=Place(column=field))


def _refused_line(row: Row, refusal: Refused) -> RefusedLine:
    column = refusal.where.column if refusal.where else ""
    return RefusedLine(row.number, str(column), f"{refusal.message} {refusal.todo}".strip())
