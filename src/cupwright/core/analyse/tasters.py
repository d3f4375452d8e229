"""Tasters: how each of them is doing, one measure at a time and none of them a mark.

An item is one coffee at one table. A taster's value for it is the mean of the repeats; `rest.py` says what
the others found. What compares with the rest leaves the taster out of it.
"""

from dataclasses import dataclass, fields
from typing import Any

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.finding import Finding, silent
from cupwright.core.analyse.normal_intervals import (
    OneWay,
    correlation_interval,
    mean_interval,
    one_way,
    share_interval,
    slope_interval,
    tail_of_f,
)
from cupwright.core.analyse.repeat_spread import spread_of
from cupwright.core.analyse.rest import rest_of, rest_reliability
from cupwright.core.analyse.scores import Scores, scores_of
from cupwright.core.analyse.tabular import Record, Tabular

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

FEWEST_FOR_LEVEL = 3
FEWEST_FOR_LINE = 4
FEWEST_FOR_DRIFT = 5
FEWEST_TABLES = 4
FEWEST_REPEATS = 2
_EVEN = 1e-9
_ALONE = "Nobody else scored these coffees, so there is nothing to compare with."


@dataclass(frozen=True, slots=True)
class TasterPerformance(Tabular):
    """One taster on one attribute. A measure is a `Finding`: an interval, or a sentence why there is none.

    `coffees` counts the coffees scored (a coffee at two tables twice), `scores` all scores.
    repeatability   standard deviation of a repeat, in points
    bias            level against the rest, in points: below 0 is lower
    slope           points by which the taster's scores rise where the rest's mean rises by one; the rest's
                    own scatter draws it from 1 to `attenuation` (in 0..1, None where unknown)
    separation      share of the variance of the taster's scores that lies between coffees, in [0, 1]; the
                    F ratio behind it, its degrees of freedom and P(F or more if the coffees were alike)
    agreement       Pearson's correlation with the rest, in [-1, 1]
    distance        standard deviation of the distance from the rest, habitual level set aside, in points
    drift_position  points a place later in the order, against the rest
    drift_table     points a table later, against the rest
    """

    taster: str
    coffees: int
    scores: int
    repeatability: Finding
    bias: Finding
    slope: Finding
    attenuation: float | None
    separation: Finding
    f_ratio: float | None
    df_between: int
    df_within: int
    p_alike: float | None
    agreement: Finding
    distance: Finding
    drift_position: Finding
    drift_table: Finding

    def rows(self) -> list[Record]:
        """One flat record: every measure with its ends."""
        record: dict[str, Any] = {}
        for field in fields(self):
            value = getattr(self, field.name)
            record |= value.flat(field.name) if isinstance(value, Finding) else {field.name: value}
        return [record]


@dataclass(frozen=True, slots=True)
class Items:
    """The scores by item: `item` is one a score, `table` one an item; `means` (n_items, n_tasters)."""

    scores: Scores
    item: Ints
    table: Ints
    means: Floats


def taster_performance(
    scores: Scores | Floats, *, level: float = 0.95, only: str | None = None
) -> tuple[TasterPerformance, ...]:
    """How is each taster doing: steady, level with the rest, using the scale, telling coffees apart?

    Parameters
    ----------
    scores : Scores, or float array of shape (n_coffees, n_tasters) or (n_coffees, n_tasters, n_repeats)
        One attribute, in points.
    level : float in (0, 1)
        Coverage of each interval.
    only : str, optional
        The one taster who is asked for.

    Returns
    -------
    tuple of TasterPerformance
        In the order of the tasters. No sum of the measures and no order of people is formed.

    Raises
    ------
    TooFewObservations
        If there is not a single score.

    Notes
    -----
    With d_i the taster's mean for coffee i less the rest's: bias is Student's interval of the mean of d,
    distance the chi-square interval of its deviation, drift the slope of d on the place with Student's
    interval; slope and agreement are those of the taster's means on the rest's; separation is a one-way
    analysis of variance over repeats; repeatability pools the squares about each coffee's mean.
    Error: with every cell filled, exact for normal deviations (agreement: close), and each taster may have a
    spread of their own. Holes make the rest's mean less sure for some coffees than for others: then close.
    Intervals are one measure at a time; among 20 of them one misses by luck. A taster's level may shift from
    table to table: over many tables pool the records (taster_record.py) rather than the scores.
    Source: [Dahlberg1940], [ISO5725-2], [Student1908], [Fisher1925], [Wald1940]; measures as in [ISO11132].
    """
    found = items_of(scores_of(scores))
    asked = [i for i, name in enumerate(found.scores.tasters) if only is None or name == only]
    return tuple(_performance(found, taster, level) for taster in asked)


