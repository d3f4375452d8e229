"""Decision study: how much more could be relied on with more tasters, or with fewer?

Letters as in [Brennan2001]: variances of coffees p, tasters r, their interaction pr and the rest e; a mean
over n_r tasters of n_e scores each has the relative error (pr + e / n_e) / n_r, the absolute r / n_r more.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.icc import Iccs, icc, stepped_up
from cupwright.core.analyse.scores import Scores
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import NoSpread, Refused

Floats = NDArray[np.float64]

TASTERS = range(1, 13)


class VarianceParts(Protocol):
    """Variances in squared points, none below 0, from whatever model they came."""

    @property
    def coffee(self) -> float: ...
    @property
    def taster(self) -> float: ...
    @property
    def coffee_taster(self) -> float | None: ...
    @property
    def residual(self) -> float: ...


@dataclass(frozen=True, slots=True)
class Parts(Tabular):
    """Variances of coffees, of tasters' levels, of what a taster has with one coffee, and of the rest.

    `coffee_taster` is None where it cannot be told from the rest, which then holds both.
    """

    coffee: float
    taster: float
    coffee_taster: float | None
    residual: float


@dataclass(frozen=True, slots=True)
class Reliance(Tabular):
    """What could be relied on with the mean of `tasters` tasters, with ends (None where there are none).

    `differences`: part of the spread in means that belongs to the coffees, levels set aside
    (generalisability); `points`: the same with levels (dependability, phi). `relative_error`,
    `absolute_error`: standard error of a difference's and of a point's mean, in points.
    """

    tasters: int
    differences: float
    differences_low: float | None
    differences_high: float | None
    points: float
    points_low: float | None
    points_high: float | None
    relative_error: float
    absolute_error: float


@dataclass(frozen=True, slots=True)
class DecisionStudy(Tabular):
    """One `Reliance` a number of tasters; `now` is how many there were (None if variances were given)."""

    parts: Parts
    now: int | None
    level: float
    steps: tuple[Reliance, ...]

    def rows(self) -> list[Record]:
        """One row a number of tasters."""
        return [step.rows()[0] for step in self.steps]

    def at(self, tasters: int) -> Reliance | None:
        """What was worked out for so many tasters, if anything was."""
        return next((step for step in self.steps if step.tasters == tasters), None)

    def fewest_for(self, reliability: float, *, points: bool = False) -> int | None:
        """The smallest number of tasters looked at that reaches a reliability, or None."""
        reach = (
            step.tasters
            for step in self.steps
            if (step.points if points else step.differences) >= reliability
        )
        return min(reach, default=None)


def spearman_brown(reliability: float, times: float) -> float:
    """Reliability of the mean of `times` as many scores.

    Parameters
    ----------
    reliability : float
        Of the scores as they are, at most 1.
    times : float
        Above 0; 2 for twice as many, 0.5 for half.

    Raises
    ------
    Refused
        If the reliability is above 1, `times` is not above 0, or so low a reliability has no such mean.

    Notes
    -----
    times r / (1 + (times - 1) r).
    Error: exact if the further scores are of the same kind as the ones there are.
    Source: [Spearman1910]; [Brown1910].
    """
    if not (reliability <= 1 and 0 < times < np.inf):
        raise Refused(
            f"A reliability of {reliability:g} cannot be stepped up {times:g} times.",
            todo="Give a reliability up to 1 and a number above 0.",
        )
    stepped = stepped_up(reliability, times)
    if not np.isfinite(stepped):
        raise Refused(
            f"A reliability of {reliability:g} is below the least that {times:g} scores can have.",
            todo="Take it as 0: the scores contradict each other.",
        )
    return stepped


def decision_study(
    scores: Scores | Floats | VarianceParts | Iccs,
    tasters: Iterable[int] = TASTERS,
    *,
    repeats: int = 1,
    level: float = 0.95,
) -> DecisionStudy:
    """How much better would the panel's means be with other numbers of tasters?

    Parameters
    ----------
    scores : Scores, float array as in `icc`, or its result; or variances (coffee, taster, coffee_taster,
        residual), such as `crossed_components` gives
    tasters : iterable of int
        Numbers to look at, from 1.
    repeats : int
        How often each taster would score each coffee; other than 1 only with variances.
    level : float in (0, 1)
        Coverage of the intervals, which variances alone do not have.

    Raises
    ------
    Refused
        If a number is below 1, or repeats are asked for that scores alone cannot tell.
    TooFewObservations, NoSpread
        As `icc`; NoSpread also if given variances are all 0.

    Notes
    -----
    From scores: the interaction cannot be told from the rest; both are `residual`. Negative variances count
    as 0. Ends are those of icc3 and icc2, stepped up; so they hold as often as those.
    Error: further tasters are taken as of the same sort as those who were there.
    Source: [Brennan2001]; [CronbachEtAl1972].
    """
    numbers = sorted(set(tasters))
    if not numbers or numbers[0] < 1 or repeats < 1:
        raise Refused("A panel has 1 taster at least, and scores once at least.", todo="Count from 1.")
    if not isinstance(scores, Scores | np.ndarray | Iccs):
        parts = Parts(scores.coffee, scores.taster, scores.coffee_taster, scores.residual)
        return DecisionStudy(parts, None, level, _steps(parts, numbers, repeats, None))
    found = scores if isinstance(scores, Iccs) else icc(scores, level=level)
    steps = _steps(parts_of(found), numbers, repeats, found)
    return DecisionStudy(parts_of(found), len(found.tasters), found.icc3.level, steps)


def parts_of(found: Iccs) -> Parts:
    """Variances behind the six correlations, from mean squares; negative ones are taken as 0."""
    squares = found.mean_squares
    return Parts(
        coffee=max((squares.rows - squares.error) / squares.k, 0.0),
        taster=max((squares.columns - squares.error) / squares.n, 0.0),
        coffee_taster=None,
        residual=squares.error,
    )


def _steps(parts: Parts, numbers: Iterable[int], repeats: int, found: Iccs | None) -> tuple[Reliance, ...]:
    if repeats != 1 and parts.coffee_taster is None:
        raise Refused(
            "What more repeats would bring cannot be told where each taster scored each coffee once.",
            todo="Give variances with the interaction, from scores with repeats.",
        )
    interaction = parts.coffee_taster or 0.0
    if parts.coffee + parts.taster + interaction + parts.residual <= 0:
        raise NoSpread("All variances are 0.", todo="Report the common score.")
    return tuple(
        _step(parts, number, (interaction + parts.residual / repeats) / number, found) for number in numbers
    )


def _step(parts: Parts, tasters: int, relative: float, found: Iccs | None) -> Reliance:
    absolute = relative + parts.taster / tasters
    differences, points = _part(parts.coffee, relative), _part(parts.coffee, absolute)
    return Reliance(
        tasters,
        differences,
        *_around(differences, _ends(found, "icc3", tasters)),
        points,
        *_around(points, _ends(found, "icc2", tasters)),
        float(np.sqrt(relative)),
        float(np.sqrt(absolute)),
    )


def _part(coffee: float, error: float) -> float:
    return coffee / (coffee + error) if coffee > 0 else 0.0


def _ends(found: Iccs | None, form: str, tasters: int) -> tuple[float, float] | None:
    """Ends for the mean of so many tasters; none below 0, as no true one is."""
    if found is None:
        return None
    low, high = (max(stepped_up(end, tasters), 0.0) for end in (found[form].low, found[form].high))
    return low, high


def _around(estimate: float, ends: tuple[float, float] | None) -> tuple[float | None, float | None]:
    return (min(ends[0], estimate), max(ends[1], estimate)) if ends else (None, None)
