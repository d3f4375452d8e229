"""XLSX [ECMA-376]: the first sheet of a workbook as lines of text. Caps are checked before it is unpacked."""

import io
import warnings
import zipfile
import zlib
from collections.abc import Sequence
from datetime import date, datetime, time

from cupwright.errors import BadFile, Place, TooLarge

MOST_UNPACKED_BYTES = 50_000_000
MOST_MEMBERS = 1000
MOST_RATIO = 100
MOST_CELLS = 2_000_000

# A broken workbook fails in the reader in many ways; a fault of our own (NameError) must not look like one.
_BROKEN = (
    ArithmeticError,
    AttributeError,
    EOFError,
    LookupError,
    OSError,
    SyntaxError,  # XML that is not well-formed
    TypeError,
    ValueError,  # also: entities, which are refused
    zipfile.BadZipFile,
    zlib.error,
)

Line = tuple[int, Sequence[str]]


def xlsx_lines(data: bytes, file: str, *, lines: int, columns: int) -> list[Line]:
    """(number of the row, its cells as text), at most `lines` rows of at most `columns` cells.

    Raises
    ------
    TooLarge
        If unpacking it would take too much.
    BadFile
        If it is no such workbook.
    """
    _check_before_unpacking(data, file)
    try:
        read = _read(data, lines, columns)
    except _BROKEN as fault:
        raise BadFile(
            "This XLSX file is damaged or is no workbook.",
            todo="Open and save it anew, or save it as CSV.",
            where=Place(file),
        ) from fault
    if read is None:
        raise TooLarge(
            f"The sheet has more than the {MOST_CELLS} cells that are read.",
            todo="Save only the rows and columns that are needed.",
            where=Place(file),
        )
    return read


def _read(data: bytes, lines: int, columns: int) -> list[Line] | None:
    """The rows with anything in them, or None if there are too many cells."""
    from openpyxl import load_workbook

    read: list[Line] = []
    cells = 0
    with warnings.catch_warnings():
        # It warns about styles and extensions, which nothing here needs.
        warnings.simplefilter("ignore")
        book = load_workbook(io.BytesIO(data), read_only=True, data_only=True)
        rows = book.worksheets[0].iter_rows(max_row=lines, max_col=columns, values_only=True)
        for number, row in enumerate(rows, start=1):
            if any(cell is not None for cell in row):
                read.append((number, [_text(cell) for cell in row]))
                cells += len(row)
            if cells > MOST_CELLS:
                return None
    return read


def _check_before_unpacking(data: bytes, file: str) -> None:
    """From the list of members alone; the reader unpacks no member beyond the size stated there."""
    try:
        members = zipfile.ZipFile(io.BytesIO(data)).infolist()
    except (zipfile.BadZipFile, NotImplementedError, ValueError) as fault:
        raise BadFile("This XLSX file is damaged.", todo="Save it anew.", where=Place(file)) from fault
    unpacked = sum(member.file_size for member in members)
    if (
        len(members) > MOST_MEMBERS
        or unpacked > MOST_UNPACKED_BYTES
        or unpacked > MOST_RATIO * max(1, sum(member.compress_size for member in members))
    ):
        raise TooLarge(
            f"Unpacked, this file would have {len(members)} parts and {unpacked / 1e6:.0f} MB.",
            todo="Save only the sheet that is needed, or save it as CSV.",
            where=Place(file),
        )


def _text(cell: object) -> str:
    """As a person would have typed it: whole numbers without a point, dates as 2026-11-25."""
    if cell is None:
        return ""
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float) and cell.is_integer():
        return str(int(cell))
    if isinstance(cell, datetime) and cell.time() == time():
        return cell.date().isoformat()
    if isinstance(cell, (datetime, date)):
        return cell.isoformat()
    return str(cell)
