"""Regions: how far the places on a map might lie elsewhere with other tasters of the same sort.

Tasters are drawn again with replacement, each draw gives a map, and every map is turned onto the one that is
drawn (Procrustes, without stretching). An ellipse comes from the spread of a coffee's places over the draws.

Letters: T tasters, C coffees, k = 2 axes, nu = (T - 1)(C - 1) degrees of freedom.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import fdtrc, fdtri

from cupwright.core.analyse.axes import NOTHING, decomposed
from cupwright.core.analyse.correspondence import correspondence
from cupwright.core.analyse.holm import holm
from cupwright.core.analyse.resamples import DRAWS, generator, resample_weights
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import IncompleteTable, NoSpread, Refused, TooFewObservations

Floats = NDArray[np.float64]
Mapped = Callable[[Floats], Floats]

FEWEST_TASTERS, FEWEST_COFFEES = 4, 3
# Of words regions held the truth 82 times in 100 with 3 coffees and 6 tasters, 88 times with 3 and 4, 92
# times with 4 and 5: single words are ragged.
FEWEST_WRITERS, FEWEST_WRITTEN = 6, 4
AXES = 2
_RING = 48


@dataclass(frozen=True, slots=True)
class Regions(Tabular):
    """Where each coffee might lie; C coffees on 2 axes.

    centres (C, 2)          the places on the map
    covariances (C, 2, 2)   how they move when tasters are drawn again
    stretch                 of the ellipse: squared length in units of the covariance
    apart (C, C)            p value, adjusted for all pairs, that all answers put two in one place
    level                   coverage of each region by itself
    """

    coffees: tuple[str, ...]
    centres: Floats
    covariances: Floats
    stretch: float
    apart: Floats
    level: float
    tasters: int

    def rows(self) -> list[Record]:
        """A row for each coffee: its centre and the half axes of its region."""
        return [
            {
                "coffee": name,
                "x": float(x),
                "y": float(y),
                "longest": float(axes[1]),
                "shortest": float(axes[0]),
            }
            for name, (x, y), axes in zip(self.coffees, self.centres, self._half_axes(), strict=True)
        ]

    def ring(self, coffee: int) -> Floats:
        """The edge of a coffee's region, shape (48, 2)."""
        turns = np.linspace(0, 2 * np.pi, _RING, endpoint=False)
        values, vectors = np.linalg.eigh(self.covariances[coffee])
        half = np.sqrt(np.clip(values, 0, None) * self.stretch)
        return np.asarray(
            self.centres[coffee] + (np.column_stack([np.cos(turns), np.sin(turns)]) * half) @ vectors.T
        )

    def holds(self, places: Floats) -> NDArray[np.bool_]:
        """Whether each coffee's region holds its place, given as (C, 2)."""
        off = np.asarray(places, dtype=float) - self.centres
        far = np.einsum("ci,cij,cj->c", off, np.linalg.pinv(self.covariances), off)
        return np.asarray(far <= self.stretch)

    def _half_axes(self) -> Floats:
        values = np.clip(np.linalg.eigvalsh(self.covariances), 0, None)
        return np.asarray(np.sqrt(values * self.stretch))


@dataclass(frozen=True, slots=True)
class _Asked:
    """What the caller wants: names, coverage, how many draws, from which source of chance."""

    coffees: tuple[str, ...]
    level: float
    draws: int
    rng: np.random.Generator | None


