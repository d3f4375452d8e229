"""Numbers in a column of text: read once for each different text, with a point or a comma for decimals."""

import re

import numpy as np

from cupwright.core.analyse.scores import Floats, Ints
from cupwright.core.analyse.text_columns import TextColumn, TextColumns
from cupwright.errors import BadFile

MISSING = frozenset({"", "na", "n/a", "nan", "null", "-", "\N{EN DASH}", "."})
_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d+)?", re.ASCII | re.IGNORECASE)
# Squares of larger and of smaller ones leave the range of a float.
_LARGEST = 1e100
_SMALLEST = 1e-100


def numbers_of(columns: TextColumns, column: TextColumn) -> Floats:
    """The column as numbers, shape (n,); NaN where it is blank or says NA.

    Raises
    ------
    BadFile
        If a text is no number, or if some decimals have a point and others a comma (then 1,234 could be
        either); the place names line and column.
    """
    read = np.full(len(column.texts), np.nan)
    marks: dict[str, int] = {}
    for code, text in enumerate(column.texts):
        if text.casefold() in MISSING:
            continue
        plain = text.replace("\N{MINUS SIGN}", "-")
        number = float(plain.replace(",", ".")) if _NUMBER.fullmatch(plain) else np.nan
        if not (number == 0 or _SMALLEST <= abs(number) <= _LARGEST):
            raise BadFile(
                f"'{text[:40]}' is not a number.",
                todo="Correct it, or leave the cell blank if there is no score.",
                where=columns.at(column.first(code), column.heading),
            )
        read[code] = number
        marks |= {mark: code for mark in ".," if mark in plain and mark not in marks}
    if len(marks) > 1:
        point, comma = (column.texts[marks[mark]] for mark in ".,")
        raise BadFile(
            f"Decimals are written in two ways: {point} and {comma}.",
            todo="Write all of them with a point, or all with a comma.",
            where=columns.at(column.first(max(marks.values())), column.heading),
        )
    return read[column.codes]


def ranks_of(column: TextColumn) -> Ints:
    """Where each row's text stands among all: by number if all are numbers, else as they come; shape (n,)."""
    try:
        order = sorted(range(len(column.texts)), key=lambda code: float(column.texts[code]))
    except ValueError:
        return column.codes.astype(np.int64)
    ranks = np.empty(len(order), np.int64)
    ranks[order] = np.arange(len(order))
    return ranks[column.codes]
