"""Tasters: do the intervals of each measure hold the truth, from 3 coffees and 3 tasters to 12 and 10?"""

from collections.abc import Callable, Iterator

import numpy as np
from parts.covered import Covered, counted

from cupwright.core.analyse.finding import Finding
from cupwright.core.analyse.scores import Scores
from cupwright.core.analyse.taster_record import pool_records, taster_records
from cupwright.core.analyse.tasters import FEWEST_FOR_LINE, TasterPerformance, taster_performance
from cupwright.errors import TooFewObservations

# Standard deviations of coffees, of tastes (coffee by taster) and of a repeat.
COFFEE, TASTE, REPEAT = 1.5, 0.6, 0.5
SIZES = ((3, 3, 2), (4, 3, 2), (5, 2, 2), (6, 5, 2), (12, 10, 2))
# These are silent with three coffees.
_LINES = ("slope on the rest", "agreement")
Panel = tuple[Scores, np.ndarray]
Judge = Callable[[TasterPerformance, np.ndarray], tuple[Finding, float]]


def covered(panels: int) -> Iterator[Covered]:
    """Each measure of taster 1, filled tables and one with holes; and levels pooled over tables."""
    for size in SIZES:
        for name, judge in _MEASURES.items():
            if size[0] >= FEWEST_FOR_LINE or name not in _LINES:
                yield counted(name, "x".join(map(str, size)), panels, _held(size, judge))
    for name, judge in _MEASURES.items():
        yield counted(f"{name}, a fifth missing", "8x6x2", panels, _held((8, 6, 2), judge, missing=0.2))
    for tables in (2, 4, 8):
        yield counted("level pooled over tables", f"{tables} of 5x4x1", panels, _pooled(tables))


def _panel(rng: np.random.Generator, size: tuple[int, int, int], missing: float, shift: float = 0.0) -> Panel:
    coffees, tasters, repeats = size
    levels = rng.normal(0, 1, tasters)
    levels[0] += shift
    cells = rng.normal(80, COFFEE, (coffees, 1)) + levels + rng.normal(0, TASTE, (coffees, tasters))
    values = cells[:, :, None] + rng.normal(0, REPEAT, size)
    place = np.argsort(rng.random((tasters, coffees * repeats)), axis=1)
    position = place.reshape(tasters, coffees, repeats).transpose(1, 0, 2) + 1.0
    values += np.where(np.arange(tasters)[None, :, None] == 0, DRIFT * position, 0.0)
    keep = rng.random(size) >= missing
    coffee, taster, repeat = np.nonzero(keep)
    names = tuple(map(str, range(coffees))), tuple(map(str, range(tasters)))
    return Scores(*names, coffee, taster, values[keep], repeat, position=position[keep]), levels


DRIFT = 0.0
_CELL = TASTE**2 + REPEAT**2 / 2


def _rest_variance(tasters: int) -> float:
    return COFFEE**2 + _CELL / (tasters - 1)


_MEASURES: dict[str, Judge] = {
    "repeatability": lambda one, _: (one.repeatability, REPEAT),
    "level against the rest": lambda one, levels: (one.bias, float(levels[0] - levels[1:].mean())),
    "slope on the rest": lambda one, levels: (one.slope, COFFEE**2 / _rest_variance(len(levels))),
    "separation": lambda one, _: (
        one.separation,
        (COFFEE**2 + TASTE**2) / (COFFEE**2 + TASTE**2 + REPEAT**2),
    ),
    "agreement": lambda one, levels: (
        one.agreement,
        COFFEE**2 / float(np.sqrt((COFFEE**2 + _CELL) * _rest_variance(len(levels)))),
    ),
    "distance from the rest": lambda one, levels: (
        one.distance,
        float(np.sqrt(_CELL * (1 + 1 / (len(levels) - 1)))),
    ),
    "drift with the place": lambda one, _: (one.drift_position, DRIFT),
}


def _held(
    size: tuple[int, int, int], judge: Judge, missing: float = 0.0
) -> Callable[[np.random.Generator], bool]:
    def one(rng: np.random.Generator) -> bool:
        scores, levels = _panel(rng, size, missing)
        finding, truth = judge(taster_performance(scores)[0], levels)
        return _inside(finding, truth)

    return one


def _pooled(tables: int) -> Callable[[np.random.Generator], bool]:
    """A taster whose level is -0.5 against the rest on the whole and moves by 0.4 from table to table."""

    def one(rng: np.random.Generator) -> bool:
        records = []
        for number in range(tables):
            coffees = rng.normal(80, COFFEE, (5, 1)) + rng.normal(0, TASTE, (5, 4))
            coffees[:, 0] += rng.normal(-0.5, 0.4)
            filled = Scores(
                tuple("abcde"), tuple("wxyz"), np.repeat(np.arange(5), 4), np.tile(np.arange(4), 5),
                coffees.ravel(), np.zeros(20, dtype=int),
            )  # fmt: skip
            records.append(taster_records(filled, table=str(number), attribute="Total")[0])
        return _inside(pool_records(records).bias, -0.5)

    return one


def _inside(finding: Finding, truth: float) -> bool:
    if finding.found is None:
        raise TooFewObservations(finding.why_not)
    return finding.found.low <= truth <= finding.found.high
