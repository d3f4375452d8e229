"""Columns of a file of filled-in sheets: which one holds which field of the sheet."""

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from cupwright.core.rows import Rows
from cupwright.core.taste.points import terms_of
from cupwright.core.taste.sheet import Field, Kind, Sheet
from cupwright.errors import BadFile, Place, Refused

# How files write that there is nothing in a cell.
_NOTHING = frozenset({"", "na", "n/a", "-"})
_LONG = ("row", "field", "value")


@dataclass(frozen=True, slots=True)
class Columns:
    """Field of the sheet -> heading, where they differ; the heading of the total to compare with, or ""."""

    named: Mapping[str, str] = field(default_factory=dict)
    given: str = ""


@dataclass(frozen=True, slots=True)
class FilledSheet:
    """One sheet of a file: what stands under each field, empty cells left out, and the file's own total."""

    row: str
    cells: Mapping[str, str]
    given: str


@dataclass(frozen=True, slots=True)
class Filled:
    """The sheets of a file in its order, and what there is to say about its columns."""

    sheets: tuple[FilledSheet, ...]
    remarks: tuple[str, ...]


def filled(rows: Rows, sheet: Sheet, columns: Columns) -> Filled:
    """The sheets of a file. Raises BadFile, Refused."""
    known = {part: one for _, one in terms_of(sheet) for part in _parts(one)}
    stray = next((name for name in columns.named if name not in known), None)
    if stray is not None:
        todo = f"Its fields are {', '.join(known)}."
        raise Refused(f"The points of the sheet '{sheet.name}' count no field '{stray}'.", todo=todo)
    if not rows.rows:
        raise BadFile("There is nothing under the headings.", where=Place(rows.file))
    is_long = all(rows.column(heading) is not None for heading in _LONG)
    sheets, found = (_long if is_long else _wide)(rows, _headings(known), columns)
    if not found:
        raise BadFile(
            f"No column holds a field of the sheet '{sheet.name}'.",
            todo=f"Say which does: --map {next(iter(known))}=HEADING.",
            where=Place(rows.file, 1),
        )
    return Filled(tuple(sheets), tuple(_remarks(sheet, found)))


def _parts(one: Field) -> tuple[str, ...]:
    """The names under which a field may stand in a file: faults also as two counts of cups."""
    return (one.id, f"{one.id}.taint", f"{one.id}.fault") if one.kind is Kind.FAULTS else (one.id,)


def _headings(known: Mapping[str, Field]) -> dict[str, str]:
    """Headings that need no naming: the ids of fields, and labels that fit one field only."""
    by_id = {_as_id(part): part for part in known}
    labels = [(_as_id(one.label), part) for part, one in known.items() if part == one.id]
    often = Counter(label for label, _ in labels)
    return {label: part for label, part in labels if label and often[label] == 1} | by_id


def _wide(rows: Rows, headings: Mapping[str, str], columns: Columns) -> tuple[list[FilledSheet], set[str]]:
    todo = "Name one of these."
    at = {name: rows.need(heading, todo=todo) for name, heading in columns.named.items()}
    own = {_as_id(heading): index for index, heading in reversed(list(enumerate(rows.headings)))}
    unnamed = {name: own[heading] for heading, name in headings.items() if heading in own}
    at = unnamed | at
    given = rows.need(columns.given, todo=todo) if columns.given else None
    numbered = rows.column("row")
    sheets = []
    for row in rows.rows:
        cells = {name: _cell(row.cells[index]) for name, index in at.items()}
        name = row.cells[numbered].strip() if numbered is not None else ""
        total = _cell(row.cells[given]) if given is not None else ""
        sheets.append(FilledSheet(name or str(row.number), cells, total))
    return sheets, set(at)


def _long(rows: Rows, headings: Mapping[str, str], columns: Columns) -> tuple[list[FilledSheet], set[str]]:
    row_at, field_at, value_at = (rows.need(heading, todo="") for heading in _LONG)
    named = dict(headings) | {_as_id(heading): name for name, heading in columns.named.items()}
    cells: dict[str, dict[str, str]] = {}
    totals: dict[str, str] = {}
    found: set[str] = set()
    for row in rows.rows:
        sheet, heading = row.cells[row_at].strip(), _as_id(row.cells[field_at])
        here, value = cells.setdefault(sheet, {}), _cell(row.cells[value_at])
        name = named.get(heading)
        if columns.given and heading == _as_id(columns.given):
            totals[sheet] = value
        elif name is not None:
            if name in here:
                message = f"The row '{sheet[:40]}' has the field '{name}' twice."
                raise BadFile(message, todo="Leave one of them out.", where=rows.at(row, field_at))
            here[name] = value
            found.add(name)
    return [FilledSheet(sheet, own, totals.get(sheet, "")) for sheet, own in cells.items()], found


def _cell(text: str) -> str:
    plain = text.strip()
    return "" if plain.casefold() in _NOTHING else plain


def _as_id(heading: str) -> str:
    """A heading as fields are called: "Clean Cup" is clean_cup, "Fragrance/Aroma" fragrance_aroma."""
    return re.sub(r"[^a-z0-9]+", "_", heading.casefold()).strip("_")


def _remarks(sheet: Sheet, found: set[str]) -> Iterator[str]:
    for _, one in terms_of(sheet):
        if found.isdisjoint(_parts(one)):
            if one.kind in (Kind.FAULTS, Kind.TICKS):
                yield f"No column holds {one.id}: taken as none in every row."
            else:
                todo = f"--map {one.id}=HEADING says which does."
                yield f"No column holds {one.id}: every total is a range. {todo}"
