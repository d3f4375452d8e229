"""Course over tables: has one coffee changed from table to table, or one taster's level?

The one that is followed is taken apart into one for each table; all others are taken to stay as they are, and
link the tables.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from cupwright.core.analyse.across_tables import turned
from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.linked_fit import LinkedFit, LinkErrors, linked_fit, season_scores
from cupwright.core.analyse.scores import Floats, Ints, Scores
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import NotFound, Refused, TooFewObservations


@dataclass(frozen=True, slots=True)
class CoursePoint(Tabular):
    """The one that is followed at one table: points above the mean of the others; `when` as it was given.

    The interval allows for how much one differs from table to table.
    """

    table: str
    when: float
    estimate: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Course(Tabular):
    """One coffee (or taster) over its tables, in the order of time.

    `slope` is in points for each unit of `when`; None, with `why_not`, where a change in time cannot be told
    from how one differs from table to table anyway. `unlinked` are tables that nothing else links to these.
    """

    name: str
    points: tuple[CoursePoint, ...]
    slope: Estimate | None
    unlinked: tuple[str, ...]
    errors: LinkErrors
    level: float
    why_not: str = ""

    def rows(self) -> list[Record]:
        """One record a table."""
        return [record for point in self.points for record in point.rows()]

    @property
    def is_drifting(self) -> bool:
        """Whether the interval of the slope leaves out 0."""
        return self.slope is not None and self.slope.differs_from_zero


def coffee_course(
    scores: Scores, coffee: str, *, when: Sequence[float] | None = None, level: float = 0.95
) -> Course:
    """Has one coffee gone up or down over its tables, against the others that came back?

    Parameters
    ----------
    scores : Scores
        With a `table` for each score.
    coffee : str
        Its name.
    when : sequence of float, one a table, or None
        When each table was, such as days; the tables counted from 1 if left out.
    level : float in (0, 1)
        Coverage of each interval by itself.

    Raises
    ------
    NotFound
        If there is no such coffee.
    TooFewObservations
        If it stood on fewer than two tables, or nothing is left to judge by.
    Refused
        If no other coffee links two of its tables.

    Notes
    -----
    Error: t intervals. How much a coffee varies from table to table is learnt from the others that come back
    and from this one's distances from its line; with two tables and one other coffee there is no slope.
    Source: as `across_tables`; slope by least squares of the tables' values.
    """
    return _course(scores, coffee, when, level, "coffee")


def taster_course(
    scores: Scores, taster: str, *, when: Sequence[float] | None = None, level: float = 0.95
) -> Course:
    """Has one taster's level gone up or down over tables, against the others who came back?

    Parameters, result and refusals as `coffee_course`; the other tasters link the tables.
    """
    return _course(turned(scores), taster, when, level, "taster")


def _course(scores: Scores, name: str, when: Sequence[float] | None, level: float, what: str) -> Course:
    if name not in scores.coffees:
        raise NotFound(f"There is no {what} '{name}' among these scores.", todo="Name one that was scored.")
    times = _times(scores, when)
    apart, tables = _taken_apart(scores, name, what)
    season = season_scores(apart)
    fit = linked_fit(season)
    own = np.array([int(at.removeprefix(_OWN)) if at.startswith(_OWN) else -1 for at in season.coffees])
    members, rest = _linked(fit, own)
    if len(members) < 2:
        raise Refused(
            f"Nothing but {what} {name} links its tables: a change cannot be told from the tables' levels.",
            todo=f"Bring another {what} back with it.",
        )
    members = members[np.argsort(times[own[members]], kind="stable")]
    at = times[own[members]]
    fit = _with_own_distances(fit, members, at, season.gap)
    found = [_above(fit, one, rest, level) for one in members]
    points = tuple(
        CoursePoint(scores.tables[own[one]], float(times[own[one]]), above.estimate, above.low, above.high)
        for one, above in zip(members, found, strict=True)
    )
    unlinked = tuple(scores.tables[one] for one in tables if one not in set(own[members].tolist()))
    sure = fit.squares.moved_freedom > 0
    slope = _slope(fit, members, at, level) if sure else None
    return Course(name, points, slope, unlinked, fit.errors, level, "" if sure else _why_not(name, what))


_OWN = "\0"


def _why_not(name: str, what: str) -> str:
    return (
        f"With two tables and one other {what} that came back, a change of {name} cannot be told from "
        "how much one differs from table to table anyway."
    )


def _times(scores: Scores, when: Sequence[float] | None) -> Floats:
    if when is None:
        return np.arange(1.0, len(scores.tables) + 1)
    times = np.asarray(when, dtype=float)
    if times.shape != (len(scores.tables),) or not np.isfinite(times).all():
        raise Refused(
            f"{len(scores.tables)} tables need as many times, all finite.", todo="Give one time a table."
        )
    return times


def _taken_apart(scores: Scores, name: str, what: str) -> tuple[Scores, Ints]:
    """The scores with one coffee made into one for each of its tables."""
    mine = scores.coffee == scores.coffees.index(name)
    tables = np.unique(scores.table[mine]) if scores.table is not None else np.zeros(1, np.int64)
    if scores.table is None or len(tables) < 2:
        raise TooFewObservations(
            f"A course needs two tables; {what} {name} was at {len(tables)}.", todo="Taste again another day."
        )
    names = (*scores.coffees, *(f"{_OWN}{one}" for one in tables))
    new = len(scores.coffees) + np.searchsorted(tables, scores.table)
    return replace(scores, coffees=names, coffee=np.where(mine, new, scores.coffee)), tables


def _linked(fit: LinkedFit, own: Ints) -> tuple[Ints, Ints]:
    """The most tables that others link, and those others."""
    group = int(np.bincount(fit.group[own >= 0]).argmax())
    linked = fit.group == group
    return np.flatnonzero(linked & (own >= 0)), np.flatnonzero(linked & (own < 0))


def _with_own_distances(fit: LinkedFit, members: Ints, when: Floats, gap: float) -> LinkedFit:
    """The fit whose variance between tables knows the distances from the line, too."""
    free = len(members) - 2
    if free < 1 or fit.moving is None or np.ptp(when) == 0:
        return fit
    line = np.column_stack([np.ones(len(when)), when - when.mean()])
    off = np.linalg.qr(line, mode="complete")[0][:, 2:].T
    at = np.ix_(members, members)
    weights = np.linalg.inv(off @ fit.inverse[at] @ off.T)
    distances = off @ fit.values[members]
    weight = float((weights * (off @ fit.moving[at] @ off.T)).sum())
    squares = fit.squares.with_more(float(distances @ weights @ distances), free, weight)
    return replace(fit, squares=squares, errors=squares.errors(gap))


def _above(fit: LinkedFit, one: int, rest: Ints, level: float) -> Estimate:
    """How far one lies above the mean of the others."""
    weights = np.zeros(len(fit.values))
    weights[rest] = -1.0 / len(rest)
    weights[one] = 1.0
    return fit.contrast(weights, level)


def _slope(fit: LinkedFit, members: Ints, when: Floats, level: float) -> Estimate:
    apart = when - when.mean()
    spread = float(apart @ apart)
    if spread == 0:
        raise Refused("All tables are of one time.", todo="Give different times, or none.")
    weights = np.zeros(len(fit.values))
    weights[members] = apart / spread
    return fit.contrast(weights, level)
