"""Axes: what all maps share, checking a table and fixing which way an axis points.

The sign of an axis is free. Here the largest loading on it is positive, so that the order of the coffees or
the tasters never turns a picture round.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cupwright.errors import IncompleteTable, NoSpread, Refused, TooFewObservations

Floats = NDArray[np.float64]

# Below this share of the whole an axis is what rounding leaves.
NOTHING = 1e-12
_TIED = 1e-7


def checked_table(values: ArrayLike, *, rows: str = "row", columns: str = "column", least: int = 2) -> Floats:
    """The table as floats, shape (n, p).

    Raises
    ------
    Refused
        If it is not two-dimensional.
    TooFewObservations
        If there are fewer than `least` rows or no column.
    IncompleteTable
        If a cell is missing or infinite.
    """
    table = np.array(values, dtype=float)
    if table.ndim != 2:
        raise Refused(
            f"A table has 2 dimensions, not {table.ndim}.",
            todo=f"Give one line a {rows}, one cell a {columns}.",
        )
    if table.shape[0] < least or not table.shape[1]:
        raise TooFewObservations(
            f"A map needs {least} {rows}s and a {columns}; here are {table.shape[0]} and {table.shape[1]}.",
            todo="Add to the table, or read it as it is.",
        )
    if not np.isfinite(table).all():
        row, column = np.argwhere(~np.isfinite(table))[0]
        raise IncompleteTable(
            f"{columns.capitalize()} {column + 1} of {rows} {row + 1} is missing.",
            todo=f"Drop that {rows} or that {columns} first.",
        )
    return table


def checked_names(given: Sequence[str], count: int, what: str) -> tuple[str, ...]:
    """The names, or numbers from 1 where there are none."""
    if given and len(given) != count:
        raise Refused(f"{count} {what}s have {len(given)} names.", todo=f"Give one name a {what}.")
    return tuple(given) or tuple(str(number) for number in range(1, count + 1))


def centred(table: Floats) -> Floats:
    """Every column less its mean."""
    return np.asarray(table - table.mean(axis=0))


def decomposed(table: Floats, *, most: int | None = None) -> tuple[Floats, Floats, Floats]:
    """Left vectors (n, k), singular values (k,) and right vectors (p, k) of the axes that carry anything.

    `most`: at most so many axes. The largest entry of each right vector is positive; of equal ones the first.

    Raises
    ------
    NoSpread
        If the table is zero.
    """
    left, values, right = np.linalg.svd(table, full_matrices=False)
    kept = values**2 > NOTHING * np.sum(values**2)
    if not kept.any():
        raise NoSpread("All rows of the table are alike.", todo="There is no map to draw.")
    count = int(kept.sum()) if most is None else min(int(kept.sum()), most)
    signs = pointing(right[:count].T)
    return left[:, :count] * signs, values[:count], right[:count].T * signs


def pointing(loadings: Floats) -> Floats:
    """The sign of each axis that makes its largest loading positive, shape (k,)."""
    size = np.abs(loadings)
    first = np.argmax(size >= (1 - _TIED) * size.max(axis=0), axis=0)
    return np.asarray(np.where(loadings[first, np.arange(loadings.shape[1])] < 0, -1.0, 1.0))


def shares_of(eigenvalues: Floats, total: float) -> Floats:
    """Each axis as a share of the whole spread."""
    return np.asarray(eigenvalues / total)


def parts_of_axes(points: Floats, masses: Floats) -> Floats:
    """How much of each axis comes from each point; columns add up to 1. Shape as `points`."""
    weighted = masses[:, None] * points**2
    return np.asarray(weighted / weighted.sum(axis=0))


def shown_by_axes(points: Floats) -> Floats:
    """How much of each point's distance from the middle lies along each axis; rows add up to 1.

    0 for a point in the very middle.
    """
    squares = points**2
    whole = squares.sum(axis=1, keepdims=True)
    return np.asarray(np.divide(squares, whole, out=np.zeros_like(squares), where=whole > 0))
