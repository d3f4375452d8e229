"""Across tables: all coffees of a season on one scale, and all its tasters, linked by what tables share.

No table holds every coffee. Coffees that come back link the tables: what they lose or gain from one table to
another is the table's and its tasters', not theirs.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.linked_fit import (
    LEVELS,
    LinkedFit,
    LinkErrors,
    SeasonScores,
    linked_fit,
    reaches,
    season_scores,
)
from cupwright.core.analyse.scores import Floats, Ints, Scores
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import NotFound, Refused


@dataclass(frozen=True, slots=True)
class LinkedValue(Tabular):
    """One coffee (or taster) over all its tables, in points at the season's average level.

    `low` and `high` hold its difference from the mean of its group, put at those points; all three are None
    where nothing links it to any other. `group` counts from 1, the largest first.
    """

    name: str
    estimate: float | None
    low: float | None
    high: float | None
    difference: float | None
    group: int
    tables: int
    scores: int

    @property
    def apart(self) -> tuple[float, float, float] | None:
        """The difference from the mean of the group with its interval; None where nothing links it."""
        if self.estimate is None or self.low is None or self.high is None or self.difference is None:
            return None
        level = self.estimate - self.difference
        return self.difference, self.low - level, self.high - level


@dataclass(frozen=True, slots=True)
class AcrossTables(Tabular):
    """All of a season, in the order of the names.

    `groups` are linked among themselves, the largest first; members of different groups are not compared.
    `errors` says what the intervals stand on; `levels` what was given a level of its own.
    """

    values: tuple[LinkedValue, ...]
    groups: tuple[tuple[str, ...], ...]
    errors: LinkErrors
    levels: str
    level: float
    fit: LinkedFit

    def rows(self) -> list[Record]:
        """One record a coffee (or taster)."""
        return [record for one in self.values for record in one.rows()]

    def as_data(self) -> Record:
        """The values, groups and errors, without the matrices they came from."""
        return {
            "values": [one.as_data() for one in self.values],
            "groups": [list(group) for group in self.groups],
            "errors": self.errors.as_data(),
            "levels": self.levels,
            "level": self.level,
        }

    @property
    def ranked(self) -> tuple[LinkedValue, ...]:
        """The largest group first, in it the highest first; those that nothing links last."""
        return tuple(sorted(self.values, key=lambda one: (one.group, -(one.estimate or 0.0))))

    def difference(self, first: str, second: str, *, level: float | None = None) -> Estimate:
        """How far one lies above another of its group; `level` is that of the whole if left out.

        Raises NotFound for an unknown name, Refused across groups.
        """
        names = [one.name for one in self.values]
        for name in (first, second):
            if name not in names:
                raise NotFound(f"There is no '{name}' among these tables.", todo="Name one that was scored.")
        a, b = names.index(first), names.index(second)
        if self.values[a].group != self.values[b].group:
            raise Refused(
                f"Nothing links {first} to {second}, not even through others.",
                todo="Bring a coffee of each to one table.",
            )
        weights = np.zeros(len(names))
        weights[a] += 1.0
        weights[b] -= 1.0
        return self.fit.contrast(weights, self.level if level is None else level)


def across_tables(scores: Scores, *, levels: str = "sitting", level: float = 0.95) -> AcrossTables:
    """How do all coffees of many tables compare, though no table held them all?

    Parameters
    ----------
    scores : Scores
        With a `table` for each score; repeats of a taster at one table are averaged first.
    levels : "sitting", "table" or "taster"
        What has a level of its own: each sitting of a taster at a table (the safest: only coffees that come
        back link tables); the table and the taster (a taster keeps the distance to the others); the taster
        alone (a taster keeps the level, so that tasters link tables too).
    level : float in (0, 1)
        Coverage of each interval by itself.

    Returns
    -------
    AcrossTables

    Raises
    ------
    TooFewObservations
        If there are fewer than two coffees, or nothing is left to judge by.
    NoSpread
        If all scores are the same.
    Refused
        If no two coffees are linked.
    TooLarge
        If there are more than 4,000 coffees.

    Notes
    -----
    Error: by least squares; t intervals, exact for normal parts where coffees do not vary between tables;
    where they do, that variance is estimated too (method 3) and the intervals are approximate.
    Source: [Searle1992]; [Henderson1953]; [Satterthwaite1946].
    """
    if levels not in LEVELS:
        raise Refused(f"Levels are not those of a {levels}.", todo=f"Choose one of {', '.join(LEVELS)}.")
    season = season_scores(scores)
    fit = linked_fit(season, levels)
    return _told(season, fit, levels, level)


def tasters_across_tables(scores: Scores, *, level: float = 0.95) -> AcrossTables:
    """How high does each taster score, whichever coffees and tables they met? Each as `across_tables` has it.

    Every coffee at every table has its own level here; tasters who meet at a table link it.
    """
    return across_tables(turned(scores), level=level)


def turned(scores: Scores) -> Scores:
    """The same scores with coffees and tasters changed about."""
    return replace(
        scores, coffees=scores.tasters, tasters=scores.coffees, coffee=scores.taster, taster=scores.coffee
    )


def _told(season: SeasonScores, fit: LinkedFit, levels: str, level: float) -> AcrossTables:
    size = np.bincount(fit.group)
    order = np.argsort(-size, kind="stable")
    number = np.argsort(order) + 1
    centred, reach = _centred(fit, level)
    at = fit.level[fit.group] + fit.values
    cells = np.unique(season.table * len(season.coffees) + season.coffee) % len(season.coffees)
    counts = (np.bincount(index, minlength=len(at)).tolist() for index in (cells, season.coffee))
    alone = size[fit.group] == 1
    values = tuple(
        LinkedValue(name, None, None, None, None, group, tables, count)
        if single
        else LinkedValue(name, value, value - wide, value + wide, apart, group, tables, count)
        for name, value, wide, apart, group, single, tables, count in zip(
            season.coffees,
            at.tolist(),
            reach.tolist(),
            centred.tolist(),
            number[fit.group].tolist(),
            alone.tolist(),
            *counts,
            strict=True,
        )
    )
    return AcrossTables(values, _groups(season.coffees, fit, order), fit.errors, levels, level, fit)


def _groups(names: Sequence[str], fit: LinkedFit, order: Ints) -> tuple[tuple[str, ...], ...]:
    members = np.split(np.argsort(fit.group, kind="stable"), np.cumsum(np.bincount(fit.group))[:-1])
    return tuple(tuple(names[at] for at in members[int(one)]) for one in order)


def _centred(fit: LinkedFit, level: float) -> tuple[Floats, Floats]:
    """Each value less the mean of its group, and half the width of its interval."""
    size = np.bincount(fit.group)
    apart = fit.values - (np.bincount(fit.group, fit.values) / size)[fit.group]
    rest = _variances(fit.inverse, fit)
    moving = np.zeros_like(rest) if fit.moving is None else _variances(fit.moving, fit)
    return apart, reaches(rest, moving, fit.errors, level)


def _variances(matrix: Floats, fit: LinkedFit) -> Floats:
    """Diagonal of the matrix once every group is centred."""
    group, size = fit.group, np.bincount(fit.group)
    found = np.diag(matrix).copy()
    for one in np.flatnonzero(size > 1):
        members = np.flatnonzero(group == one)
        part = matrix[np.ix_(members, members)]
        found[members] += part.mean() - 2 * part.mean(axis=1)
    return np.maximum(found, 0.0)
