"""Points for a file of filled-in sheets: rows in, totals out, a sentence about every row that does not fit.

A file is long (columns row, field, value) or wide (a line a sheet, a column a field). Its numbers may be
averages over tasters, which lie between the steps of a sheet and are rounded: they are added as they stand,
which is said once, and a total in the file may then differ by as much as that rounding can.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from cupwright.core.rows import Rows
from cupwright.core.taste.counted import number, said
from cupwright.core.taste.note import Value
from cupwright.core.taste.points import Points, band, off_steps, points, terms_of
from cupwright.core.taste.points_columns import Columns, Filled, FilledSheet, filled
from cupwright.core.taste.sheet import Field, Kind, Sheet, Term

# From this share of numbers between the steps on, they are averages rather than slips of a hand.
_AVERAGES_FROM = Fraction(1, 4)
_FEWEST_OFF_STEP = 4
_NOT = re.compile(r"not ([0-9]+(?:[ ,]+(?:and )?[0-9]+)*)")


@dataclass(frozen=True, slots=True)
class RowPoints:
    """One filled-in sheet. `row` is the line in the file, or what stands in its column `row`.

    `given` is the total in the file; `difference` is ours less that; `band` is the total in the trade's talk.
    """

    row: str
    points: Points
    band: str
    given: Decimal | None
    difference: Decimal | None
    complaints: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FilePoints:
    """All sheets of a file, and what there is to say about the file as a whole.

    `tolerance` is by how much a total may differ from the one in the file for its rounding alone.
    """

    rows: tuple[RowPoints, ...]
    remarks: tuple[str, ...]
    averages: bool
    tolerance: Decimal


def file_points(
    rows: Rows, sheet: Sheet, columns: Columns, *, cups: int = 5, averages: bool = False
) -> FilePoints:
    """The points of every sheet in a file.

    Parameters
    ----------
    columns : Columns
        Which column holds which field, and the total to compare with.
    cups : int
        How many cups a sample has.
    averages : bool
        Whether the numbers are averages; found out from the file if it is not said.

    Raises
    ------
    BadFile
        If a column that is named is not there, or nothing of the sheet is.
    Refused
        If the sheet makes no points, or has no such field.
    """
    file = filled(rows, sheet, columns)
    terms = terms_of(sheet)
    answers = [_answers(terms, one.cells) for one in file.sheets]
    averages = averages or _are_averages(sheet, answers, cups)
    tolerance = _tolerance(sheet, file, averages)
    made = tuple(
        _row(one, sheet, points(sheet, given, cups=cups, averages=averages), tolerance)
        for one, given in zip(file.sheets, answers, strict=True)
    )
    remarks = (*file.remarks, *((_said_of_averages(),) if averages else ()))
    return FilePoints(made, remarks, averages, tolerance)


def _answers(terms: Sequence[tuple[Term, Field]], cells: Mapping[str, str]) -> dict[tuple[str, str], Value]:
    values = {(term.part, term.field): _value(field, cells) for term, field in terms}
    return {question: value for question, value in values.items() if value is not None}


def _value(field: Field, cells: Mapping[str, str]) -> Value:
    """A cell as an answer: "not 3, 5" marks cups, anything else is a number or will be complained about."""
    text = cells.get(field.id, "")
    marked = _NOT.fullmatch(text.casefold())
    if marked and field.kind in (Kind.CUPS, Kind.TICKS):
        return [int(cup) for cup in re.findall("[0-9]+", marked[1])]
    if field.kind is Kind.FAULTS and not text:
        return _counted_faults(field, cells)
    return text or None


def _counted_faults(field: Field, cells: Mapping[str, str]) -> Value:
    """Cups with taints and cups with faults, counted in columns of their own."""
    parts = {worth: cells.get(f"{field.id}.{name}", "") for name, worth in (("taint", 2), ("fault", 4))}
    if not any(parts.values()):
        return None
    counts = {worth: number(text) if text else Fraction(0) for worth, text in parts.items()}
    wrong = next((parts[worth] for worth, count in counts.items() if count is None), None)
    if wrong is not None:
        return wrong
    return said(sum((worth * count for worth, count in counts.items() if count is not None), Fraction(0)))


def _are_averages(sheet: Sheet, answers: Sequence[Mapping[tuple[str, str], Value]], cups: int) -> bool:
    off = sum(len(off_steps(sheet, one, cups=cups)) for one in answers)
    scored = {(term.part, term.field) for term, field in terms_of(sheet) if field.kind is Kind.POINTS}
    written = sum(len(scored & one.keys()) for one in answers)
    return off >= _FEWEST_OFF_STEP and off >= _AVERAGES_FROM * written


def _said_of_averages() -> str:
    return (
        "Many numbers lie between the steps of the sheet, as averages over tasters do: "
        "they are added as they stand."
    )


def _tolerance(sheet: Sheet, file: Filled, averages: bool) -> Decimal:
    """How far totals can lie apart for rounding: half a unit of every averaged column and of the total."""
    halves = _half_unit(one.given for one in file.sheets)
    if averages:
        for term, field in terms_of(sheet):
            halves += Fraction(term.times) * _half_unit(one.cells.get(field.id, "") for one in file.sheets)
        if sheet.points and sheet.points.step:
            halves += Fraction(sheet.points.step) / 2
    return Decimal(halves.numerator) / Decimal(halves.denominator)


def _half_unit(cells: Iterable[str]) -> Fraction:
    """Half of the last decimal that a column writes; nothing for one of whole numbers."""
    decimals = max((len(re.split("[.,]", cell)[1]) for cell in cells if re.search("[.,]", cell)), default=0)
    return Fraction(1, 2 * 10**decimals) if decimals else Fraction(0)


def _row(one: FilledSheet, sheet: Sheet, made: Points, tolerance: Decimal) -> RowPoints:
    complaints = list(made.complaints)
    name = "" if made.total is None else band(sheet, made.total)
    given = number(one.given) if one.given else None
    if one.given and given is None:
        complaints.append(f"The total in the file is '{one.given[:40]}', which is no number.")
    if given is None:
        return RowPoints(one.row, made, name, None, None, tuple(complaints))
    stated = Decimal(given.numerator) / Decimal(given.denominator)
    difference = None if made.total is None else made.total - stated
    if difference is not None and abs(difference) > tolerance:
        more = "more" if difference > 0 else "less"
        by = f"{abs(difference).normalize():f} {more}"
        complaints.append(f"It adds up to {made.total}, {by} than the {one.given} in the file.")
    elif difference is None and not made.low - tolerance <= stated <= made.high + tolerance:
        complaints.append(f"The {one.given} in the file cannot be reached: {made.low} to {made.high} can.")
    return RowPoints(one.row, made, name, stated, difference, tuple(complaints))
