"""One cup off: is one bowl of a sample unlike its sisters, a fault or a slip in brewing?

If all bowls are alike, each taster's marks or scores of the bowls could as well have fallen on them in any
other order. All orders of all tasters together give the distribution of the bowl that stands out most.
"""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from math import factorial, prod

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.holm import holm
from cupwright.core.analyse.resamples import generator
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import NoSpread, TooFewObservations

Floats = NDArray[np.float64]

FEWEST_BOWLS, FEWEST_TASTERS = 3, 2
_MOST_STATES, _DRAWS = 100_000, 9_999
_EQUAL = 1e-9


@dataclass(frozen=True, slots=True)
class Bowl:
    """One bowl, counted from 1.

    `apart` is how far it lies from the mean of its sisters, over all tasters: points, or for marks a share.
    `p` is how often chance alone sets any bowl of the sample so far apart. `marked` counts who marked it; 0
    for scores.
    """

    number: int
    apart: float
    p: float
    marked: int = 0


@dataclass(frozen=True, slots=True)
class SampleBowls(Tabular):
    """The bowls of one sample. `marks`: only told which are off, rather than scored.

    `p` is that of the bowl farthest apart; `p_adjusted` counts all samples that were looked at (Holm).
    `least_p` is what full agreement of these tasters would have come to: above 0.05 nothing can be shown.
    `exact`: all orders were counted, not drawn.
    """

    sample: str
    tasters: int
    marks: bool
    bowls: tuple[Bowl, ...]
    p: float
    p_adjusted: float
    least_p: float
    exact: bool

    @property
    def farthest(self) -> Bowl:
        """The bowl that stands out most."""
        return min(self.bowls, key=lambda bowl: (bowl.p, -abs(bowl.apart)))

    def rows(self) -> list[Record]:
        """One record a bowl."""
        return [
            {"sample": self.sample, "bowl": one.number, "apart": one.apart, "p": one.p} for one in self.bowls
        ]


def one_cup_off(bowls: Floats, *, sample: str = "", rng: np.random.Generator | None = None) -> SampleBowls:
    """Is one bowl unlike its sisters?

    Parameters
    ----------
    bowls : float array, shape (n_tasters, n_bowls)
        Scores of each bowl; or marks, 1 for a bowl that is off and 0 for one that is not (all values 0 or 1).
        A taster with a NaN is left out.
    sample : str
        How the sample is called.
    rng : numpy Generator, optional
        For tables with too many orders to count; a fixed one if left out.

    Raises
    ------
    TooFewObservations
        If there are fewer than three bowls, or than two tasters who told them apart.
    NoSpread
        If every taster gave all bowls the same.

    Notes
    -----
    The statistic is the largest sum over tasters: of marks, or of |score - the taster's mean|. Its
    distribution is over every order within every taster, counted in full or drawn 9,999 times,
    p = (b + 1) / (B + 1). Taking the largest guards against having several bowls to look at.
    Error: the test is exact: no shape is assumed, only that alike bowls could change places. Counts come in
    steps, so it is cautious. All tasters must have tasted the same bowls, and none heard another.
    Source: permutation within blocks [Fisher1935]; largest of several [WestfallYoung1993]; for marks the
    conditional occupancy of bowls [Feller1968].
    """
    table = np.asarray(bowls, dtype=float)
    table = _checked(table[~np.isnan(table).any(axis=1)])
    marks = bool(np.isin(table, (0.0, 1.0)).all())
    rows = table if marks else table - table.mean(axis=1, keepdims=True)
    told = rows[np.ptp(table, axis=1) > 0]
    sums = rows.sum(axis=0)
    apart = sums if marks else np.abs(sums)
    most = told.max(axis=1).sum() if marks else max(told.max(axis=1).sum(), -told.min(axis=1).sum())
    tails, exact = _tails(told, marks, np.array([*apart, most]), rng)
    count = table.shape[1]
    difference = (sums * count - sums.sum()) / (count - 1) / len(table)
    found = tuple(
        Bowl(number, float(by), float(p), int(total) if marks else 0)
        for number, (by, p, total) in enumerate(zip(difference, tails[:-1], sums, strict=True), start=1)
    )
    least = min(bowl.p for bowl in found)
    return SampleBowls(sample, len(table), marks, found, least, least, float(tails[-1]), exact)


