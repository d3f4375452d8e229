"""Panel size: how many tasters and bowls show a difference of so many points between two coffees.

    T     tasters, each of whom scores every coffee
    R     bowls of each coffee that a taster scores, one after the other (repeats)
    k     coffees on the table
    s_tc  spread of taster x coffee: that one taster likes this coffee more than others do, every time
    s_e   spread of what is left: the same taster, the same coffee, another bowl

A taster's habitual level cancels, since all score the same coffees. The mean difference of two coffees over T
tasters has variance 2 (s_tc^2 + s_e^2 / R) / T, and (T - 1)(k - 1) degrees of freedom if the spread is taken
from all k coffees; with two coffees this is Student's paired t.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from scipy.optimize import brentq
from scipy.special import stdtrit

from cupwright.core.plan.critical_counts import checked_chance
from cupwright.core.plan.noncentral_t import chance_beyond
from cupwright.errors import Refused, TooFewObservations

MOST_TASTERS = 10_000
MOST_REPEATS = 1_000
MOST_COFFEES = 100
MOST_POINTS = 1000


@dataclass(frozen=True, slots=True)
class Spread:
    """Standard deviations in points: taster x coffee, and what is left from bowl to bowl."""

    taster_coffee: float
    residual: float


# An assumption, for want of a measured one: trade pages say that a cupper's own repeats lie a point apart and
# two cuppers one to two points. Mean distances of 1.0 and 1.5 are spreads of 0.89 and 1.33 (a normal's mean
# distance is 1.128 spreads), and the second holds the first: 1.33^2 = 0.99^2 + 0.89^2.
ASSUMED_SPREAD = Spread(taster_coffee=1.0, residual=0.9)


@dataclass(frozen=True, slots=True)
class PanelSize:
    """So many tasters with so many bowls each; `tasters` is None where no number up to 10,000 is enough."""

    repeats: int
    tasters: int | None
    power: float | None


@dataclass(frozen=True, slots=True)
class NeededPanels:
    """Tasters needed with 1, 2, ... bowls, and with endless ones (`at_best`; None: more than 10,000)."""

    points: float
    spread: Spread
    coffees: int
    alpha: float
    power: float
    panels: tuple[PanelSize, ...]
    at_best: int | None


@dataclass(frozen=True, slots=True)
class PanelReach:
    """What a given panel can do. Points; `best_power` is what endless bowls would come to, `repeats_needed`
    how many bowls reach the wanted power (None: no number up to 1,000 does).

    `detectable` is the difference found with the wanted power, `half_width` how far the interval of a
    difference reaches to either side if the spread is as given.
    """

    tasters: int
    repeats: int
    power: float
    best_power: float
    detectable: float
    half_width: float
    repeats_needed: int | None


def difference_power(
    points: float, tasters: int, spread: Spread, *, repeats: float = 1, coffees: int = 2, alpha: float = 0.05
) -> float:
    """How often does such a panel find a difference of `points` between two coffees?

    Parameters
    ----------
    points : float
        True difference, of either sign.
    tasters : int
        T >= 2.
    spread : Spread
        Standard deviations in points, at least 0, not both 0.
    repeats : float
        R >= 1; may be infinite, to see what bowls can do at best.
    coffees : int
        k >= 2 on the table, all of one spread.
    alpha : float in (0, 1)
        Error where there is no difference, two-sided.

    Returns
    -------
    float
        Power in 0..1, for a finding in the right direction or the wrong one.

    Raises
    ------
    TooFewObservations
        With fewer than two tasters or two coffees.
    Refused
        If another number is out of its range.

    Notes
    -----
    Error: exact if scores are normal with one spread; coarse steps of the sheet cost a little more (see
    simulated_size.py).
    Source: noncentral t [Student1908], [JohnsonWelch1940]; checked against statsmodels.
    """
    checked_chance(alpha, "An error", "alpha")
    _check_points(points)
    _check_panel(tasters, spread, repeats, coffees)
    df = (tasters - 1) * (coffees - 1)
    limit = -float(stdtrit(df, alpha / 2))
    error = standard_error(tasters, spread, repeats=repeats)
    if error == 0:
        return alpha if points == 0 else 1.0
    far = abs(points) / error
    return chance_beyond(limit, df, far)


def standard_error(tasters: int, spread: Spread, *, repeats: float = 1) -> float:
    """Standard error of the difference of two coffees' means, in points."""
    return math.sqrt(2 * (spread.taster_coffee**2 + spread.residual**2 / repeats) / tasters)


def needed_panels(
    points: float,
    spread: Spread,
    *,
    most_repeats: int = 5,
    coffees: int = 2,
    alpha: float = 0.05,
    power: float = 0.9,
) -> NeededPanels:
    """How many tasters are needed with 1, 2, ... bowls of each coffee?

    Parameters
    ----------
    points : float
        Difference to be found; not 0.
    spread, coffees, alpha
        As in `difference_power`.
    most_repeats : int
        Up to how many bowls, 1 to 20.
    power : float in (0, 1)
        How often it should be found.

    Returns
    -------
    NeededPanels
        One size for each number of bowls; power rises with every taster, so the first number holds for good.

    Raises
    ------
    Refused
        If a number is out of its range.
    """
    checked_chance(power, "A power", "power")
    _check_points(points, none=False)
    _check_whole(most_repeats, "bowls", 1, 20, "repeats")

    def with_bowls(repeats: float, tasters: int) -> float:
        return difference_power(points, tasters, spread, repeats=repeats, coffees=coffees, alpha=alpha)

    panels = [_needed_panel(bowls, power, partial(with_bowls, bowls)) for bowls in range(1, most_repeats + 1)]
    # Where a taster's own liking has no spread, endless bowls leave nothing to be uncertain of.
    certain = spread.taster_coffee == 0
    at_best = (
        2 if certain else _first(lambda tasters: with_bowls(math.inf, tasters) >= power, 2, MOST_TASTERS)
    )
    return NeededPanels(points, spread, coffees, alpha, power, tuple(panels), at_best)


