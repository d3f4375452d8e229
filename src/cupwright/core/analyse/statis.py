"""STATIS: a compromise of several tables in which a table weighs as much as it agrees with the others.

Convention: W_t = X_t X_t' of the centred table, divided by its length, so that all have the same spread;
the weights are the first eigenvector of the matrix of RV coefficients, scaled to add up to 1; the compromise
is the weighted sum of the W_t, and the map its eigenvectors times the roots of its eigenvalues.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cupwright.core.analyse.axes import NOTHING, checked_names, checked_table, pointing, shares_of
from cupwright.core.analyse.pca import point_rows
from cupwright.core.analyse.rv import products_of
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import Refused, TooFewObservations

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Statis(Tabular):
    """A compromise map of n coffees from t tables; k axes.

    agreement (t, t)            RV coefficients between tables; `agreement_eigenvalues` (t,) theirs
    weights (t,)                of each table in the compromise, adding up to 1
    points (n, k)               where the compromise puts each coffee
    partial_points (t, n, k)    where each table alone puts them; their weighted mean is `points`
    eigenvalues (k,), shares    of the compromise
    """

    coffees: tuple[str, ...]
    tables: tuple[str, ...]
    agreement: Floats
    agreement_eigenvalues: Floats
    weights: Floats
    points: Floats
    partial_points: Floats
    eigenvalues: Floats
    shares: Floats

    def rows(self) -> list[Record]:
        """A row for each coffee: its place on every axis."""
        return point_rows(self.coffees, self.points)


def statis(
    tables: Sequence[ArrayLike],
    *,
    coffees: Sequence[str] = (),
    named: Sequence[str] = (),
) -> Statis:
    """What do the tables have in common, and which of them go along with it?

    Parameters
    ----------
    tables : sequence of float arrays, each of shape (n_coffees, p_table)
        One a taster, or one a kind of answer. Centred here, not scaled.
    coffees, named : sequences of str
        Names of coffees and tables; counted from 1 if left out.

    Raises
    ------
    TooFewObservations
        If there are fewer than two tables or two coffees.
    NoSpread
        If all coffees of a table are alike.

    Notes
    -----
    The largest coordinate of each axis is positive.
    Error: the compromise leans to the majority: a single taster who is right is given the least weight.
    Source: [LavitEtAl1994]; [AbdiEtAl2012]. Checked against the wines of [AbdiWilliams2013].
    """
    if len(tables) < 2:
        raise TooFewObservations("A compromise needs two tables.", todo="Map the one table by itself.")
    products = np.array(
        [products_of(checked_table(one, rows="coffee", columns="column")) for one in _same(tables)]
    )
    flat = products.reshape(len(products), -1)
    agreement = flat @ flat.T
    values, vectors = np.linalg.eigh(agreement)
    weights = np.abs(vectors[:, -1]) / np.abs(vectors[:, -1]).sum()
    compromise = np.einsum("t,tij->ij", weights, products)
    own, axes = np.linalg.eigh(compromise)
    own, axes = own[::-1], axes[:, ::-1]
    kept = own > NOTHING * own.sum()
    own, axes = own[kept], axes[:, kept]
    axes = axes * pointing(axes)
    return Statis(
        coffees=checked_names(coffees, products.shape[1], "coffee"),
        tables=checked_names(named, len(products), "table"),
        agreement=np.clip(agreement, 0.0, 1.0),
        agreement_eigenvalues=values[::-1],
        weights=weights,
        points=axes * np.sqrt(own),
        partial_points=products @ (axes / np.sqrt(own)),
        eigenvalues=own,
        shares=shares_of(own, float(np.trace(compromise))),
    )


def _same(tables: Sequence[ArrayLike]) -> Sequence[ArrayLike]:
    lengths = {len(np.atleast_1d(np.asarray(table, dtype=float))) for table in tables}
    if len(lengths) > 1:
        raise Refused("The tables have different numbers of coffees.", todo="Give all the same coffees.")
    return tables