def map_regions(
    values: ArrayLike,
    *,
    coffees: tuple[str, ...] = (),
    level: float = 0.95,
    draws: int = DRAWS,
    rng: np.random.Generator | None = None,
) -> Regions:
    """How sure are the places of the coffees on the map of the tasters' means?

    Parameters
    ----------
    values : float array, shape (n_tasters, n_coffees, n_columns)
        In the units that the map is made in: scaled and weighted before. A taster's own level is taken out.
    coffees : names; counted from 1 if left out.
    level : float in (0, 1)
        Coverage of each region.
    draws : int
        How many resamples of the tasters.
    rng : numpy Generator, optional
        Source of chance; a fixed one if left out.

    Raises
    ------
    TooFewObservations
        Below 4 tasters or 3 coffees: the spread over tasters is then not known well enough for a region.
    IncompleteTable
        If a cell is missing.
    NoSpread
        If the coffees differ in one direction only, or no taster differs from another.

    Notes
    -----
    Method: covariance over the draws times T/(T - 1), half of it the coffee's own and half the mean of all
    coffees (with 4 tasters its own alone would be known from 3 degrees of freedom); squared length
    k nu / (nu - k + 1) times the quantile of F with k and nu - k + 1 degrees of freedom.
    Projecting the draws onto the axes of the one map, without turning, takes the axes for known; it
    leaves out what choosing them does, and held the truth in as few as 85 of 100 simulated panels.
    Error: "the truth" is the map of the means of all such tasters, turned onto this one. How often regions
    held it in simulated panels stands in docs/methods/map_regions.md: 94 to 96 times in 100 with few
    attributes, 96 to 99 with many. Do not draw regions where `axes_beyond_chance` finds no axis.
    Source: [EfronTibshirani1993]; Hotelling's T², [Hotelling1931]; the turning, [Schoenemann1966].
    """
    table = _checked(values)
    means = table.mean(axis=0)
    left, singular, _ = decomposed(means)
    if len(singular) < AXES:
        raise NoSpread("The coffees differ in one direction only.", todo="Read them along that line.")
    centres = left[:, :AXES] * singular[:AXES]
    flat = table.reshape(len(table), -1)

    def mapped(weights: Floats) -> Floats:
        drawn = (weights @ flat).reshape(len(weights), *means.shape)
        return _leading(drawn @ drawn.swapaxes(1, 2))

    return _regions(mapped, centres, table, _Asked(coffees, level, draws, rng))


def correspondence_regions(
    used: ArrayLike,
    *,
    coffees: tuple[str, ...] = (),
    level: float = 0.95,
    draws: int = DRAWS,
    rng: np.random.Generator | None = None,
) -> Regions:
    """How sure are the places of the coffees on the map of their words?

    Parameters
    ----------
    used : array, shape (n_tasters, n_coffees, n_words)
        1 where the taster used the word for the coffee, else 0; or counts.
    coffees, level, draws, rng
        As in `map_regions`.

    Raises
    ------
    TooFewObservations
        Below 6 tasters or 4 coffees; and as `correspondence` for the table of all tasters together.
    NoSpread
        As `map_regions`, and as `correspondence`.

    Notes
    -----
    As `map_regions`, each draw with its own masses. Draws in which a coffee has no word at all are left out.
    Error: with a handful of words a coffee the chi-square distances of a draw are far more ragged than those
    of the table, and regions come out wide.
    Source: as `map_regions`; [Greenacre2007].
    """
    table = _checked(used, words=True)
    found = correspondence(table.sum(axis=0))
    if len(found.inertias) < AXES:
        raise NoSpread("The coffees differ in one direction only.", todo="Read them along that line.")
    flat, shape = table.reshape(len(table), -1), table.shape[1:]

    def mapped(weights: Floats) -> Floats:
        counts = (weights @ flat).reshape(len(weights), *shape)
        counts = counts[(counts.sum(axis=2) > 0).all(axis=1)]
        shares = counts / counts.sum(axis=(1, 2), keepdims=True)
        r, c = shares.sum(axis=2, keepdims=True), shares.sum(axis=1, keepdims=True)
        expected = r * c
        seen = expected > 0
        roots = np.sqrt(np.where(seen, expected, 1.0))
        residuals = np.where(seen, shares - expected, 0.0) / roots
        return np.asarray(_leading(residuals @ residuals.swapaxes(1, 2)) / np.sqrt(r))

    asked = _Asked(coffees, level, draws, rng)
    return _regions(mapped, found.row_points[:, :AXES], _by_taster(table), asked)


def _checked(values: ArrayLike, *, words: bool = False) -> Floats:
    table = np.array(values, dtype=float)
    if table.ndim != 3:
        raise Refused(
            "Regions need an array of tasters, coffees and columns.", todo="Give one table a taster."
        )
    tasters, coffees, _ = table.shape
    fewest, least = (FEWEST_WRITERS, FEWEST_WRITTEN) if words else (FEWEST_TASTERS, FEWEST_COFFEES)
    if tasters < fewest or coffees < least:
        raise TooFewObservations(
            f"Regions need {fewest} tasters and {least} coffees; here are {tasters} and {coffees}.",
            todo="Read the places without them, as a picture of this one table.",
        )
    if not np.isfinite(table).all():
        taster, coffee, _ = np.argwhere(~np.isfinite(table))[0]
        raise IncompleteTable(
            f"Taster {taster + 1} did not answer everything about coffee {coffee + 1}.",
            todo="Drop that taster first.",
        )
    return np.asarray(table - table.mean(axis=1, keepdims=True)) if not words else table


