"""Correspondence analysis: which words go with which coffees, in two dimensions.

Letters as in [Greenacre2007]: P the table over its sum, r and c its row and column masses,
S = (P - rc') / sqrt(rc') the standardised residuals.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cupwright.core.analyse.axes import (
    checked_names,
    checked_table,
    decomposed,
    pointing,
    shares_of,
    shown_by_axes,
)
from cupwright.core.analyse.pca import point_rows
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import IncompleteTable, Refused

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Correspondence(Tabular):
    """Rows (coffees) and columns (words) in principal coordinates; k axes.

    row_points, column_points (n, k)   distances between two rows, or two columns, are chi-square distances
    row_masses, column_masses (n,)     share of all counts
    inertias (k,), shares (k,)         spread along each axis, and as a share of `total_inertia`
    row_contributions, ...             share of each axis that comes from each row, column
    row_quality, ...                   share of each point's distance from the middle that each axis shows
    extra_row_points, ...              points laid onto the map afterwards; they did not shape it
    """

    rows_named: tuple[str, ...]
    columns_named: tuple[str, ...]
    row_points: Floats
    column_points: Floats
    row_masses: Floats
    column_masses: Floats
    inertias: Floats
    shares: Floats
    total_inertia: float
    chi_square: float
    freedom: int
    row_contributions: Floats
    column_contributions: Floats
    row_quality: Floats
    column_quality: Floats
    extra_row_points: Floats
    extra_column_points: Floats

    def rows(self) -> list[Record]:
        """A row for each point, coffees first: its name, its role and its place on every axis."""
        named = (
            ("coffee", self.rows_named, self.row_points),
            ("word", self.columns_named, self.column_points),
        )
        return [
            {"role": role, **row}
            for role, names, points in named
            for row in point_rows(names, points, "name")
        ]


def correspondence(
    counts: ArrayLike,
    *,
    coffees: Sequence[str] = (),
    words: Sequence[str] = (),
    extra_rows: ArrayLike | None = None,
    extra_columns: ArrayLike | None = None,
) -> Correspondence:
    """Which words go with which coffees more than their common use explains?

    Parameters
    ----------
    counts : array, shape (n_coffees, n_words)
        Not negative; how many tasters used the word for the coffee, or any other frequencies.
    coffees, words : sequences of str
        Names; counted from 1 if left out.
    extra_rows, extra_columns : arrays, shapes (m, n_words) and (n_coffees, m), optional
        Laid onto the finished map without shaping it.

    Returns
    -------
    Correspondence
        At most min(n_coffees, n_words) - 1 axes. The largest standard coordinate of a word is positive.

    Raises
    ------
    TooFewObservations, IncompleteTable, Refused
        As `checked_counts`.
    NoSpread
        If every coffee has the words in the same proportion.

    Notes
    -----
    `chi_square` is the total inertia times the sum of all counts. It has the chi-square distribution only if
    counts are independent; tasters who each use several words are not (see `cochran_q`).
    Error: a description. A word that was used once lies far out and weighs little: read the contributions.
    Source: [Benzecri1973]; [Greenacre2007]. Checked against [Greenacre1984].
    """
    columns = None if extra_columns is None else np.asarray(extra_columns, float).T
    return _mapped(checked_counts(counts), (coffees, words), (extra_rows, columns))


def _mapped(
    table: Floats,
    named: tuple[Sequence[str], Sequence[str]],
    extra: tuple[ArrayLike | None, ArrayLike | None],
) -> Correspondence:
    """The map of checked counts; added columns come turned, one a row."""
    shares = table / table.sum()
    r, c = shares.sum(axis=1), shares.sum(axis=0)
    residuals = (shares - np.outer(r, c)) / np.sqrt(np.outer(r, c))
    left, singular, right = _axes(residuals, c)
    inertia = float(np.sum(residuals**2))
    row_points, column_points = (
        side * singular / np.sqrt(mass)[:, None] for side, mass in ((left, r), (right, c))
    )
    return Correspondence(
        rows_named=checked_names(named[0], len(r), "coffee"),
        columns_named=checked_names(named[1], len(c), "word"),
        row_points=row_points,
        column_points=column_points,
        row_masses=r,
        column_masses=c,
        inertias=singular**2,
        shares=shares_of(singular**2, inertia),
        total_inertia=inertia,
        chi_square=inertia * float(table.sum()),
        freedom=(len(r) - 1) * (len(c) - 1),
        row_contributions=left**2,
        column_contributions=right**2,
        row_quality=shown_by_axes(row_points),
        column_quality=shown_by_axes(column_points),
        extra_row_points=_laid_on(extra[0], column_points / singular, len(c)),
        extra_column_points=_laid_on(extra[1], row_points / singular, len(r)),
    )


def _axes(residuals: Floats, masses: Floats) -> tuple[Floats, Floats, Floats]:
    """The decomposition; signs by standard coordinates, in which a rare word counts like a common one."""
    left, singular, right = decomposed(residuals, most=min(residuals.shape) - 1)
    signs = pointing(right / np.sqrt(masses)[:, None])
    return left * signs, singular, right * signs


def checked_counts(counts: ArrayLike) -> Floats:
    """Counts that a map can be made of.

    Raises
    ------
    TooFewObservations
        If there are fewer than two coffees or no word.
    IncompleteTable
        If a coffee or a word has no count at all.
    Refused
        If a count is negative.
    """
    table = checked_table(counts, rows="coffee", columns="word")
    if (table < 0).any():
        raise Refused("A count is negative.", todo="Correct it.")
    for axis, what in ((1, "Coffee"), (0, "Word")):
        empty = np.flatnonzero(table.sum(axis=axis) == 0)
        if len(empty):
            raise IncompleteTable(
                f"{what} {empty[0] + 1} has no count at all.", todo=f"Leave that {what.lower()} out."
            )
    return table


def _laid_on(extra: ArrayLike | None, standard: Floats, width: int) -> Floats:
    """Profiles as points: each the mean of the other side's standard coordinates, weighted by its counts."""
    if extra is None:
        return np.empty((0, standard.shape[1]))
    profiles = np.array(extra, dtype=float)
    if profiles.ndim != 2 or profiles.shape[1] != width:
        raise Refused(f"An added line has another length than {width}.", todo="Give one count a point.")
    sums = profiles.sum(axis=1, keepdims=True)
    if (sums <= 0).any():
        raise IncompleteTable("An added line has no count at all.", todo="Leave it out.")
    return np.asarray(profiles / sums @ standard)
