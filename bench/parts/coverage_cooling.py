"""Cooling: do slopes hold the truth, and are tests even when nothing moves with temperature?"""

from collections.abc import Callable, Iterator

import numpy as np
from parts.covered import Covered, counted

from cupwright.core.analyse.as_it_cools import cooling_trend
from cupwright.core.analyse.scores import Scores
from cupwright.core.analyse.words_as_they_cool import word_as_it_cools
from cupwright.errors import TooFewObservations

SLOPES = np.array([0.5, -0.3, 0.2, 0.8, 0.0, 0.4, -0.6, 0.1, 0.3, -0.1, 0.6, 0.2])
_NULL = (0.03, 0.07)
_EXACT = (0.0, 0.06)


def covered(panels: int) -> Iterator[Covered]:
    """Slopes from several meetings and from one; differences; the F test; words."""
    for coffees, tasters, visits in ((3, 1, 4), (3, 3, 2), (3, 5, 3), (6, 5, 3), (12, 10, 2)):
        size = f"{coffees}x{tasters}x{visits}"
        yield counted("slope of a coffee", size, panels, _slope((coffees, tasters, visits)))
        yield counted("difference of slopes", size, panels, _difference((coffees, tasters, visits)))
        yield counted("coffees alike, p <= .05", size, panels, _alike((coffees, tasters, visits)), goal=_NULL)
    for coffees, tasters in ((4, 3), (6, 5), (12, 10)):
        yield counted(
            "one slope, one meeting each", f"{coffees}x{tasters}", panels, _overall(coffees, tasters)
        )
        yield counted("odds of a word", f"{coffees}x{tasters}", panels, _odds(coffees, tasters))
        yield counted("word, p <= .05", f"{coffees}x{tasters}", panels, _word(coffees, tasters), goal=_EXACT)


def _panel(rng: np.random.Generator, size: tuple[int, int, int], slopes: np.ndarray) -> Scores:
    coffees, tasters, _ = size
    coffee, taster, visit = (axis.ravel() for axis in np.indices(size))
    celsius = rng.uniform(38, 68, len(coffee))
    level = rng.normal(80, 1.5, (coffees, tasters))[coffee, taster]
    value = level + slopes[coffee] * (60 - celsius) / 10 + rng.normal(0, 0.5, len(coffee))
    names = tuple(map(str, range(coffees))), tuple(map(str, range(tasters)))
    return Scores(*names, coffee, taster, value, visit, temperature=celsius)


def _slope(size: tuple[int, int, int]) -> Callable[[np.random.Generator], bool]:
    def one(rng: np.random.Generator) -> bool:
        found = cooling_trend(_panel(rng, size, SLOPES)).coffees[0].slope
        if found.found is None:
            raise TooFewObservations(found.why_not)
        return found.found.low <= SLOPES[0] <= found.found.high

    return one


def _difference(size: tuple[int, int, int]) -> Callable[[np.random.Generator], Iterator[bool]]:
    def one(rng: np.random.Generator) -> Iterator[bool]:
        for pair in cooling_trend(_panel(rng, size, SLOPES)).pairs:
            yield pair.difference.low <= SLOPES[int(pair.a)] - SLOPES[int(pair.b)] <= pair.difference.high

    return one


def _alike(size: tuple[int, int, int]) -> Callable[[np.random.Generator], bool]:
    def one(rng: np.random.Generator) -> bool:
        p = cooling_trend(_panel(rng, size, np.full(12, 0.3))).p_same
        if p is None:
            raise TooFewObservations("Too little to compare.")
        return p <= 0.05

    return one


def _overall(coffees: int, tasters: int) -> Callable[[np.random.Generator], bool]:
    def one(rng: np.random.Generator) -> bool:
        coffee, taster = (axis.ravel() for axis in np.indices((coffees, tasters)))
        celsius = rng.uniform(38, 68, len(coffee))
        value = 80 + rng.normal(0, 1, coffees)[coffee] + rng.normal(0, 1, tasters)[taster]
        value = value + 0.4 * (60 - celsius) / 10 + rng.normal(0, 0.7, len(coffee))
        names = tuple(map(str, range(coffees))), tuple(map(str, range(tasters)))
        scores = Scores(*names, coffee, taster, value, np.zeros(len(coffee), dtype=int), temperature=celsius)
        found = cooling_trend(scores).overall.found
        if found is None:
            raise TooFewObservations("No slope.")
        return found.low <= 0.4 <= found.high

    return one


def _words(rng: np.random.Generator, coffees: int, tasters: int, log_odds: float) -> tuple[np.ndarray, ...]:
    block = np.repeat(np.arange(tasters), coffees)
    celsius = rng.uniform(38, 68, len(block))
    habit = rng.normal(0, 1, tasters)[block]
    chance = 1 / (1 + np.exp(-(habit + log_odds * (53 - celsius) / 10)))
    return rng.random(len(block)) < chance, block, celsius


def _odds(coffees: int, tasters: int) -> Callable[[np.random.Generator], bool]:
    """Where a word stands in the coolest cups alone there is no interval: silent."""

    def one(rng: np.random.Generator) -> bool:
        found = word_as_it_cools(*_words(rng, coffees, tasters, 0.5)).odds.found
        if found is None:
            raise TooFewObservations("No bound.")
        return found.low <= np.exp(0.5) <= found.high

    return one


def _word(coffees: int, tasters: int) -> Callable[[np.random.Generator], bool]:
    return lambda rng: word_as_it_cools(*_words(rng, coffees, tasters, 0.0)).p <= 0.05
