"""Words as cups cool: is a word used more for cooler or warmer cups than each taster uses it anyway?"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.finding import Finding, silent
from cupwright.core.analyse.holm import holm
from cupwright.core.analyse.tabular import Tabular
from cupwright.errors import NoSpread, TooFewObservations

Floats = NDArray[np.float64]

FEWEST_TOLD, LEAST_SPREAD_K = 3, 2.0
_GRID_K, _STEP_K = 0.5, 10.0
# The steepest slope looked for: log odds for one step of the grid.
_STEEPEST, _HALVINGS = 3.0, 60


@dataclass(frozen=True, slots=True)
class WordCooling(Tabular):
    """One word. `odds`: by what its odds are multiplied for each 10 K that the cup is cooler.

    `answers` counts those that tell something, `uses` the uses among them. `p`: how often temperatures that
    have nothing to do with the word come out so one-sided; `p_adjusted` counts all words looked at (Holm).
    """

    word: str
    uses: int
    answers: int
    odds: Finding
    p: float
    p_adjusted: float


def word_as_it_cools(
    used: ArrayLike, block: ArrayLike, celsius: ArrayLike, *, word: str = "", level: float = 0.95
) -> WordCooling:
    """Does the use of a word go with the warmth of the cup?

    Parameters
    ----------
    used : bool array, shape (n_answers,)
        Whether the word was used in an answer.
    block : int array, shape (n_answers,)
        Answers that are compared with each other: one taster's answers to one question.
    celsius : float array, shape (n_answers,)
        How warm the cup was, in °C; NaN where unknown.
    level : float in (0, 1)
        Coverage of the interval.

    Raises
    ------
    TooFewObservations
        If fewer than three answers stand in blocks where the word was used and left out.
    NoSpread
        If the temperatures in those blocks hardly vary.

    Notes
    -----
    Logistic regression conditional on how often each block used the word: the sum of the coolness over the
    uses is sufficient, and its distribution is worked out in full on a grid of 0.5 K. p is twice the smaller
    tail, at most 1; the ends of the interval give tails of (1 - level) / 2, counting half of what was seen
    (mid-p).
    Error: p exact, cautious in small tables; the interval close. Temperatures are rounded to 0.5 K, far
    finer than they are known.
    Source: [CoxSnell1989], section 2.1; [MehtaPatel1995]; checked against statsmodels' conditional logit.
    """
    marks, groups, warmth = np.asarray(used, dtype=bool), np.asarray(block), np.asarray(celsius, dtype=float)
    known = ~np.isnan(warmth)
    marks, groups, warmth = marks[known], groups[known], warmth[known]
    cool = np.rint((warmth.max(initial=0) - warmth) / _GRID_K).astype(np.int64)
    telling = _telling(marks, groups)
    if telling.sum() < FEWEST_TOLD:
        raise TooFewObservations(
            "Too few answers use the word in one cup and not in another.", todo="Ask again as the cups cool."
        )
    marks, groups, cool = marks[telling], groups[telling], cool[telling]
    _check_spread(groups, cool)
    least, ways = _distribution(marks, groups, cool)
    seen = int(cool[marks].sum()) - least
    p = float(min(1.0, 2 * min(ways[: seen + 1].sum(), ways[seen:].sum())))
    odds = _odds(ways, seen, level)
    return WordCooling(word, int(marks.sum()), len(marks), odds, p, p)


def words_as_they_cool(
    used: Mapping[str, ArrayLike], block: ArrayLike, celsius: ArrayLike, *, level: float = 0.95
) -> tuple[WordCooling, ...]:
    """The same for several words, with `p_adjusted` for looking at them all; silent ones are left out."""
    found: list[WordCooling] = []
    for word, marks in used.items():
        try:
            found.append(word_as_it_cools(marks, block, celsius, word=word, level=level))
        except (TooFewObservations, NoSpread):
            continue
    if not found:
        return ()
    adjusted = holm([one.p for one in found])
    return tuple(replace(one, p_adjusted=float(p)) for one, p in zip(found, adjusted, strict=True))


def _telling(marks: NDArray[np.bool_], groups: NDArray[np.int64]) -> NDArray[np.bool_]:
    """Answers in blocks where the word was used, and not always."""
    telling = np.zeros(len(marks), dtype=bool)
    for group in np.unique(groups):
        own = groups == group
        telling[own] = 0 < marks[own].sum() < own.sum()
    return telling


def _check_spread(groups: NDArray[np.int64], cool: NDArray[np.int64]) -> None:
    _, index = np.unique(groups, return_inverse=True)
    left = cool - (np.bincount(index, cool) / np.bincount(index))[index]
    spread = _GRID_K * float(np.sqrt(left @ left / (len(cool) - index.max() - 1)))
    if spread < LEAST_SPREAD_K:
        raise NoSpread(
            f"The temperatures hardly vary (by {spread:.1f} K), so no trend can be told.",
            todo="Ask for words again when the cups are 10 K cooler.",
        )


def _distribution(
    marks: NDArray[np.bool_], groups: NDArray[np.int64], cool: NDArray[np.int64]
) -> tuple[int, Floats]:
    """The least sum of coolness over the uses, and the chance of each sum from there on, all orders alike."""
    least, chances = 0, np.ones(1)
    for group in np.unique(groups):
        own = groups == group
        steps = cool[own] - cool[own].min()
        uses = int(marks[own].sum())
        ways = np.zeros((uses + 1, int(steps.sum()) + 1))
        ways[0, 0] = 1.0
        for step in steps:
            ways[1:, step:] += ways[:-1, : ways.shape[1] - step].copy()
        reached = np.flatnonzero(ways[uses])
        least += int(cool[own].min()) * uses
        part = ways[uses, : reached[-1] + 1]
        chances = np.convolve(chances, part / part.sum())
    return least, chances


def _odds(ways: Floats, seen: int, level: float) -> Finding:
    """The odds ratio for 10 K with its mid-p interval; silent at an end, where one side has no bound."""
    reached = np.flatnonzero(ways > 0)
    if seen <= reached[0] or seen >= reached[-1]:
        side = "warmest" if seen <= reached[0] else "coolest"
        return silent(
            f"It was used in the {side} cups alone: the odds have no bound on that side.", len(reached)
        )
    sums, tail = np.arange(len(ways)) - seen, (1 - level) / 2
    log_ways = np.log(ways, out=np.full(len(ways), -np.inf), where=ways > 0)

    def tilted(slope: float) -> Floats:
        weights = log_ways + slope * sums
        chances = np.exp(weights - weights.max())
        return np.asarray(chances / chances.sum())

    def above(slope: float) -> float:
        chances = tilted(slope)
        return float(chances[sums > 0].sum() + chances[seen] / 2)

    middle = _rising(lambda slope: float(tilted(slope) @ sums), 0.0)
    low, high = _rising(above, tail), _rising(above, 1 - tail)
    odds, below, over = (float(np.exp(slope * _STEP_K / _GRID_K)) for slope in (middle, low, high))
    return Finding(Estimate(odds, below, over, level), len(reached))


def _rising(function: Callable[[float], float], wanted: float) -> float:
    """Where a rising function of the slope has a value, by halving."""
    low, high = -_STEEPEST, _STEEPEST
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if function(middle) < wanted else (low, middle)
    return (low + high) / 2
