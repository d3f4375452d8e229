"""Rank tests: how often p is at most 0.05 when no coffee differs, and any pair stands out by luck."""

from collections.abc import Callable, Iterator

import numpy as np
from parts.covered import Covered, counted

from cupwright.core.analyse.durbin import durbin
from cupwright.core.analyse.friedman import friedman
from cupwright.core.analyse.page import page_trend
from cupwright.core.analyse.skillings_mack import skillings_mack

# At most 0.05, and two standard errors of a share of 2,000.
AT_MOST = (0.0, 0.0597)
# From six coffees and six tasters on steps are small enough to use the level up.
EVEN = (0.0403, 0.0597)
SHUFFLES = 999
Panel = Callable[[np.random.Generator], np.ndarray]


def covered(panels: int) -> Iterator[Covered]:
    """Every rank test at the sizes people use."""
    for size in ((2, 3), (3, 2), (3, 3), (3, 5), (4, 4), (5, 5), (6, 6), (8, 8), (12, 10)):
        goal = EVEN if min(size) > 5 else AT_MOST
        yield _friedman("Friedman p, scores of a line", size, panels, _smooth(*size), goal)
        yield _friedman("Friedman p, whole points with ties", size, panels, _steps(*size), goal)
    for size in ((3, 5), (4, 6), (6, 8)):
        yield _any_pair("any pair, no coffee differs", size, panels, _smooth(*size))
        yield _any_pair("any pair of the others, one is far above", size, panels, _one_above(*size), first=1)
    for size in ((3, 1), (3, 4), (4, 5), (6, 6), (12, 10)):
        yield counted(
            "Page p",
            _named(size),
            panels,
            lambda rng, size=size: page_trend(_steps(*size)(rng)).p <= 0.05,
            goal=EVEN if min(size) > 5 else AT_MOST,
        )
    yield counted("Durbin p", "7 x 7, 3 each", panels, _durbin, goal=AT_MOST)
    for size in ((3, 4), (4, 6), (6, 8), (12, 10)):
        yield counted(
            "Skillings-Mack p, a quarter missing",
            _named(size),
            panels,
            lambda rng, size=size: skillings_mack(_holes(*size)(rng), resamples=SHUFFLES).p <= 0.05,
            goal=EVEN if min(size) > 5 else AT_MOST,
        )


def _friedman(
    name: str, size: tuple[int, int], panels: int, panel: Panel, goal: tuple[float, float]
) -> Covered:
    return counted(
        name,
        _named(size),
        panels,
        lambda rng: friedman(panel(rng), resamples=SHUFFLES).p <= 0.05,
        goal=goal,
    )


def _any_pair(name: str, size: tuple[int, int], panels: int, panel: Panel, first: int = 0) -> Covered:
    others = {str(number + 1) for number in range(first, size[0])}

    def one(rng: np.random.Generator) -> bool:
        pairs = friedman(panel(rng), resamples=SHUFFLES).pairs
        return any(pair.p <= 0.05 for pair in pairs if {pair.a, pair.b} <= others)

    return counted(name, _named(size), panels, one, goal=AT_MOST)


def _named(size: tuple[int, int]) -> str:
    return f"{size[0]} x {size[1]}"


def _smooth(coffees: int, tasters: int) -> Panel:
    return lambda rng: rng.normal(size=(coffees, tasters)) + 2 * rng.normal(size=tasters)


def _steps(coffees: int, tasters: int) -> Panel:
    return lambda rng: np.round(rng.normal(size=(coffees, tasters)) * 1.5)


def _one_above(coffees: int, tasters: int) -> Panel:
    return lambda rng: rng.normal(size=(coffees, tasters)) + 10.0 * (np.arange(coffees) == 0)[:, None]


def _holes(coffees: int, tasters: int) -> Panel:
    def panel(rng: np.random.Generator) -> np.ndarray:
        scores = np.round(rng.normal(size=(coffees, tasters)) * 2)
        return np.where(rng.uniform(size=scores.shape) < 0.25, np.nan, scores)

    return panel


def _durbin(rng: np.random.Generator) -> bool:
    scores = np.full((7, 7), np.nan)
    for taster in range(7):
        flight = [(taster + step) % 7 for step in (0, 1, 3)]
        scores[flight, taster] = rng.normal(size=3)
    return durbin(scores).p <= 0.05
