"""Text columns: a long file column by column, each text kept once, so that millions of lines stay small."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from cupwright.core.rows import Rows
from cupwright.errors import BadFile, Place

Codes = NDArray[np.int32]
Lines = Iterable[tuple[int, Sequence[str]]]

_AT_ONCE = 4096


@dataclass(frozen=True, slots=True)
class TextColumn:
    """One column: row i holds `texts[codes[i]]`. Texts come in the order in which they first stand there."""

    heading: str
    texts: tuple[str, ...]
    codes: Codes

    def first(self, text: int) -> int:
        """The first row that holds the text of that number."""
        return int(np.argmax(self.codes == text))


@dataclass(frozen=True, slots=True)
class TextColumns:
    """A heading line and the columns under it. `lines` are the rows' lines in the file, from 1."""

    file: str
    lines: NDArray[np.int64]
    columns: tuple[TextColumn, ...]

    @property
    def headings(self) -> tuple[str, ...]:
        """The headings in their order."""
        return tuple(column.heading for column in self.columns)

    def at(self, row: int, heading: str = "") -> Place:
        """Where a row, or a cell of it, stands."""
        return Place(self.file, int(self.lines[row]), heading or None)


def columns_of(rows: Rows) -> TextColumns:
    """The same table column by column."""
    return coded(rows.file, rows.headings, ((row.number, row.cells) for row in rows.rows))


def coded(file: str, headings: Sequence[str], lines: Lines) -> TextColumns:
    """Columns from numbered lines; blanks around a text go, empty lines too, short lines are filled up.

    Raises
    ------
    BadFile
        If a line has more cells than there are headings; the place names the line.
    """
    found: list[dict[str, int]] = [{} for _ in headings]
    numbers: list[NDArray[np.int64]] = []
    codes: list[list[Codes]] = [[] for _ in headings]
    for chunk in _chunks(iter(lines)):
        fitted = _fitted(chunk, headings, file)
        numbers.append(np.fromiter((number for number, _ in fitted), np.int64, len(fitted)))
        for index, cells in enumerate(zip(*(cells for _, cells in fitted), strict=True)):
            codes[index].append(_codes(cells, found[index]))
    return TextColumns(
        file,
        np.concatenate([np.zeros(0, np.int64), *numbers]),
        tuple(_stripped(*each) for each in zip(headings, found, codes, strict=True)),
    )


def _chunks(lines: Iterator[tuple[int, Sequence[str]]]) -> Iterator[list[tuple[int, Sequence[str]]]]:
    while chunk := list(islice(lines, _AT_ONCE)):
        yield chunk


def _fitted(
    chunk: list[tuple[int, Sequence[str]]], headings: Sequence[str], file: str
) -> list[tuple[int, Sequence[str]]]:
    width = len(headings)
    # Nearly always every line fits: one look at all of them spares a look at each.
    if {len(cells) for _, cells in chunk} == {width}:
        return chunk
    fitted: list[tuple[int, Sequence[str]]] = []
    for number, cells in chunk:
        if any(cell.strip() for cell in cells[width:]):
            raise BadFile(
                f"The line has {len(cells)} cells under {width} headings.",
                todo="Put cells that hold the delimiter in quotes.",
                where=Place(file, number),
            )
        if any(cell.strip() for cell in cells):
            fitted.append((number, (*cells[:width], *[""] * (width - len(cells)))))
    return fitted


def _codes(cells: Sequence[str], found: dict[str, int]) -> Codes:
    for text in dict.fromkeys(cells):
        found.setdefault(text, len(found))
    return np.fromiter(map(found.__getitem__, cells), np.int32, len(cells))


def _stripped(heading: str, found: dict[str, int], codes: list[Codes]) -> TextColumn:
    """Texts that differ only in the blanks around them are one."""
    joined = np.concatenate([np.zeros(0, np.int32), *codes])
    texts: dict[str, int] = {}
    onto = [texts.setdefault(text.strip(), len(texts)) for text in found]
    if len(texts) < len(found):
        joined = np.asarray(onto, np.int32)[joined]
    return TextColumn(heading, tuple(texts), joined)
