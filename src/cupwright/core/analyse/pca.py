"""Principal components: the two or three directions in which coffees differ most."""

from collections.abc import Sequence
from dataclasses import dataclass

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
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import NoSpread

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Pca(Tabular):
    """Coffees in the directions of most spread; n coffees, p attributes, k axes.

    points (n, k)         where each coffee lies; centred, in SDs of the attributes if they were scaled
    loadings (p, k)       the attributes' weights in each axis; columns of length 1
    correlations (p, k)   of each attribute with each axis
    eigenvalues (k,)      variance of the points along each axis, divisor n - 1
    shares (k,)           of the whole variance
    contributions (n, k)  share of each axis that comes from each coffee
    quality (n, k)        share of each coffee's distance from the middle that each axis shows
    left_out              attributes without any spread, which say nothing
    """

    coffees: tuple[str, ...]
    attributes: tuple[str, ...]
    points: Floats
    loadings: Floats
    correlations: Floats
    eigenvalues: Floats
    shares: Floats
    contributions: Floats
    quality: Floats
    scaled: bool
    left_out: tuple[str, ...] = ()

    def rows(self) -> list[Record]:
        """A row for each coffee: its place on every axis."""
        return point_rows(self.coffees, self.points)


def pca(
    table: ArrayLike,
    *,
    scale: bool = True,
    coffees: Sequence[str] = (),
    attributes: Sequence[str] = (),
) -> Pca:
    """In which directions do the coffees differ most?

    Parameters
    ----------
    table : float array, shape (n_coffees, n_attributes)
        Usually means over tasters. Every cell filled.
    scale : bool
        Give every attribute the same weight (the correlation matrix); else its own spread (covariances).
    coffees, attributes : sequences of str
        Names; counted from 1 if left out.

    Returns
    -------
    Pca
        At most min(n_coffees - 1, n_attributes) axes. The largest loading of each axis is positive.

    Raises
    ------
    TooFewObservations
        If there are fewer than two coffees.
    IncompleteTable
        If a cell is missing.
    NoSpread
        If no attribute differs between any two coffees.

    Notes
    -----
    Error: a description of this table, no estimate. Axes whose eigenvalues lie near each other may turn into
    each other in another table; `regions` says how sure the points are, `chance_axes` whether an axis is any
    more than chance makes.
    Source: [Pearson1901]; [Hotelling1933]. Checked against scikit-learn and [Husson2011].
    """
    values = checked_table(table, rows="coffee", columns="attribute")
    names = checked_names(attributes, values.shape[1], "attribute")
    about, deviations, spread = _spread(values)
    kept = about[:, spread] / (deviations[spread] if scale else 1.0)
    left, singular, loadings = decomposed(kept, most=len(values) - 1)
    points, eigenvalues = left * singular, singular**2 / (len(values) - 1)
    used = np.ones(int(spread.sum())) if scale else deviations[spread]
    return Pca(
        coffees=checked_names(coffees, len(values), "coffee"),
        attributes=tuple(name for name, kept in zip(names, spread, strict=True) if kept),
        points=points,
        loadings=loadings,
        correlations=loadings * np.sqrt(eigenvalues) / used[:, None],
        eigenvalues=eigenvalues,
        shares=shares_of(eigenvalues, float(np.sum(kept**2) / (len(values) - 1))),
        contributions=parts_of_axes(points, np.ones(len(values))),
        quality=shown_by_axes(points),
        scaled=scale,
        left_out=tuple(name for name, kept in zip(names, spread, strict=True) if not kept),
    )


def _spread(values: Floats) -> tuple[Floats, Floats, NDArray[np.bool_]]:
    """Columns less their means, their standard deviations, and which of these are more than rounding."""
    about = centred(values)
    deviations = np.sqrt((about**2).sum(axis=0) / (len(values) - 1))
    spread = deviations > np.sqrt(NOTHING) * np.abs(values).max(axis=0)
    if not spread.any():
        raise NoSpread("No attribute differs between any two coffees.", todo="There is no map to draw.")
    return about, deviations, spread


def point_rows(names: Sequence[str], points: Floats, what: str = "coffee") -> list[Record]:
    """A record for each point: its name and its place on every axis, counted from 1."""
    return [
        {what: name, **{f"axis_{axis}": float(place) for axis, place in enumerate(point, 1)}}
        for name, point in zip(names, points, strict=True)
    ]
