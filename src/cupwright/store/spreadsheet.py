"""Files of rows: CSV in the usual encodings and delimiters, and XLSX. Complaints name line and column."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING

from cupwright.core.plan.names import folded, is_writable
from cupwright.core.rows import Row, Rows
from cupwright.errors import BadFile, Place, TooLarge
from cupwright.store.comma_separated import csv_lines
from cupwright.store.workbook import xlsx_lines

if TYPE_CHECKING:
    from cupwright.core.analyse.text_columns import TextColumns

MOST_BYTES = 50_000_000
MOST_LINES = 200_000
MOST_COLUMNS = 200
# Column by column, a line takes up far less room.
MOST_LONG_BYTES = 100_000_000
MOST_LONG_LINES = 2_000_000

_ZIP = b"PK\x03\x04"
_OLE2 = bytes.fromhex("d0cf11e0a1b11ae1")

Lines = Iterable[tuple[int, Sequence[str]]]


class FileRows:
    """Implements steps.ports.Spreadsheets."""

    def read(self, data: bytes, file: str) -> Rows:
        return _rows(_lines(data, file, MOST_BYTES, MOST_LINES), file)

    def columns(self, data: bytes, file: str) -> "TextColumns":
        # numpy loads with the first file that is read this way.
        from cupwright.core.analyse.text_columns import coded

        lines = _counted(_lines(data, file, MOST_LONG_BYTES, MOST_LONG_LINES), file, MOST_LONG_LINES)
        number, first = next((one for one in lines if any(cell.strip() for cell in one[1])), (0, ()))
        columns = coded(file, _headings_of(number, first, file), lines)
        for column in columns.columns:
            for code, text in enumerate(column.texts):
                if not text.isascii() and not is_writable(text):
                    _require_writable(text, columns.at(column.first(code), column.heading))
        return columns


def _lines(data: bytes, file: str, most_bytes: int, most_lines: int) -> Lines:
    if len(data) > most_bytes:
        raise TooLarge(
            f"The file has {len(data) / 1e6:.0f} MB; {most_bytes / 1e6:.0f} MB are read.",
            todo="Split it.",
            where=Place(file),
        )
    if data.startswith(_OLE2):
        raise BadFile(
            "This is a spreadsheet in an old or protected form.",
            todo="Save it as XLSX without a password, or as CSV.",
            where=Place(file),
        )
    if data.startswith(_ZIP):
        return xlsx_lines(data, file, lines=most_lines + 1, columns=MOST_COLUMNS + 1)
    if data.count(b"\n") > most_lines:
        # Said before millions of lines are read in vain.
        raise _too_many_lines(file, most_lines)
    return csv_lines(data, file)


def _rows(lines: Lines, file: str) -> Rows:
    """Headings and rows from numbered lines; lines with nothing in them are left out."""
    filled = (one for one in _counted(lines, file, MOST_LINES) if any(cell.strip() for cell in one[1]))
    number, first = next(filled, (0, ()))
    headings = _headings_of(number, first, file)
    rows = tuple(_row(found, cells, headings, file) for found, cells in filled)
    return Rows(file, headings, rows)


def _headings_of(line: int, cells: Sequence[str], file: str) -> tuple[str, ...]:
    if not cells:
        raise BadFile("The file has nothing in it.", todo="Choose another file.", where=Place(file))
    return _headings(cells, line, file)


def _counted(lines: Lines, file: str, most: int) -> Iterator[tuple[int, Sequence[str]]]:
    for number, cells in lines:
        if number > most:
            raise _too_many_lines(file, most)
        yield number, cells


def _too_many_lines(file: str, most: int) -> TooLarge:
    return TooLarge(
        f"The file has more than the {most} lines that are read.", todo="Split it.", where=Place(file)
    )


def _headings(cells: Sequence[str], line: int, file: str) -> tuple[str, ...]:
    named = [cell.strip() for cell in _without_empty_end(cells)]
    if len(named) > MOST_COLUMNS:
        raise TooLarge(
            f"The file has more than the {MOST_COLUMNS} columns that are read.",
            todo="Take out the columns that are not needed.",
            where=Place(file, line),
        )
    headings = tuple(heading or f"column {n}" for n, heading in enumerate(named, start=1))
    seen: dict[str, int] = {}
    for n, heading in enumerate(headings, start=1):
        if folded(heading) in seen:
            raise BadFile(
                f"Columns {seen[folded(heading)]} and {n} have the same heading '{heading}'.",
                todo="Give each column its own heading.",
                where=Place(file, line),
            )
        seen[folded(heading)] = n
        _require_writable(heading, Place(file, line, n))
    return headings


def _row(number: int, cells: Sequence[str], headings: Sequence[str], file: str) -> Row:
    if any(cell.strip() for cell in islice(cells, len(headings), None)):
        raise BadFile(
            f"The line has {len(_without_empty_end(cells))} cells under {len(headings)} headings.",
            todo="Put cells that hold the delimiter in quotes.",
            where=Place(file, number),
        )
    fitted = (*cells[: len(headings)], *[""] * (len(headings) - len(cells)))
    for heading, cell in zip(headings, fitted, strict=True):
        _require_writable(cell, Place(file, number, heading))
    return Row(number, fitted)


def _without_empty_end(cells: Sequence[str]) -> Sequence[str]:
    filled = [n for n, cell in enumerate(cells, start=1) if cell.strip()]
    return cells[: max(filled, default=0)]


def _require_writable(cell: str, where: Place) -> None:
    if (not cell.isascii() or "\x00" in cell) and not is_writable(cell):
        raise BadFile(
            "The cell holds a character that is no text.",
            todo="Save the file anew as UTF-8.",
            where=where,
        )
