"""Rows of notes as people keep them, one line a taster and coffee, become a sheet and answers.

The sheet is made from the columns: the note is a field of words, a column of numbers a line scale whose ends
are the least and the greatest number in it, any other column a text that is kept as it is.
"""

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from cupwright.core.plan.coffee import LONGEST_NAME, LONGEST_TEXT
from cupwright.core.plan.names import checked_name, folded
from cupwright.core.rows import Row, Rows
from cupwright.core.taste.note import Value
from cupwright.core.taste.sheet import IMPORTED, Field, Kind, Moment, Pass, Sheet
from cupwright.errors import BadFile, Place, Refused, TooLarge

PASS = IMPORTED
MOST_FIELDS = 60
MOST_COFFEES = 500
MOST_TASTERS = 20_000
GREATEST_NUMBER = 1e12

_LIKING_HEADINGS = ("liking", "preference")
_LONGEST_ID = 40


@dataclass(frozen=True, slots=True)
class NotesColumns:
    """Headings of the columns with a meaning of their own; liking "" stands for liking or preference."""

    taster: str = "taster"
    coffee: str = "coffee"
    note: str = "note"
    liking: str = ""


@dataclass(frozen=True, slots=True)
class Line:
    """What one taster said of one coffee. `answers` are (field id, value); empty cells are no answers."""

    taster: str
    coffee: str
    answers: tuple[tuple[str, Value], ...]


@dataclass(frozen=True, slots=True)
class NotesFile:
    """A file of notes, read: the sheet its columns make, tasters and coffees as they come up first."""

    file: str
    sheet: Sheet
    tasters: tuple[str, ...]
    coffees: tuple[str, ...]
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class _Column:
    index: int
    field: Field


def notes_file(rows: Rows, columns: NotesColumns) -> NotesFile:
    """Notes from rows, all or none.

    Tasters are told apart letter by letter (their names may be codes); coffees as on the shelf, where letter
    case does not count.

    Raises
    ------
    BadFile
        For a column that is missing, a cell that does not fit, or two lines of one taster on one coffee; the
        place names line and column.
    TooLarge
        For more coffees, tasters or columns than a table of imported notes takes.
    """
    taster, coffee, note = (
        rows.need(
            getattr(columns, what), todo=f"Rename the column, or say which one it is: --{what} HEADING."
        )
        for what in ("taster", "coffee", "note")
    )
    if not rows.rows:
        raise BadFile("There is no note under the headings.", where=Place(rows.file))
    asked = _columns(rows, note, taken={taster, coffee})
    sheet = _sheet(rows, asked, columns)
    names: dict[str, str] = {}
    first: dict[tuple[str, str], int] = {}
    lines = []
    for row in rows.rows:
        who, what = _name(rows, row, taster), _name(rows, row, coffee)
        what = names.setdefault(folded(what), what)
        _require_first(rows, row, first, (who, what))
        lines.append(Line(who, what, _answers(rows, row, asked)))
    tasters = tuple(dict.fromkeys(line.taster for line in lines))
    _require_size(rows, tasters, names.values())
    return NotesFile(rows.file, sheet, tasters, tuple(names.values()), tuple(lines))


def _columns(rows: Rows, note: int, taken: set[int]) -> tuple[_Column, ...]:
    """The note first, then every column that has something in it."""
    others = [index for index in range(len(rows.headings)) if index not in taken | {note}]
    filled = [index for index in others if any(row.cells[index].strip() for row in rows.rows)]
    if len(filled) >= MOST_FIELDS:
        raise TooLarge(
            f"{len(filled)} columns besides the note are more than the {MOST_FIELDS - 1} taken.",
            todo="Take out the columns that are not needed.",
            where=Place(rows.file, 1),
        )
    ids: list[str] = []
    columns = []
    for index in (note, *filled):
        ids.append(_new_id(rows.headings[index], ids))
        label = rows.headings[index][:LONGEST_NAME]
        made = Field(ids[-1], Kind.WORDS, label) if index == note else _field(rows, index, ids[-1], label)
        columns.append(_Column(index, made))
    return tuple(columns)


def _new_id(heading: str, taken: Sequence[str]) -> str:
    """A field's id from a heading: small letters, digits and _, beginning with a letter."""
    plain = re.sub(r"[^a-z0-9]+", "_", heading.casefold()).strip("_")
    plain = (plain if plain[:1].isalpha() else f"column_{plain}".rstrip("_"))[: _LONGEST_ID - 4]
    tries = (plain, *(f"{plain}_{number}" for number in range(2, MOST_FIELDS + 2)))
    return next(one for one in tries if one not in taken)


