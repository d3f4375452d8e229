"""Regions on maps: do they hold the true map, and are axes and pairs found where there is nothing?

The truth is the map of the means of all tasters of the sort, turned onto the drawn map. Panels on which no
axis is longer than chance makes it get no regions in a report, and count as silent here.
"""

from collections.abc import Callable, Iterator
from itertools import product

import numpy as np
from numpy.typing import NDArray
from parts.covered import Covered, counted

from cupwright.core.analyse.axes import decomposed
from cupwright.core.analyse.axis_chance import axes_beyond_chance
from cupwright.core.analyse.correspondence import correspondence
from cupwright.core.analyse.procrustes import turned_onto
from cupwright.core.analyse.regions import (
    FEWEST_COFFEES,
    FEWEST_TASTERS,
    FEWEST_WRITERS,
    FEWEST_WRITTEN,
    Regions,
    correspondence_regions,
    map_regions,
)
from cupwright.errors import NoSpread

Floats = NDArray[np.float64]
One = Callable[[np.random.Generator], Iterator[bool]]

SIZES = ((3, 3), (3, 4), (4, 5), (3, 6), (4, 6), (6, 6), (8, 8), (12, 10))
DRAWS, DEALS, WORDS = 300, 99, 12


def covered(panels: int) -> Iterator[Covered]:
    """Regions of points and of words, at the sizes that get any; axes and pairs under no difference."""
    for coffees, tasters in SIZES:
        size = f"{coffees} x {tasters}"
        yield counted("first axis, p <= .05", size, panels, _first_axis(coffees, tasters), goal=(0.03, 0.06))
        if tasters < FEWEST_TASTERS or coffees < FEWEST_COFFEES:
            continue
        yield counted("equal pair, p <= .05", size, panels, _equal_pair(coffees, tasters), goal=(0.0, 0.06))
        for columns, spread in product((3, 8), (0.5, 1.0, 2.0)):
            name = f"region, {columns} attributes, spread {spread:g}"
            yield counted(name, size, panels, _points(coffees, tasters, columns, spread))
        if tasters >= FEWEST_WRITERS and coffees >= FEWEST_WRITTEN:
            yield counted(f"region, {WORDS} words", size, panels, _words(coffees, tasters))


def _panel(rng: np.random.Generator, shape: tuple[int, int, int], spread: float) -> tuple[Floats, Floats]:
    """True means in two directions, and scores about them with correlated scatter and levels of tasters."""
    tasters, coffees, columns = shape
    truth = spread * rng.normal(size=(coffees, 2)) @ rng.normal(size=(2, columns))
    mixed = 0.7 * (np.eye(columns) + rng.normal(size=(columns, columns)) / np.sqrt(columns))
    scatter = rng.normal(size=shape) @ mixed
    return truth - truth.mean(axis=0), truth + scatter + rng.normal(size=(tasters, 1, columns))


def _points(coffees: int, tasters: int, columns: int, spread: float) -> One:
    def one(rng: np.random.Generator) -> Iterator[bool]:
        truth, values = _panel(rng, (tasters, coffees, columns), spread)
        unit = values.mean(axis=0).std(axis=0, ddof=1)
        regions = map_regions(values / unit, draws=DRAWS, rng=rng)
        _refuse_chance(values / unit, rng)
        left, singular, _ = decomposed(truth / unit)
        return _held(regions, left[:, :2] * singular[:2])

    return one


def _words(coffees: int, tasters: int) -> One:
    def one(rng: np.random.Generator) -> Iterator[bool]:
        fitting = rng.normal(-0.8, 0.7, WORDS) + 1.2 * rng.normal(size=(coffees, 2)) @ rng.normal(
            size=(2, WORDS)
        )
        habits = rng.normal(0, 0.8, (2000, 1, WORDS))
        habits -= habits.mean(axis=0)
        truth = (1 / (1 + np.exp(-fitting - habits))).mean(axis=0)
        own = rng.normal(0, 0.8, (tasters, 1, WORDS))
        used = rng.random((tasters, coffees, WORDS)) < 1 / (1 + np.exp(-fitting - own))
        said = used.any(axis=(0, 1))
        regions = correspondence_regions(used[:, :, said], draws=DRAWS, rng=rng)
        _refuse_chance(used[:, :, said].astype(float), rng)
        return _held(regions, correspondence(truth[:, said]).row_points[:, :2])

    return one


def _held(regions: Regions, truth: Floats) -> Iterator[bool]:
    return iter(regions.holds(truth @ turned_onto(truth, regions.centres)[0]).tolist())


def _refuse_chance(values: Floats, rng: np.random.Generator) -> None:
    if axes_beyond_chance(values, deals=DEALS, rng=rng)[0] > 0.05:
        raise NoSpread("No axis is longer than chance makes it.")


def _first_axis(coffees: int, tasters: int) -> One:
    def one(rng: np.random.Generator) -> Iterator[bool]:
        _, values = _panel(rng, (tasters, coffees, 4), 0.0)
        yield bool(axes_beyond_chance(values, deals=DEALS, rng=rng)[0] <= 0.05)

    return one


def _equal_pair(coffees: int, tasters: int) -> One:
    """The first two coffees are the same; how often are they told apart, all pairs allowed for?"""

    def one(rng: np.random.Generator) -> Iterator[bool]:
        truth, values = _panel(rng, (tasters, coffees, 4), 1.0)
        values[:, 1] += truth[0] - truth[1]
        regions = map_regions(values, draws=DRAWS, rng=rng)
        yield bool(regions.apart[0, 1] <= 0.05)

    return one
