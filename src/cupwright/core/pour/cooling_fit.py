"""The cooling of one table's bowls: expected from the plan, and fitted to readings of a thermometer.

What is not known beforehand: how hot the bowl starts, how fast it loses heat, how much of that is vapour.
Each has a range before any reading; readings narrow it by least squares with that range as a prior. So one
reading already moves what it can, and a later one, when vapour matters less, tells vapour from the rest.

Source: least squares with a normal prior and the interval from the curvature at its best point, [Gelman2013],
from memory. The ranges are assumptions.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from statistics import NormalDist

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cupwright.core.plan.table import Plan
from cupwright.core.pour.boiling import POUR_LOSS_K, boiling
from cupwright.core.pour.cooling import SURFACE_W_M2_K, Cup, resting_c, temperatures, wet_w_kpa
from cupwright.core.pour.heat_balance import poured_c
from cupwright.core.pour.steam_table import density_g_per_ml
from cupwright.core.pour.vessel import vessel_of

Floats = NDArray[np.float64]

# Spread (one standard deviation) before any reading: start in K, all losses and the vapour's share of them as
# natural logarithms.
PRIOR: Floats = np.array([2.5, 0.25, 0.35])
THERMOMETER_K = 0.5
BOWL_K = 0.8  # from bowl to bowl
MODEL_K = 0.7  # what the model cannot follow
LEVEL = 0.95
# A reading this many of its own errors away is rather another cup's or a slip of the pen.
DOUBTFUL = 3.0
LONGEST_S = 6 * 3600.0

_ROUNDS = 12
_NUDGES = np.array([1e-3, 1e-4, 1e-4])
_GRID_S = np.arange(0.0, LONGEST_S + 1, 30.0)


@dataclass(frozen=True, slots=True)
class Estimate:
    """A temperature in °C and the interval that holds it at the curve's level."""

    celsius: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Minute:
    """Minutes after a bowl's pour; `high` is infinite where the bowl may never get there within six hours."""

    minutes: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Cooling:
    """How a bowl of the table cools. `cup` is the best guess, `spread` the covariance of what was fitted.

    `readings` counts what it was fitted to, `misfit` says by how many of its own errors the worst reading is
    off.
    """

    prior: Cup
    cup: Cup
    spread: Floats = field(repr=False)
    readings: int = 0
    misfit: float = 0.0
    level: float = LEVEL
    _at: Floats = field(default_factory=lambda: np.zeros(3), repr=False)

    @property
    def is_doubtful(self) -> bool:
        """Whether the readings do not go together, so that one of them may be no reading of these bowls."""
        return self.misfit > DOUBTFUL

    def band(self, seconds: ArrayLike) -> tuple[Floats, Floats, Floats]:
        """Estimate, low and high in °C at some seconds after the pour, each of the same shape."""
        times = np.atleast_1d(np.asarray(seconds, dtype=float))
        middle = temperatures(self.cup, times)
        slopes = _slopes(self.prior, self._at, times)
        known = np.einsum("ij,jk,ik->i", slopes, self.spread, slopes)
        reach = NormalDist().inv_cdf((1 + self.level) / 2) * np.sqrt(known + MODEL_K**2 + BOWL_K**2)
        # No cup is colder than where it comes to rest.
        rest = np.minimum(middle, resting_c(self.cup, self.cup.wet_w_kpa))
        return middle, np.maximum(middle - reach, rest), middle + reach

    def at(self, seconds: float) -> Estimate:
        """The temperature of a bowl some seconds after its pour."""
        middle, low, high = self.band(seconds)
        return Estimate(float(middle[0]), float(low[0]), float(high[0]))

    def reaches(self, celsius: float) -> Minute:
        """When a bowl has come down to that temperature: 0 if it starts below."""
        first, last, middle = (_falls_below(curve, celsius) for curve in self._low_high_middle())
        return Minute(middle, first, last)

    def _low_high_middle(self) -> tuple[Floats, Floats, Floats]:
        middle, low, high = self.band(_GRID_S)
        return low, high, middle


def expected(plan: Plan, *, crust_until_s: float = 240.0, on_grounds: bool = True) -> Cooling:
    """The cooling to expect of a plan's bowls before anything was measured.

    Parameters
    ----------
    plan : Plan
        Its kettle, bowl, dose, vessel, altitude and room; already checked.
    crust_until_s : float
        When a bowl is broken, from its pour; 0 where nothing is broken.
    on_grounds : bool
        Whether water is poured onto grounds in the vessel, or coffee that was brewed apart.

    Notes
    -----
    Error: wide, about ± 7 K at the first taste: bowls, kettles and hands differ. Take a reading.
    """
    cup = _cup(plan, crust_until_s, on_grounds)
    return Cooling(cup, cup, np.asarray(np.diag(PRIOR**2)))


