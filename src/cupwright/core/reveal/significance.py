"""Would these notes fit the other coffees of the table as well? Matches held against shuffles of the coffees.

Two long lists of usual words match for any coffee. So the same notes are matched with the words of every
coffee of the table, and the sum over the coffees as they stood is compared with the sum for every way of
shuffling them. Method: docs/methods/matching.md.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cache
from itertools import permutations
from math import factorial

import numpy as np
from numpy.typing import NDArray

from cupwright.core.reveal.match import match
from cupwright.core.words.lexicon import Lexicon
from cupwright.errors import Refused, TooFewObservations

Floats = NDArray[np.float64]
# 8! = 40,320 ways are all tried; 9! are ten times as many.
EXACT_UP_TO = 8
DRAWS = 9_999
# Sums of the same scores in another order may differ in the last digits; they are equal all the same.
_EQUAL = 1e-9


@dataclass(frozen=True, slots=True)
class Chance:
    """How a sum of scores over the coffees as they stood compares with shuffles of them.

    `ways` counts the shuffles tried, the true one among them; `worse` those with a smaller sum. `p_value` is
    (ways - worse) / ways, never less than `least`. `by_chance` is the mean sum over all shuffles.
    """

    coffees: int
    total: float
    by_chance: float
    ways: int
    worse: int
    exact: bool

    @property
    def p_value(self) -> float:
        """Share of the ways of shuffling that fit at least as well."""
        return (self.ways - self.worse) / self.ways

    @property
    def least(self) -> float:
        """The smallest p value that so many coffees, or so many draws, can give."""
        return 1 / self.ways


@dataclass(frozen=True, slots=True)
class CoffeeFit:
    """One coffee: the score of the notes on it, and their mean score with the other coffees' words.

    `worse_elsewhere` of `others` coffees fit the notes worse than their own.
    """

    coffee: str
    score: float
    elsewhere: float
    worse_elsewhere: int
    others: int


@dataclass(frozen=True, slots=True)
class TableFit:
    """How one taster's notes fit the coffees of a table. `left_out`: coffees without words on either side."""

    coffees: tuple[CoffeeFit, ...]
    chance: Chance
    left_out: tuple[str, ...]


def table_fit(
    mine: Mapping[str, Collection[str]],
    theirs: Mapping[str, Collection[str]],
    lexicon: Lexicon,
    *,
    seed: int = 0,
) -> TableFit:
    """How well a taster's notes pick out the coffees of a table by others' words for them.

    Parameters
    ----------
    mine, theirs : mapping
        Coffee -> concepts. A coffee without words on either side is left out and named.
    seed : int
        For the draws when there are more than eight coffees; the same seed gives the same answer.

    Raises
    ------
    TooFewObservations
        If fewer than two coffees have words on both sides.
    KeyError
        If a concept is not in the lexicon.

    Notes
    -----
    Error: exact up to eight coffees; above, the p value is that of a random test, valid for any number of
    draws. It supposes that without skill every order of the coffees is equally likely, as with blind codes.
    """
    every = list(dict.fromkeys([*mine, *theirs]))
    kept = [coffee for coffee in every if mine.get(coffee) and theirs.get(coffee)]
    if len(kept) < 2:
        raise TooFewObservations(
            "Fewer than two coffees have words on both sides.", todo="Compare the words coffee by coffee."
        )
    scores = np.array([[match(mine[row], theirs[column], lexicon).score for column in kept] for row in kept])
    return TableFit(
        tuple(_coffee_fit(coffee, scores[at], at) for at, coffee in enumerate(kept)),
        shuffled(scores, seed=seed),
        tuple(coffee for coffee in every if coffee not in kept),
    )


def shuffled(scores: Floats, *, exact_up_to: int = EXACT_UP_TO, draws: int = DRAWS, seed: int = 0) -> Chance:
    """The sum of scores on the diagonal against sums over shuffles of the columns.

    Parameters
    ----------
    scores : float array, shape (n_coffees, n_coffees)
        Row: notes on a coffee; column: whose words they were matched with. At least two, every cell finite.
    exact_up_to : int
        Up to so many coffees every order is tried.
    draws : int
        Random shuffles when there are more.

    Raises
    ------
    Refused
        If the table is not square, has one coffee only, or a cell is not finite.

    Notes
    -----
    Error: exact up to eight coffees, all orders being tried. Above, (b + 1) / (B + 1) with b of B draws at
    least as good: the true order counts as one of the draws, so the p value is never too small.
    Source: [Fisher1935] for the exact test; [PhipsonSmyth2010] for the draws.
    """
    size = len(scores)
    if scores.shape != (size, size) or size < 2 or not np.all(np.isfinite(scores)):
        raise Refused("Shuffling needs a square table of scores of two coffees or more, without gaps.")
    exact = size <= exact_up_to
    orders = _every_order(size) if exact else _some_orders(size, draws, seed)
    sums = scores[np.arange(size), orders].sum(axis=1)
    total = float(np.trace(scores))
    worse = int(np.count_nonzero(sums < total - _EQUAL))
    ways = factorial(size) if exact else draws + 1
    return Chance(size, total, float(scores.sum() / size), ways, worse, exact)


@cache
def _every_order(size: int) -> NDArray[np.intp]:
    return np.array(list(permutations(range(size))), dtype=np.intp)


def _some_orders(size: int, draws: int, seed: int) -> NDArray[np.intp]:
    rows = np.tile(np.arange(size, dtype=np.intp), (draws, 1))
    return np.random.default_rng(seed).permuted(rows, axis=1)


def _coffee_fit(coffee: str, row: Floats, at: int) -> CoffeeFit:
    others = np.delete(row, at)
    return CoffeeFit(
        coffee,
        float(row[at]),
        float(others.mean()),
        int(np.count_nonzero(others < row[at] - _EQUAL)),
        len(others),
    )


_NUMBERS = (
    "",
    "",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)


def sentence(chance: Chance, whose: str = "Your notes") -> str:
    """What a taster should make of it, in one or two sentences; for others, `whose` says whose notes."""
    size = _NUMBERS[chance.coffees] if chance.coffees < len(_NUMBERS) else str(chance.coffees)
    said = (
        f"{whose} pick out the {size} coffees on the table better than {chance.worse:,} of "
        f"{chance.ways:,} ways of shuffling them."
    )
    if not chance.exact:
        said = said.replace("ways of shuffling them", "ways of shuffling them that were tried")
    if chance.least > 0.05:
        best = f"With {size} coffees even the best possible fit comes about by luck once in {chance.ways}."
        return f"{said} {best}"
    return said
