"""CSV [RFC4180] as it is met: several encodings, delimiters , ; and tab, line ends of any kind."""

import csv
import io
from collections.abc import Iterator, Sequence

from cupwright.errors import BadFile, Place

DELIMITERS = (",", ";", "\t")

_BYTE_ORDER_MARKS = (
    (b"\xef\xbb\xbf", "utf-8-sig"),
    (b"\xff\xfe", "utf-16"),
    (b"\xfe\xff", "utf-16"),
)
_LONE = range(0xDC80, 0xDD00)  # what "surrogateescape" makes of bytes that are no UTF-8
_LOOKED_AT = 4000


def csv_lines(data: bytes, file: str) -> Iterator[tuple[int, Sequence[str]]]:
    """(line on which a row begins, its cells), heading line first.

    Raises
    ------
    BadFile
        If the encoding cannot be told or a quote is never closed; the place names the line.
    """
    text = decoded(data, file)
    _refuse_nul(text, file)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text), strict=True)
    begins = 1
    try:
        for cells in reader:
            yield begins, cells
            begins = reader.line_num + 1
    except csv.Error as fault:
        if "field limit" in str(fault):
            raise BadFile(
                f"A cell of the row that begins here is longer than {csv.field_size_limit()} characters.",
                todo="Shorten it; if none is so long, a quote is not closed.",
                where=Place(file, begins),
            ) from fault
        raise BadFile(
            f"The quotes of the row that begins here do not match ({fault}).",
            todo='Close every quote, and write a quote inside a cell as "".',
            where=Place(file, begins),
        ) from fault


def decoded(data: bytes, file: str) -> str:
    """The text, from UTF-8 (with or without its mark), UTF-16 or Windows-1252.

    Raises
    ------
    BadFile
        If it is none of these.
    """
    encoding = next((name for mark, name in _BYTE_ORDER_MARKS if data.startswith(mark)), None)
    encoding = encoding or _utf16_without_mark(data) or _eight_bit(data, file)
    try:
        return data.decode(encoding)
    except UnicodeDecodeError as fault:
        line = data[: fault.start].count(b"\n") + 1
        raise _no_text(file, line) from fault


def _utf16_without_mark(data: bytes) -> str | None:
    """Latin letters in UTF-16 have a zero byte in every second place."""
    even, odd = data[:_LOOKED_AT:2], data[1:_LOOKED_AT:2]
    if len(odd) and odd.count(0) * 2 > len(odd) and even.count(0) == 0:
        return "utf-16-le"
    if len(even) and even.count(0) * 2 > len(even) and odd.count(0) == 0:
        return "utf-16-be"
    return None


def _eight_bit(data: bytes, file: str) -> str:
    try:
        data.decode("utf-8")
    except UnicodeDecodeError as fault:
        tried = data.decode("utf-8", "surrogateescape")
        wrong = sum(ord(character) in _LONE for character in tried)
        right = sum(not character.isascii() for character in tried) - wrong
        if right >= wrong:
            # Mostly good UTF-8: reading all of it as Windows-1252 would quietly spoil every accent.
            raise _no_text(file, data[: fault.start].count(b"\n") + 1) from fault
        return "cp1252"
    return "utf-8"


def _refuse_nul(text: str, file: str) -> None:
    at = text.find("\x00")
    if at >= 0:
        raise _no_text(file, text.count("\n", 0, at) + 1)


def _no_text(file: str, line: int) -> BadFile:
    return BadFile(
        "There are bytes here that are no text in UTF-8, UTF-16 or Windows-1252.",
        todo="Save the file anew as CSV in UTF-8.",
        where=Place(file, line),
    )


def _delimiter(text: str) -> str:
    """The one that cuts the first row that is not empty into most cells."""
    first = next((line for line in io.StringIO(text, newline=None) if line.strip()), "")
    return max(DELIMITERS, key=lambda delimiter: _cells(first, delimiter))


def _cells(line: str, delimiter: str) -> int:
    try:
        return len(next(csv.reader([line], delimiter=delimiter), []))
    except csv.Error:
        # Cut by this delimiter, a cell is longer than the reader takes.
        return 0