def cups_off(
    samples: Mapping[str, Floats], *, rng: np.random.Generator | None = None
) -> tuple[SampleBowls, ...]:
    """The same for each sample, with `p_adjusted` for having looked at several (Holm).

    Samples with too few tasters or bowls, or whose bowls nobody told apart, are left out.
    """
    found: list[SampleBowls] = []
    for sample, bowls in samples.items():
        try:
            found.append(one_cup_off(bowls, sample=sample, rng=rng))
        except (TooFewObservations, NoSpread):
            continue
    if not found:
        return ()
    adjusted = holm([one.p for one in found])
    return tuple(replace(one, p_adjusted=float(p)) for one, p in zip(found, adjusted, strict=True))


def _checked(table: Floats) -> Floats:
    tasters, bowls = table.shape
    if bowls < FEWEST_BOWLS:
        raise TooFewObservations(
            f"With {bowls} bowls nobody can say which one is off.", todo="Brew at least three of a sample."
        )
    if tasters and np.ptp(table, axis=1).max() == 0:
        raise NoSpread("Every taster found all bowls alike.", todo="Nothing needs to be done.")
    told = int((np.ptp(table, axis=1) > 0).sum()) if tasters else 0
    if told < FEWEST_TASTERS:
        raise TooFewObservations(
            "Only one taster told the bowls apart; that is a reason to taste again, not a finding.",
            todo="Let a second taster try the bowls without knowing which.",
        )
    return table


def _tails(rows: Floats, marks: bool, at: Floats, rng: np.random.Generator | None) -> tuple[Floats, bool]:
    """P(largest >= each of `at`), and whether all orders were counted."""
    slack = _EQUAL * (1 + float(np.abs(rows).sum()))
    counted = _every_order(rows)
    if counted is None:
        drawn = generator(rng).permuted(np.broadcast_to(rows, (_DRAWS, *rows.shape)), axis=2).sum(axis=1)
        largest = drawn.max(axis=1) if marks else np.abs(drawn).max(axis=1)
        return ((largest[:, None] >= at - slack).sum(axis=0) + 1) / (_DRAWS + 1), False
    sums, ways = counted
    largest = sums.max(axis=1) if marks else np.abs(sums).max(axis=1)
    return ways @ (largest[:, None] >= at - slack) / ways.sum(), True


def _every_order(rows: Floats) -> tuple[Floats, Floats] | None:
    """Sums of the bowls over all orders, shape (n_states, n_bowls), and how many orders lead to each.

    None if there are too many. The first taster's order may be held fast: only how the others lie to it
    matters, and which bowl is which does not, so that states are told apart by their sums in rising order.
    """
    sums: Floats = np.sort(rows[:1], axis=1)
    ways: Floats = np.ones(1)
    for place, row in enumerate(rows[1:], start=2):
        if len(sums) * _how_many(row) > _MOST_STATES:
            return None
        orders = np.array(list(_orders(Counter(map(float, row)))))
        sums = (sums[:, None, :] + orders[None, :, :]).reshape(-1, len(row))
        ways = np.repeat(ways, len(orders))
        if place < len(rows):
            # Sums that differ by rounding alone are one state.
            merged = np.round(np.sort(sums, axis=1), 9)
            sums, index = np.unique(merged, axis=0, return_inverse=True)
            ways = np.bincount(index.ravel(), ways).astype(float)
    return sums, ways


def _how_many(row: Floats) -> int:
    """How many different orders a taster's values have."""
    alike = np.unique(row, return_counts=True)[1]
    return factorial(len(row)) // prod(factorial(int(count)) for count in alike)


def _orders(left: Counter[float]) -> Iterator[tuple[float, ...]]:
    """Every different order of some values."""
    if not left:
        yield ()
        return
    for value in sorted(left):
        for order in _orders(left - Counter([value])):
            yield (value, *order)