def items_of(scores: Scores) -> Items:
    """The same scores by coffee and table."""
    table = scores.table if scores.table is not None else np.zeros(len(scores), dtype=np.int64)
    keys, item = np.unique(table * len(scores.coffees) + scores.coffee, return_inverse=True)
    shape = (len(keys), len(scores.tasters))
    cells = item * shape[1] + scores.taster
    sums = np.bincount(cells, weights=scores.value, minlength=shape[0] * shape[1])
    counts = np.bincount(cells, minlength=shape[0] * shape[1])
    means = np.divide(sums, counts, out=np.full(len(sums), np.nan), where=counts > 0)
    return Items(scores, item, keys // len(scores.coffees), means.reshape(shape))


def _performance(items: Items, taster: int, level: float) -> TasterPerformance:
    mine = items.scores.taster == taster
    own, rest = items.means[:, taster], rest_of(items.means, taster)
    both = ~np.isnan(own) & ~np.isnan(rest)
    groups = one_way(items.scores.value[mine], items.item[mine])
    separation, f_ratio, p_alike = _separation(groups, level)
    return TasterPerformance(
        taster=items.scores.tasters[taster],
        coffees=int((~np.isnan(own)).sum()),
        scores=int(mine.sum()),
        repeatability=_repeatability(groups, level),
        bias=_bias(own[both] - rest[both], level),
        slope=_slope(own[both], rest[both], level),
        attenuation=rest_reliability(items.means, taster),
        separation=separation,
        f_ratio=f_ratio,
        df_between=groups.df_between,
        df_within=groups.df_within,
        p_alike=p_alike,
        agreement=_agreement(own[both], rest[both], level),
        distance=_distance(own[both] - rest[both], level),
        drift_position=_drift_position(items, mine, rest, level),
        drift_table=_drift_table(items, own - rest, level),
    )


def _repeatability(groups: OneWay, level: float) -> Finding:
    freedom = groups.df_within
    spread = spread_of(_squares(groups), freedom, level)
    if spread is not None:
        return Finding(spread, freedom)
    if freedom == 0:
        return silent("No coffee was met twice, so repeats say nothing yet.")
    if freedom == 1:
        return silent("One pair of repeats is too little to say how far they scatter.", 1)
    return silent("All repeats are equal, which is not to say that they always will be.", freedom)


def _bias(apart: Floats, level: float) -> Finding:
    if (why := _too_few(len(apart), FEWEST_FOR_LEVEL)) or (why := _same(apart)):
        return silent(why, max(len(apart) - 1, 0))
    return Finding(mean_interval(apart, level), len(apart) - 1)


def _distance(apart: Floats, level: float) -> Finding:
    if (why := _too_few(len(apart), FEWEST_FOR_LEVEL)) or (why := _same(apart)):
        return silent(why, max(len(apart) - 1, 0))
    squares = float(((apart - apart.mean()) ** 2).sum())
    return Finding(spread_of(squares, len(apart) - 1, level), len(apart) - 1)


def _slope(own: Floats, rest: Floats, level: float) -> Finding:
    freedom = max(len(own) - 2, 0)
    if why := _too_few(len(own), FEWEST_FOR_LINE):
        return silent(why, freedom)
    if _is_even(rest):
        return silent("The rest found all coffees alike, so there is nothing to follow.", freedom)
    if _is_even(own):
        return silent("Every coffee got the same score, so the scale was not used here.", freedom)
    return Finding(slope_interval(rest - rest.mean(), own - own.mean(), freedom, level), freedom)


def _agreement(own: Floats, rest: Floats, level: float) -> Finding:
    freedom = max(len(own) - 2, 0)
    if why := _too_few(len(own), FEWEST_FOR_LINE):
        return silent(why, freedom)
    if _is_even(own) or _is_even(rest):
        return silent("One side found all coffees alike, so a correlation does not exist.", freedom)
    return Finding(correlation_interval(own, rest, level), freedom)


def _separation(groups: OneWay, level: float) -> tuple[Finding, float | None, float | None]:
    """The share of variance between coffees, the F ratio and its tail."""
    between, within = groups.df_between, groups.df_within
    if between < 1:
        return silent("One coffee cannot be told from others.", within), None, None
    if within < FEWEST_REPEATS:
        why = "With fewer than two repeats it cannot be said whether differences are more than scatter."
        return silent(why, within), None, None
    if _squares(groups) == 0:
        return silent("All repeats are equal, so scatter is not known.", within), None, None
    f_ratio = groups.between / groups.within
    return Finding(share_interval(groups, level), within), f_ratio, tail_of_f(f_ratio, between, within)


def _squares(groups: OneWay) -> float:
    """The squares within coffees; what is left of rounding in the arithmetic is none."""
    return groups.within_squares if groups.within_squares > _EVEN**2 * float((groups.means**2).sum()) else 0.0


def _drift_position(items: Items, mine: NDArray[np.bool_], rest: Floats, level: float) -> Finding:
    """Distance from the rest against the place; within each coffee where there is no rest."""
    if items.scores.position is None:
        return silent("Nobody knows in which order the coffees were tasted.")
    place, item = items.scores.position[mine], items.item[mine]
    alone = bool(np.isnan(rest[item]).all())
    distance = items.scores.value[mine] - (0.0 if alone else rest[item])
    block = item if alone else items.table[item]
    known = ~np.isnan(place) & ~np.isnan(distance)
    return drift(place[known], distance[known], block[known], level)


def drift(x: Floats, y: Floats, block: Ints, level: float) -> Finding:
    """Slope of y on x within blocks, or why there is none."""
    _, block = np.unique(block, return_inverse=True)
    freedom = max(len(x) - int(block.max(initial=-1)) - 2, 0)
    if freedom < FEWEST_FOR_DRIFT - 2:
        return silent(f"{len(x)} scores are too few to see a drift.", freedom)
    x, y = _centred(x, block), _centred(y, block)
    if _is_even(x):
        return silent("All stood at the same place in the order.", freedom)
    if _is_even(y):
        return silent("The distances from the rest are all equal; how sure that is cannot be told.", freedom)
    return Finding(slope_interval(x, y, freedom, level), freedom)


def _centred(values: Floats, block: Ints) -> Floats:
    return np.asarray(values - (np.bincount(block, values) / np.bincount(block))[block])


def _drift_table(items: Items, apart: Floats, level: float) -> Finding:
    """The mean distance at each table against the number of the table."""
    seen = ~np.isnan(apart)
    tables, index = np.unique(items.table[seen], return_inverse=True)
    if len(tables) < FEWEST_TABLES:
        return silent(f"A drift over time needs {FEWEST_TABLES} tables.", max(len(tables) - 2, 0))
    level_at = np.bincount(index, apart[seen]) / np.bincount(index)
    if _is_even(level_at):
        return silent("The level is the same at every table.", len(tables) - 2)
    x = tables - tables.mean()
    return Finding(slope_interval(x, level_at - level_at.mean(), len(tables) - 2, level), len(tables) - 2)


def _too_few(coffees: int, fewest: int) -> str:
    if coffees == 0:
        return _ALONE
    return f"{coffees} coffees shared with others are too few; it takes {fewest}." if coffees < fewest else ""


def _same(apart: Floats) -> str:
    same = "The distance from the rest is the same for every coffee; how sure that is cannot be told."
    return same if _is_even(apart) else ""


def _is_even(values: Floats) -> bool:
    return bool(np.ptp(values) <= _EVEN * max(1.0, float(np.abs(values).max())))
