"""Penalty-lift: how much more is a coffee liked where a word was used than where it was not?"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import stdtr, stdtrit

from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.level import checked_level
from cupwright.core.analyse.scales import mean_interval, rounding_spread
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import NoSpread, Refused, TooFewObservations

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class PenaltyLift(Tabular):
    """Mean liking where a word was used, less where it was not, in the unit of liking.

    `lift` is the plain difference of the two means. `within` is the mean of each taster's own difference,
    over the `tasters_with_both`: a taster who likes everything, and has a word for it, does not count there;
    None where fewer than two tasters have both. `p` tests `within` against 0 (None without it).
    """

    lift: Estimate
    within: Estimate | None
    p: float | None
    checked: int
    not_checked: int
    tasters: int
    tasters_with_both: int

    def rows(self) -> list[Record]:
        """The two readings, one row each."""
        found = [("all cups", self.lift), ("within tasters", self.within)]
        return [
            {"reading": name, "estimate": one.estimate, "low": one.low, "high": one.high}
            for name, one in found
            if one
        ]


def penalty_lift(
    checked: ArrayLike, liking: ArrayLike, *, level: float = 0.95, step: float = 0.0
) -> PenaltyLift:
    """Does a word go with liking, and by how much?

    Parameters
    ----------
    checked : bool or 0/1 array, shape (n_coffees, n_tasters)
        Whether the taster used the word for the coffee; NaN where they did not answer.
    liking : float array, shape (n_coffees, n_tasters)
        Any unit; NaN where there is none.
    level : float in (0, 1)
        Coverage of each interval.
    step : float
        The scale's step: tasters whose whole points are the same do not agree to the last decimal.

    Raises
    ------
    TooFewObservations
        If one taster alone, or none, used the word, or did not: the difference would be that taster's.
    NoSpread
        If all likings are equal, or leave no room for chance.
    Refused
        If the shapes differ, or the level is not between 0 and 1.

    Notes
    -----
    lift = mean(liking | checked) - mean(liking | not checked); its interval leaves out one taster at a time
    (variance (n - 1)/n sum (d_i - mean d)^2, Student's t with n - 1 degrees of freedom). `within`: Student's
    t over tasters.
    Error: for other tasters of these same coffees; the word need not be the reason. Near its level from five
    tasters on; see docs/methods/penalty_lift.md for how far off with fewer.
    Source: [Meyners2013]; leaving out one [Tukey1958].
    """
    used, values, answered = _checked(checked, liking)
    level = checked_level(level)
    within, count = _within(used, values, answered, level, step)
    return PenaltyLift(
        lift=_plain(used, values, answered, level, step),
        within=within,
        p=_p(used, values, answered, step) if within else None,
        checked=int((used & answered).sum()),
        not_checked=int((~used & answered).sum()),
        tasters=int(answered.any(axis=0).sum()),
        tasters_with_both=count,
    )


def _checked(checked: ArrayLike, liking: ArrayLike) -> tuple[Bools, Floats, Bools]:
    ticks, values = np.asarray(checked, dtype=float), np.asarray(liking, dtype=float)
    if ticks.shape != values.shape or ticks.ndim != 2:
        raise Refused("Words and liking differ in shape.", todo="Give one row a coffee, one column a taster.")
    answered = ~np.isnan(ticks) & ~np.isnan(values)
    used = answered & (ticks > 0)
    for group in (used, answered & ~used):
        if group.any(axis=0).sum() < 2:
            raise TooFewObservations(
                "Fewer than two tasters used the word, or fewer than two did not.",
                todo="Read their notes instead.",
            )
    if np.ptp(values[answered]) == 0:
        raise NoSpread("Every liking is the same.", todo="Report the common liking.")
    return used, np.where(answered, values, 0.0), answered


def _plain(used: Bools, values: Floats, answered: Bools, level: float, step: float) -> Estimate:
    others = answered & ~used
    sums = np.stack([(values * group).sum(axis=0) for group in (used, others)])
    counts = np.stack([used.sum(axis=0), others.sum(axis=0)])
    there = answered.any(axis=0)
    sums, counts = sums[:, there], counts[:, there]
    means = sums.sum(axis=1) / counts.sum(axis=1)
    left = (sums.sum(axis=1, keepdims=True) - sums) / (counts.sum(axis=1, keepdims=True) - counts)
    without = left[0] - left[1]
    n = sums.shape[1]
    variance = (n - 1) / n * ((without - without.mean()) ** 2).sum()
    # Rounding hides this much of each cup.
    hidden = rounding_spread(step) ** 2 * (1 / counts.sum(axis=1)).sum()
    reach = float(stdtrit(n - 1, (1 + level) / 2) * np.sqrt(max(variance, hidden)))
    if reach == 0:
        raise NoSpread("The tasters' likings leave no room for chance.", todo="Give the step of the scale.")
    lift = float(means[0] - means[1])
    return Estimate(lift, lift - reach, lift + reach, level)


def _own_lifts(used: Bools, values: Floats, answered: Bools) -> Floats:
    others = answered & ~used
    both = used.any(axis=0) & others.any(axis=0)
    mine, rest = used[:, both], others[:, both]
    scores = values[:, both]
    return np.asarray(
        (scores * mine).sum(axis=0) / mine.sum(axis=0) - (scores * rest).sum(axis=0) / rest.sum(axis=0)
    )


def _within(
    used: Bools, values: Floats, answered: Bools, level: float, step: float
) -> tuple[Estimate | None, int]:
    lifts = _own_lifts(used, values, answered)
    if len(lifts) < 2 or (np.ptp(lifts) == 0 and step == 0):
        return None, len(lifts)
    return mean_interval(lifts, level=level, least_spread=rounding_spread(step)).mean, len(lifts)


def _p(used: Bools, values: Floats, answered: Bools, step: float) -> float:
    lifts = _own_lifts(used, values, answered)
    spread = max(float(lifts.std(ddof=1)), rounding_spread(step))
    t = float(lifts.mean() / (spread / np.sqrt(len(lifts))))
    return float(2 * stdtr(len(lifts) - 1, -abs(t)))