def panel_reach(
    points: float,
    tasters: int,
    spread: Spread,
    *,
    repeats: int = 1,
    coffees: int = 2,
    alpha: float = 0.05,
    power: float = 0.9,
) -> PanelReach:
    """What can this panel do: its power, what more bowls would add, and the smallest difference it finds?

    Arguments and refusals as in `needed_panels` and `difference_power`; more bowls shrink only the residual
    part.
    """
    checked_chance(power, "A power", "power")

    def at(bowls: float) -> float:
        return difference_power(points, tasters, spread, repeats=bowls, coffees=coffees, alpha=alpha)

    df = (tasters - 1) * (coffees - 1)
    now, best = at(repeats), at(math.inf)
    enough = (
        math.ceil(_first(lambda bowls: at(bowls) >= power, 1, MOST_REPEATS) or 0) if best >= power else None
    )
    return PanelReach(
        tasters=tasters,
        repeats=repeats,
        power=now,
        best_power=best,
        detectable=detectable(tasters, spread, repeats=repeats, coffees=coffees, alpha=alpha, power=power),
        half_width=-float(stdtrit(df, alpha / 2)) * standard_error(tasters, spread, repeats=repeats),
        repeats_needed=enough or None,
    )


def detectable(
    tasters: int,
    spread: Spread,
    *,
    repeats: int = 1,
    coffees: int = 2,
    alpha: float = 0.05,
    power: float = 0.9,
) -> float:
    """The difference in points that such a panel finds so often; the inverse of `difference_power`.

    Raises Refused where a number is out of its range. Error: below 1e-9 of the standard error.
    """
    checked_chance(power, "A power", "power")
    checked_chance(alpha, "An error", "alpha")
    _check_panel(tasters, spread, repeats, coffees)
    df = (tasters - 1) * (coffees - 1)
    limit = -float(stdtrit(df, alpha / 2))

    def lacking(far: float) -> float:
        return chance_beyond(limit, df, far) - power

    if power <= alpha:
        return 0.0
    high = 1.0
    while lacking(high) < 0:
        high *= 2
    # In standard errors: their size does not matter to the root.
    return float(brentq(lacking, 0.0, high, xtol=1e-10)) * standard_error(tasters, spread, repeats=repeats)


def _needed_panel(repeats: int, power: float, power_of: Callable[[int], float]) -> PanelSize:
    tasters = _first(lambda count: power_of(count) >= power, 2, MOST_TASTERS)
    return PanelSize(repeats, tasters, None if tasters is None else power_of(tasters))


def _first(enough: Callable[[int], bool], low: int, high: int) -> int | None:
    """The smallest whole number that is enough, if more is never worse; None if not even `high` is."""
    top = low
    while top < high and not enough(top):
        low, top = top + 1, min(2 * top, high)
    if not enough(top):
        return None
    while low < top:
        middle = (low + top) // 2
        low, top = (low, middle) if enough(middle) else (middle + 1, top)
    return top


def _check_points(points: float, *, none: bool = True) -> None:
    if not abs(points) <= MOST_POINTS or (points == 0 and not none):
        raise Refused(
            f"A difference of {points:g} points is none that can be found.",
            todo="Give the smallest difference that would matter, such as 1.",
            about="points",
        )


def _check_panel(tasters: int, spread: Spread, repeats: float, coffees: int) -> None:
    for value, what, about in (
        (spread.taster_coffee, "taster by coffee", "taster_sd"),
        (spread.residual, "bowl to bowl", "residual_sd"),
    ):
        if not 0 <= value <= MOST_POINTS:
            raise Refused(
                f"A spread of {value:g} points, {what}, is not a number from 0 to {MOST_POINTS}.",
                todo="Give a standard deviation in points, such as 1.",
                about=about,
            )
    if spread.taster_coffee == spread.residual == 0:
        raise Refused(
            "Without any spread one taster is enough and nothing needs counting.",
            todo="Give how far scores lie apart, as a standard deviation in points.",
            about="taster_sd",
        )
    if tasters == 1 or coffees == 1:
        raise TooFewObservations(
            "One taster, or one coffee, has no spread to compare a difference with.",
            todo="Plan for two or more.",
            about="tasters" if tasters == 1 else "coffees",
        )
    _check_whole(tasters, "tasters", 2, MOST_TASTERS, "tasters")
    _check_whole(coffees, "coffees", 2, MOST_COFFEES, "coffees")
    if repeats != math.inf:
        _check_whole(repeats, "bowls", 1, MOST_REPEATS, "repeats")


def _check_whole(value: float, what: str, low: int, high: int, about: str) -> None:
    if not math.isfinite(value) or value != int(value) or not low <= value <= high:
        raise Refused(
            f"{value:g} is not a number of {what} between {low} and {high:,}.",
            todo="Give a whole number.",
            about=about,
        )