def _by_taster(used: Floats) -> Floats:
    """Every taster's part of the standardised profiles: their mean over tasters has chi-square distances."""
    counts = used.sum(axis=0)
    rows, columns = counts.sum(axis=1)[:, None], counts.sum(axis=0) / counts.sum()
    expected = used.sum(axis=2, keepdims=True) * columns
    return np.asarray((used - expected) / (rows / len(used)) / np.sqrt(columns))


def _leading(products: Floats) -> Floats:
    """Places on the first two axes from products between coffees; batches of (C, C) give (C, 2)."""
    values, vectors = np.linalg.eigh(products)
    first = np.clip(values[:, None, : -AXES - 1 : -1], 0, None)
    return np.asarray(vectors[:, :, : -AXES - 1 : -1] * np.sqrt(first))


def _regions(mapped: Mapped, centres: Floats, values: Floats, asked: _Asked) -> Regions:
    tasters = len(values)
    drawn = mapped(resample_weights(tasters, asked.draws, generator(asked.rng)) / tasters)
    if 2 * len(drawn) <= asked.draws:
        raise TooFewObservations(
            "Too few tasters wrote about every coffee.", todo="Read the places without regions."
        )
    left, _, right = np.linalg.svd(drawn.swapaxes(1, 2) @ centres)
    off = drawn @ (left @ right)
    off = (off - off.mean(axis=0)) * np.sqrt(tasters / (tasters - 1))
    covariances = _pooled(np.einsum("bci,bcj->cij", off, off) / len(off))
    if len(centres) - 1 == AXES:
        # Three coffees move in 4 ways on their map, and the turn took one; with more, what lies beyond the
        # two axes moves them at least as much.
        covariances = covariances * 4 / 3
    if not np.trace(covariances, axis1=1, axis2=2).sum() > NOTHING * np.sum(centres**2):
        raise NoSpread("No taster differs from another.", todo="Nothing is left to draw; look at the places.")
    freedom = (tasters - 1) * (len(centres) - 1)
    return Regions(
        coffees=asked.coffees or tuple(str(number) for number in range(1, len(centres) + 1)),
        centres=centres,
        covariances=covariances,
        stretch=_stretch(freedom) * float(fdtri(AXES, freedom - AXES + 1, asked.level)),
        apart=_apart(values),
        level=asked.level,
        tasters=tasters,
    )


def _pooled(covariances: Floats) -> Floats:
    return np.asarray((covariances + covariances.mean(axis=0)) / 2)


def _stretch(freedom: int) -> float:
    """What turns F into Hotelling's T²."""
    return AXES * freedom / (freedom - AXES + 1)


def _apart(values: Floats) -> Floats:
    """Of every two coffees the p value that all answers put them in one place, adjusted [Holm1979].

    Squared distance against the tasters' disagreement, over all columns: the two axes of a map were chosen
    for what is far apart on them. Degrees of freedom as for a sum of unequal chi-squares [Box1954].
    """
    tasters, coffees, _ = values.shape
    means = values.mean(axis=0)
    residual = values - means
    residual = (residual - residual.mean(axis=1, keepdims=True)).reshape(tasters * coffees, -1)
    freedom = (tasters - 1) * (coffees - 1)
    # Products on the shorter side have the same traces.
    products = residual.T @ residual if residual.shape[0] > residual.shape[1] else residual @ residual.T
    trace, squares = float(np.trace(products)) / freedom, float(np.sum(products**2)) / freedom**2
    first, second = np.triu_indices(coffees, 1)
    ratio = np.sum((means[first] - means[second]) ** 2, axis=1) * tasters / (2 * trace)
    ways = _effective(trace, squares, freedom, min(values.shape[2], freedom))
    found = np.ones((coffees, coffees))
    p_values = [float(one) for one in fdtrc(ways, ways * freedom, ratio)]
    found[first, second] = found[second, first] = holm(p_values)
    return found


def _effective(trace: float, squares: float, freedom: int, most: int) -> float:
    """tr(S)^2 / tr(S^2), less the part of tr(S^2) that comes from estimating S."""
    unbiased = freedom**2 / ((freedom - 1) * (freedom + 2)) * (squares - trace**2 / freedom)
    return float(np.clip(trace**2 / unbiased, 1.0, most)) if unbiased > 0 else float(most)
