"""The part of a table without holes: for statistics that need every cell."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.scores import Scores, scores_of
from cupwright.errors import TooFewObservations

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class CompleteTable:
    """One score for every coffee and taster, shape (n_coffees, n_tasters), and who was left out for a hole.

    Coffees and tasters without a single score are neither used nor counted as left out. `repeats` is the
    largest number of scores that one cell is the mean of.
    """

    values: Floats
    coffees: tuple[str, ...]
    tasters: tuple[str, ...]
    coffees_left_out: tuple[str, ...] = ()
    tasters_left_out: tuple[str, ...] = ()
    repeats: int = 1


def complete_table(scores: Scores | Floats) -> CompleteTable:
    """The coffees and tasters that make a table without holes.

    Parameters
    ----------
    scores : Scores, or float array of shape (n_coffees, n_tasters[, n_repeats])
        NaN where there is no score. Repeats of one cell are averaged.

    Returns
    -------
    CompleteTable
        Whoever has the largest share of holes goes first, all with the same share together, a taster before
        a coffee. So the names do not matter, and one taster who left early costs one taster.

    Raises
    ------
    TooFewObservations
        If fewer than two coffees or two tasters are left.
    """
    if isinstance(scores, np.ndarray) and scores.ndim == 2 and scores.size and np.isfinite(scores).all():
        table = CompleteTable(scores.astype(float), _numbered(len(scores)), _numbered(scores.shape[1]))
    else:
        table = _without_holes(scores_of(scores))
    n, k = table.values.shape
    if n < 2 or k < 2:
        raise TooFewObservations(
            f"Agreement needs 2 coffees and 2 tasters who scored them all; here are {n} and {k}.",
            todo="Add scores, or read the table itself.",
        )
    return table


def _numbered(count: int) -> tuple[str, ...]:
    return tuple(map(str, range(1, count + 1)))


def _without_holes(scores: Scores) -> CompleteTable:
    there = scores.counts > 0
    scored_rows, scored_columns = np.asarray(there.any(axis=1)), np.asarray(there.any(axis=0))
    rows, columns = _kept(there, scored_rows, scored_columns)
    return CompleteTable(
        values=scores.means[np.ix_(rows, columns)],
        coffees=_named(scores.coffees, rows),
        tasters=_named(scores.tasters, columns),
        coffees_left_out=_named(scores.coffees, scored_rows & ~rows),
        tasters_left_out=_named(scores.tasters, scored_columns & ~columns),
        repeats=int(scores.counts.max(initial=1)),
    )


def _kept(there: Bools, rows: Bools, columns: Bools) -> tuple[Bools, Bools]:
    rows, columns = rows.copy(), columns.copy()
    while (left := there[np.ix_(rows, columns)]).size and not left.all():
        by_row, by_column = 1 - left.mean(axis=1), 1 - left.mean(axis=0)
        # Shares are compared as fractions of whole numbers: a hair of rounding must not part two equals.
        if by_column.max() >= by_row.max() - 1e-9:
            columns[np.flatnonzero(columns)[by_column > by_column.max() - 1e-9]] = False
        else:
            rows[np.flatnonzero(rows)[by_row > by_row.max() - 1e-9]] = False
    return rows, columns


def _named(names: tuple[str, ...], chosen: Bools) -> tuple[str, ...]:
    return tuple(name for name, one in zip(names, chosen, strict=True) if one)
