"""Words: p under no difference, any word said to hold by luck, and the intervals of penalty-lift."""

from collections.abc import Callable, Iterator

import numpy as np
from parts.covered import Covered, counted

from cupwright.core.analyse.cochran import cochran_q
from cupwright.core.analyse.penalty_lift import penalty_lift
from cupwright.core.analyse.split_words import split_words
from cupwright.core.analyse.words_hold import words_that_hold

AT_MOST = (0.0, 0.0597)
# An interval that must not cover less, and may cover more where tasters are few.
AT_LEAST = (0.93, 1.0)
SHUFFLES = 999
LIFT = 0.7
WORDS = 30
Table = tuple[np.ndarray, np.ndarray]


def covered(panels: int) -> Iterator[Covered]:
    """Every answer about words at the sizes people use."""
    for size in ((3, 3), (3, 6), (4, 8), (12, 10)):
        yield counted("Cochran p", _named(size), panels, lambda rng, s=size: _cochran(rng, *s), goal=AT_MOST)
    for size in ((3, 3), (3, 6), (4, 6), (6, 10)):
        yield counted(
            "any word holds by luck", _named(size), panels, lambda rng, s=size: _holds(rng, *s), goal=AT_MOST
        )
        yield counted(
            "any word splits by luck",
            _named(size),
            panels,
            lambda rng, s=size: _splits(rng, *s),
            goal=AT_MOST,
        )
    for size in ((3, 3), (3, 5), (4, 6), (6, 8), (12, 10)):
        yield _lift("lift within tasters", size, panels, _alike(*size), LIFT, within=True)
        yield _lift("lift of all cups", size, panels, _alike(*size), LIFT, within=False)
    for size in ((4, 6), (6, 10)):
        panel = _better_coffees(*size)
        for within in (True, False):
            truth = _truth(panel, within)
            name = "within tasters" if within else "of all cups"
            yield _lift(f"lift {name}, better coffees", size, panels, panel(size[1]), truth, within=within)


def _named(size: tuple[int, int]) -> str:
    return f"{size[0]} x {size[1]}"


def _cochran(rng: np.random.Generator, coffees: int, tasters: int) -> bool:
    return (
        cochran_q(rng.uniform(size=(coffees, tasters)) < rng.beta(1, 1, size=tasters), resamples=SHUFFLES).p
        <= 0.05
    )


def _habits(rng: np.random.Generator, coffees: int, tasters: int) -> np.ndarray:
    """Words as tasters use them, each with habits of their own, for coffees that do not differ."""
    habit = rng.beta(0.5, 2.0, size=(tasters, 1, WORDS))
    return rng.uniform(size=(tasters, coffees, WORDS)) < habit


def _holds(rng: np.random.Generator, coffees: int, tasters: int) -> bool:
    found = words_that_hold(_habits(rng, coffees, tasters), resamples=SHUFFLES)
    return any(found.held(coffee) for coffee in range(coffees))


def _splits(rng: np.random.Generator, coffees: int, tasters: int) -> bool:
    share = rng.beta(0.5, 2.0, size=(1, coffees, WORDS))
    return bool(split_words(rng.uniform(size=(tasters, coffees, WORDS)) < share))


def _lift(
    name: str,
    size: tuple[int, int],
    panels: int,
    panel: Callable[[np.random.Generator], Table],
    truth: float,
    *,
    within: bool,
) -> Covered:
    def one(rng: np.random.Generator) -> Iterator[bool]:
        found = penalty_lift(*panel(rng))
        interval = found.within if within else found.lift
        # What is silent counts for neither side.
        yield from [interval.low <= truth <= interval.high] if interval else []

    return counted(name, _named(size), panels, one, goal=AT_LEAST)


def _alike(coffees: int, tasters: int) -> Callable[[np.random.Generator], Table]:
    """Tasters with habits, levels and lifts of their own; the word has nothing to do with the coffee."""

    def panel(rng: np.random.Generator) -> Table:
        checked = rng.uniform(size=(coffees, tasters)) < rng.beta(2, 2, size=tasters)
        own = LIFT + 0.5 * rng.normal(size=tasters)
        liking = rng.normal(size=tasters) + own * checked + rng.normal(size=(coffees, tasters))
        return checked, liking

    return panel


def _better_coffees(coffees: int, _tasters: int) -> Callable[[int], Callable[[np.random.Generator], Table]]:
    """The same coffees for all panels; the better one is, the more often the word is used."""
    worth = np.linspace(-1, 1, coffees)[:, None]

    def of(tasters: int) -> Callable[[np.random.Generator], Table]:
        def panel(rng: np.random.Generator) -> Table:
            shift = rng.normal(size=tasters)
            checked = rng.uniform(size=(coffees, tasters)) < 1 / (1 + np.exp(-(1.5 * worth + shift)))
            liking = worth + rng.normal(size=tasters) + 0.3 * checked + rng.normal(size=(coffees, tasters))
            return checked, liking

        return panel

    return of


def _truth(panel: Callable[[int], Callable[[np.random.Generator], Table]], within: bool) -> float:
    """The lift of 200,000 tasters of the same coffees."""
    found = penalty_lift(*panel(200_000)(np.random.default_rng(1)))
    interval = found.within if within else found.lift
    assert interval is not None
    return interval.estimate