def fitted(before: Cooling, readings: Sequence[tuple[float, float]]) -> Cooling:
    """The cooling after some readings.

    Parameters
    ----------
    before : Cooling
        As `expected` gives it.
    readings : sequence of (seconds after the bowl's own pour, °C)
        At least one, of any bowls of the table, in any order; all of them, also those fitted before.

    Notes
    -----
    Error: the interval takes the model as linear around its best point. Bowls of one table are taken to share
    their curve but for 0.8 K.
    """
    times = np.array([seconds for seconds, _ in readings])
    seen = np.array([celsius for _, celsius in readings])
    noise = np.sqrt(THERMOMETER_K**2 + BOWL_K**2 + MODEL_K**2)
    at = np.zeros(3)
    for _ in range(_ROUNDS):
        slopes = _slopes(before.prior, at, times)
        off = seen - temperatures(_moved(before.prior, at), times) + slopes @ at
        found = np.linalg.solve(_curvature(slopes, noise), slopes.T @ off / noise**2)
        # No reading can be so good that it shifts what is known by more than four of its own spreads.
        found = np.asarray(np.clip(found, -4 * PRIOR, 4 * PRIOR), dtype=float)
        moved, at = float(np.max(np.abs(found - at))), found
        if moved < 1e-7:
            break
    spread = np.asarray(np.linalg.inv(_curvature(_slopes(before.prior, at, times), noise)))
    cup = _moved(before.prior, at)
    misfit = float(np.max(np.abs(seen - temperatures(cup, times)))) / float(noise)
    return Cooling(before.prior, cup, spread, len(readings), misfit, before.level, at)


def _cup(plan: Plan, crust_until_s: float, on_grounds: bool) -> Cup:
    place = boiling(plan.kettle_c, altitude_m=plan.altitude_m)
    vessel = vessel_of(plan.vessel, plan.bowl_ml)
    water_g = plan.bowl_ml * density_g_per_ml(place.reached_c, place.pressure_pa)
    grounds_g = plan.bowl_ml * plan.grams_per_litre / 1000 if on_grounds else 0.0
    pour_c = place.reached_c - sum(POUR_LOSS_K) / 2
    start, heat = poured_c(water_g, pour_c, grounds_g, vessel.heat_j_k, plan.room_c)
    walls = vessel.wall_cm2 * vessel.wall_w_m2_k + vessel.open_cm2 * SURFACE_W_M2_K
    return Cup(
        start_c=start,
        heat_j_k=heat,
        dry_w_k=walls / 1e4,
        wet_w_kpa=wet_w_kpa(vessel.open_cm2, place.pressure_pa),
        room_c=plan.room_c,
        crust_until_s=crust_until_s,
    )


def _moved(cup: Cup, at: Floats) -> Cup:
    """The cup with its start, losses and share of vapour shifted by the fitted amounts."""
    shift, rate, vapour = (float(value) for value in at)
    return replace(
        cup,
        start_c=max(cup.start_c + shift, cup.room_c + 1),
        dry_w_k=cup.dry_w_k * float(np.exp(rate)),
        wet_w_kpa=cup.wet_w_kpa * float(np.exp(rate + vapour)),
    )


def _slopes(cup: Cup, at: Floats, seconds: Floats) -> Floats:
    """By how much the temperatures change with each of the three, shape (times, 3)."""
    columns = []
    for which, nudge in enumerate(_NUDGES):
        step = np.zeros(3)
        step[which] = nudge
        more, less = (temperatures(_moved(cup, at + way * step), seconds) for way in (1, -1))
        columns.append((more - less) / (2 * nudge))
    return np.stack(columns, axis=-1)


def _curvature(slopes: Floats, noise: float) -> Floats:
    return np.asarray(slopes.T @ slopes / noise**2 + np.diag(PRIOR**-2.0))


def _falls_below(curve: Floats, celsius: float) -> float:
    """Minutes until a falling curve on the grid passes a temperature; infinite if it does not."""
    below = np.flatnonzero(curve <= celsius)
    if below.size == 0:
        return float("inf")
    i = int(below[0])
    if i == 0:
        return 0.0
    share = (curve[i - 1] - celsius) / (curve[i - 1] - curve[i])
    return float((_GRID_S[i - 1] + share * (_GRID_S[i] - _GRID_S[i - 1])) / 60)
