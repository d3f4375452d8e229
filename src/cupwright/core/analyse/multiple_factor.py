"""Multiple factor analysis: one map from several kinds of answers, none of which outweighs the others.

Every table is divided by its first singular value, so that points, words and colours each have at most
length 1 in any one direction; then the tables are joined and their principal components taken.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cupwright.core.analyse.axes import (
    NOTHING,
    centred,
    checked_names,
    checked_table,
    decomposed,
    parts_of_axes,
    shares_of,
    shown_by_axes,
)
from cupwright.core.analyse.pca import point_rows
from cupwright.core.analyse.rv import rv_matrix
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import NoSpread, Refused, TooFewObservations

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class MultipleFactor(Tabular):
    """One map of n coffees from g groups of columns, p in all; k axes.

    points (n, k)             where the groups together put each coffee; mean square: the eigenvalue
    partial_points (g, n, k)  where each group alone puts them; their mean over groups is `points`
    correlations (p, k)       of each column with each axis; `group_of` (p,) is its group
    eigenvalues (k,)          between 0 and g: g where all groups agree on an axis
    shares (k,)               of the whole spread
    group_shares (g, k)       part of each axis that comes from each group; columns add up to 1
    group_eigenvalues (g,)    first eigenvalue of each group's own table, by whose root it was divided
    agreement (g, g)          RV coefficients between the groups
    left_out                  groups without any spread
    """

    coffees: tuple[str, ...]
    groups: tuple[str, ...]
    points: Floats
    partial_points: Floats
    correlations: Floats
    group_of: tuple[str, ...]
    eigenvalues: Floats
    shares: Floats
    group_shares: Floats
    group_eigenvalues: Floats
    agreement: Floats
    contributions: Floats
    quality: Floats
    left_out: tuple[str, ...]

    def rows(self) -> list[Record]:
        """A row for each coffee: its place on every axis."""
        return point_rows(self.coffees, self.points)


def multiple_factor_analysis(
    groups: Mapping[str, ArrayLike],
    *,
    unscaled: Collection[str] = (),
    coffees: Sequence[str] = (),
) -> MultipleFactor:
    """Where do several kinds of answers together put the coffees?

    Parameters
    ----------
    groups : mapping of name -> float array, shape (n_coffees, p_group)
        For instance points, words (share of tasters who used each) and colours (OKLab).
    unscaled : names of groups
        Whose columns keep their own spread, because they share a unit; the columns of others get spread 1.
    coffees : sequence of str
        Names; counted from 1 if left out.

    Raises
    ------
    TooFewObservations
        If there is no group, or fewer than two coffees.
    Refused
        If groups have different numbers of coffees.
    IncompleteTable
        If a cell is missing.
    NoSpread
        If no group tells any two coffees apart.

    Notes
    -----
    Error: a description of these answers, no estimate. A group with a single axis of chance is lifted as high
    as one with much to say: leave out a group that only scatters.
    Source: [EscofierPages1994]; [AbdiWilliams2013]. Checked against the wines of the latter.
    """
    tables = _checked(groups, unscaled)
    n, firsts = len(next(iter(tables.values()))), _firsts(tables)
    weighted = [tables[name] / first for name, first in firsts.items()]
    left, singular, right = decomposed(np.hstack(weighted), most=n - 1)
    # Masses are 1/n, so places are sqrt(n) times the left vectors.
    points = np.sqrt(n) * left * singular
    edges = np.cumsum([0, *(table.shape[1] for table in weighted)])
    blocks = [right[start:end] for start, end in pairwise(edges)]
    partial = [len(firsts) * np.sqrt(n) * one @ part for one, part in zip(weighted, blocks, strict=True)]
    return MultipleFactor(
        coffees=checked_names(coffees, n, "coffee"),
        groups=tuple(firsts),
        points=points,
        partial_points=np.array(partial),
        correlations=_correlations(np.hstack([tables[name] for name in firsts]), left),
        group_of=tuple(name for name in firsts for _ in range(tables[name].shape[1])),
        eigenvalues=singular**2,
        shares=shares_of(singular**2, float(sum(np.sum(one**2) for one in weighted))),
        group_shares=np.array([np.sum(part**2, axis=0) for part in blocks]),
        group_eigenvalues=np.array(list(firsts.values())) ** 2,
        agreement=rv_matrix([tables[name] for name in firsts]),
        contributions=parts_of_axes(points, np.ones(n)),
        quality=shown_by_axes(points),
        left_out=tuple(name for name in tables if name not in firsts),
    )


def _firsts(tables: Mapping[str, Floats]) -> dict[str, float]:
    """First singular value of each table that has any spread."""
    firsts = {name: float(np.linalg.norm(table, ord=2)) for name, table in tables.items() if np.any(table)}
    if not firsts:
        raise NoSpread("No kind of answer tells any two coffees apart.", todo="There is no map to draw.")
    return firsts


def _checked(groups: Mapping[str, ArrayLike], unscaled: Collection[str]) -> dict[str, Floats]:
    """Every group centred, and its columns of length 1 where they are to be scaled."""
    if not groups:
        raise TooFewObservations("There is no kind of answer to map.", todo="Add answers.")
    unknown = sorted(set(unscaled) - set(groups))
    if unknown:
        raise Refused(f"There is no group '{unknown[0]}'.", todo=f"The groups are {', '.join(groups)}.")
    tables = {name: checked_table(table, rows="coffee", columns="column") for name, table in groups.items()}
    if len({len(table) for table in tables.values()}) > 1:
        raise Refused(
            "The groups have different numbers of coffees.", todo="Give all groups the same coffees."
        )
    return {name: _prepared(table, name not in unscaled) for name, table in tables.items()}


def _prepared(table: Floats, scaled: bool) -> Floats:
    about = centred(table)
    lengths = np.sqrt((about**2).sum(axis=0))
    alive = lengths > np.sqrt(NOTHING) * np.abs(table).max(axis=0)
    about = np.where(alive, about, 0.0)
    return np.asarray(about / np.where(alive, lengths, 1.0)) if scaled else about


def _correlations(columns: Floats, left: Floats) -> Floats:
    """Of centred columns with axes; 0 for a column without spread."""
    lengths = np.sqrt((columns**2).sum(axis=0))
    return np.asarray((columns / np.where(lengths > 0, lengths, 1.0)).T @ left)
