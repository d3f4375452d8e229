"""Rows: a table of text as it was read from a file or pasted, before anybody interprets it."""

from dataclasses import dataclass

from cupwright.errors import BadFile, Place


@dataclass(frozen=True, slots=True)
class Row:
    """One line. `number` counts the file's lines from 1; `cells` are as many as there are headings."""

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Rows:
    """A heading line and the lines under it. `file` is the name a complaint gives."""

    file: str
    headings: tuple[str, ...]
    rows: tuple[Row, ...]

    def column(self, heading: str) -> int | None:
        """Index of the column with that heading (letter case and outer blanks do not count), or None."""
        wanted = _plain(heading)
        return next((i for i, h in enumerate(self.headings) if _plain(h) == wanted), None)

    def need(self, heading: str, *, todo: str) -> int:
        """Index of a column that has to be there.

        Raises
        ------
        BadFile
            If no column has that heading; the message names those that are there, then `todo`.
        """
        index = self.column(heading)
        if index is None:
            raise BadFile(
                f"There is no column '{heading}'; the columns are {', '.join(self.headings) or 'none'}.",
                todo=todo,
                where=Place(self.file, 1),
            )
        return index

    def at(self, row: Row, column: int) -> Place:
        """Where a cell stands, for a complaint."""
        return Place(self.file, row.number, self.headings[column])


def _plain(heading: str) -> str:
    return heading.strip().casefold().replace("_", " ")