def _field(rows: Rows, index: int, field_id: str, label: str) -> Field:
    """A line scale if at least half of the filled cells are numbers, else a text."""
    cells = [cell for row in rows.rows if (cell := row.cells[index].strip())]
    numbers = [number for cell in cells if (number := _number(cell)) is not None]
    if 2 * len(numbers) < len(cells):
        return Field(field_id, Kind.TEXT, label)
    low, high = min(numbers), max(numbers)
    # One answer throughout still needs a scale with two ends.
    high = high if high > low else low + 1
    return Field(field_id, Kind.LINE, label, low=low, high=high, step=_step(numbers, (high - low) / 100))


def _step(numbers: Iterable[float], finest: float) -> float:
    """The largest step from nought that all numbers keep, 1 at most, as 0.25; below 1 none under `finest`."""
    parts = math.lcm(*(Fraction(repr(number)).denominator for number in set(numbers)))
    return 1.0 if parts == 1 else max(1 / parts, finest)


def _number(text: str) -> float | None:
    """A number as people write it, with a point or a comma before the decimals; None for anything else."""
    try:
        number = float(text.replace(",", ".") if text.count(",") == 1 and "." not in text else text)
    except ValueError:
        return None
    return number if math.isfinite(number) and abs(number) <= GREATEST_NUMBER else None


def _sheet(rows: Rows, asked: Sequence[_Column], columns: NotesColumns) -> Sheet:
    fields = tuple(column.field for column in asked)
    one = Pass(PASS, "Imported notes", "What was written down elsewhere.", Moment.COOL, fields)
    liking = _liking(rows, asked, columns)
    return Sheet(
        IMPORTED, 1, f"Imported from {rows.file}"[:LONGEST_NAME], (one,), (PASS, liking) if liking else None
    )


def _liking(rows: Rows, asked: Sequence[_Column], columns: NotesColumns) -> str:
    """Id of the field that holds liking, or ""."""
    scales = {column.index: column.field.id for column in asked if column.field.kind is Kind.LINE}
    if not columns.liking:
        found = (rows.column(heading) for heading in _LIKING_HEADINGS)
        return next((scales[index] for index in found if index in scales), "")
    index = rows.need(columns.liking, todo="Name one of these, or leave --liking out.")
    if index not in scales:
        raise BadFile(
            "The column that is to hold liking has no numbers.",
            todo="Name another column, or none.",
            where=Place(rows.file, 1, rows.headings[index]),
        )
    return scales[index]


def _name(rows: Rows, row: Row, column: int) -> str:
    try:
        return checked_name(row.cells[column], of=f"The {rows.headings[column]}")
    except Refused as refusal:
        raise BadFile(refusal.message, todo=refusal.todo, where=rows.at(row, column)) from None


def _answers(rows: Rows, row: Row, asked: Iterable[_Column]) -> tuple[tuple[str, Value], ...]:
    """What is written is kept word for word; only the check looks at it without its outer blanks."""
    found: list[tuple[str, Value]] = []
    for column in asked:
        cell = row.cells[column.index]
        if cell.strip():
            found.append((column.field.id, _value(rows, row, column, cell)))
    return tuple(found)


def _value(rows: Rows, row: Row, column: _Column, cell: str) -> Value:
    if column.field.kind is not Kind.LINE:
        if len(cell) > LONGEST_TEXT:
            raise BadFile(
                f"The text is {len(cell)} characters long; {LONGEST_TEXT} fit.",
                todo="Shorten it.",
                where=rows.at(row, column.index),
            )
        return cell
    number = _number(cell.strip())
    if number is None:
        raise BadFile(
            f"'{cell.strip()[:40]}' is no number, but the column holds numbers.",
            todo="Correct the cell or empty it.",
            where=rows.at(row, column.index),
        )
    return number


def _require_first(rows: Rows, row: Row, first: dict[tuple[str, str], int], pair: tuple[str, str]) -> None:
    line = first.setdefault(pair, row.number)
    if line != row.number:
        raise BadFile(
            f"Lines {line} and {row.number} are both by {pair[0]} on {pair[1]}.",
            todo="Leave one of them out, or give the second cup a name of its own.",
            where=Place(rows.file, row.number),
        )


def _require_size(rows: Rows, tasters: Sequence[str], coffees: Iterable[str]) -> None:
    for found, most, what in (
        (len(tasters), MOST_TASTERS, "tasters"),
        (len(list(coffees)), MOST_COFFEES, "coffees"),
    ):
        if found > most:
            raise TooLarge(
                f"The file has {found} {what}; {most} are taken.",
                todo="Split it, or check which column holds what.",
                where=Place(rows.file),
            )
