"""Procrustes: laying one arrangement of coffees onto another by shifting, turning and stretching."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cupwright.core.analyse.axes import NOTHING, centred, checked_names, checked_table, decomposed
from cupwright.core.analyse.pca import point_rows
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import NoSpread, Refused, TooFewObservations

Floats = NDArray[np.float64]

_MOST_ROUNDS, _SETTLED = 500, 1e-12


@dataclass(frozen=True, slots=True)
class Procrustes(Tabular):
    """One arrangement laid onto another.

    `disparity` in [0, 1]: what is left of the squared distances when both have length 1 and the second is
    turned and stretched as well as can be. `aligned` (n, p) is the second in the unit and place of the first;
    `rotation` (p, p) turns, `scale` stretches.
    """

    disparity: float
    rotation: Floats
    scale: float
    aligned: Floats


@dataclass(frozen=True, slots=True)
class GeneralisedProcrustes(Tabular):
    """Arrangements of t tasters laid onto their mean; n coffees, k axes.

    points (n, k)          the mean, turned to its own principal axes
    partial_points (t, n, k)   each taster's arrangement laid onto it
    consensus              share of the tasters' spread that is in the mean, in [0, 1]
    scales (t,)            how each was stretched: above 1 for one who uses little of the scale
    residuals (t,), coffee_residuals (n,)    squared distances from the mean; by taster, by coffee
    shares (k,)            of each axis in the spread of the mean
    """

    coffees: tuple[str, ...]
    tasters: tuple[str, ...]
    points: Floats
    partial_points: Floats
    consensus: float
    scales: Floats
    residuals: Floats
    coffee_residuals: Floats
    shares: Floats

    def rows(self) -> list[Record]:
        """A row for each coffee: its place on every axis."""
        return point_rows(self.coffees, self.points)


def procrustes(first: ArrayLike, second: ArrayLike, *, scaling: bool = True) -> Procrustes:
    """How far can the second arrangement be laid onto the first?

    Parameters
    ----------
    first, second : float arrays, shape (n_coffees, p)
        The narrower one is filled up with zero columns.
    scaling : bool
        Stretch the second as well as turn it.

    Raises
    ------
    TooFewObservations
        If there are fewer than two coffees.
    Refused
        If the tables have different numbers of coffees.
    NoSpread
        If all coffees of a table are alike.

    Notes
    -----
    Source: [Schoenemann1966]; [Gower1975]. Checked against scipy.spatial.
    """
    target, other = _widened([first, second])
    middle = checked_table(first, rows="coffee", columns="column").mean(axis=0)
    rotation, singular = turned_onto(other, target)
    size = float(np.sum(other**2))
    scale = singular / size if scaling else 1.0
    aligned = scale * other @ rotation
    moved = np.zeros(target.shape[1])
    moved[: len(middle)] = middle
    disparity = 1 - singular**2 / (size * float(np.sum(target**2)))
    return Procrustes(min(max(disparity, 0.0), 1.0), rotation, scale, aligned + moved)


def turned_onto(other: Floats, target: Floats) -> tuple[Floats, float]:
    """The turn (or mirroring) that brings `other` nearest to `target`, and the sum of singular values."""
    left, singular, right = np.linalg.svd(other.T @ target)
    return np.asarray(left @ right), float(singular.sum())


def generalised_procrustes(
    arrangements: Sequence[ArrayLike],
    *,
    scaling: bool = True,
    coffees: Sequence[str] = (),
    tasters: Sequence[str] = (),
) -> GeneralisedProcrustes:
    """What arrangement do the tasters have in common, whatever words or ends of the scale each of them uses?

    Parameters
    ----------
    arrangements : sequence of float arrays, each of shape (n_coffees, p_taster)
        One a taster; attributes may differ between tasters. Narrow ones are filled up with zero columns.
    scaling : bool
        Stretch each arrangement as well as turn it; the tasters' total spread stays as it is.
    coffees, tasters : sequences of str
        Names; counted from 1 if left out.

    Raises
    ------
    TooFewObservations
        If there are fewer than two tasters or two coffees.
    Refused
        If tasters have different numbers of coffees.
    NoSpread
        If a taster tells no coffees apart.

    Notes
    -----
    With `scaling`, every arrangement is brought to the same length first, so that `scales` is about how well
    it fits, not about the unit. Turns and stretches alternate until nothing moves.
    Error: turning finds agreement in chance as well: with few coffees and many attributes `consensus` is high
    for scores drawn by lot. Compare it with `rv_coefficient` and its p value.
    Source: [Gower1975]; the stretching [TenBerge1977]; start from the first arrangement.
    """
    if len(arrangements) < 2:
        raise TooFewObservations("A consensus needs two tasters.", todo="Map the one taster's scores.")
    tables = _widened(arrangements)
    if scaling:
        tables = [table / np.linalg.norm(table) for table in tables]
    laid, scales = _settled(tables, scaling)
    mean = laid.mean(axis=0)
    left, singular, axes = decomposed(mean)
    apart = laid - mean
    return GeneralisedProcrustes(
        coffees=checked_names(coffees, mean.shape[0], "coffee"),
        tasters=checked_names(tasters, len(tables), "taster"),
        points=left * singular,
        partial_points=laid @ axes,
        consensus=float(len(laid) * np.sum(mean**2) / np.sum(laid**2)),
        scales=scales,
        residuals=np.sum(apart**2, axis=(1, 2)),
        coffee_residuals=np.sum(apart**2, axis=(0, 2)),
        shares=singular**2 / np.sum(mean**2),
    )


def _settled(tables: Sequence[Floats], scaling: bool) -> tuple[Floats, Floats]:
    """The arrangements laid onto their mean, shape (t, n, p), and their stretches."""
    laid = np.array(tables)
    for index in range(1, len(laid)):
        laid[index] = laid[index] @ turned_onto(laid[index], laid[:index].mean(axis=0))[0]
    scales = np.ones(len(laid))
    left = np.inf
    for _ in range(_MOST_ROUNDS):
        for index in range(len(laid)):
            # Each onto the mean of the others: onto a mean that holds itself it would move too little.
            others = (laid.sum(axis=0) - laid[index]) / (len(laid) - 1)
            laid[index] = laid[index] @ turned_onto(laid[index], others)[0]
        if scaling:
            stretched = _stretches(laid)
            laid, scales = laid * stretched[:, None, None], scales * stretched
        now = float(np.sum((laid - laid.mean(axis=0)) ** 2))
        if left - now < _SETTLED:
            break
        left = now
    return laid, scales


def _stretches(laid: Floats) -> Floats:
    """[TenBerge1977]: the first eigenvector of the cosines, the total length kept."""
    flat = laid.reshape(len(laid), -1)
    lengths = np.linalg.norm(flat, axis=1)
    cosines = flat @ flat.T / np.outer(lengths, lengths)
    first = np.abs(np.linalg.eigh(cosines)[1][:, -1])
    return np.asarray(np.sqrt(np.sum(lengths**2)) * first / lengths)


def _widened(arrangements: Sequence[ArrayLike]) -> list[Floats]:
    """All centred and as wide as the widest."""
    tables = [checked_table(one, rows="coffee", columns="column") for one in arrangements]
    if len({len(table) for table in tables}) > 1:
        raise Refused("The tables have different numbers of coffees.", todo="Give all the same coffees.")
    for number, table in enumerate(tables, 1):
        if not np.sum(centred(table) ** 2) > NOTHING * np.sum(table**2):
            raise NoSpread(f"All coffees of table {number} are alike.", todo="Leave that table out.")
    widest = max(table.shape[1] for table in tables)
    return [np.pad(centred(table), ((0, 0), (0, widest - table.shape[1]))) for table in tables]
