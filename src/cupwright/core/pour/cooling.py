"""Cooling: the temperature of an open cup against time.

    C dT/dt = -G (T - room) - E (p(T) - humidity p(room))

C is the heat capacity of water, grounds and wall, G what goes through walls and surface to the room, E what
leaves with the vapour; p is the pressure of vapour above water. Until the crust is broken E is small. Without
E this is Newton's law.

Source: the balance is a textbook's. p(T): [Buck1981] with the constants of 1996, from memory; within 0.2 %
of [IAPWS-IF97] from 0 to 100 °C. E follows from free convection by the relation of [Lewis1922], 16.5 W/(m²
kPa) for each W/(m² K), from memory. That evaporation takes the larger part while a cup is hot: two teaching
papers, one read as an abstract only (docs/methods/cooling.md).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cupwright.core.pour.steam_table import STANDARD_PRESSURE_PA
from cupwright.errors import Refused

Floats = NDArray[np.float64]

# Assumptions: a warm surface below a rim, and grounds that lie on it until they are broken.
SURFACE_W_M2_K = 10.0  # convection 5 and radiation 5
EVAPORATION_W_M2_KPA = 16.5 * 5.0
CRUST_SHARE = 0.2
HUMIDITY = 0.5

# Steps of the integral; with three points a step it is exact to 1e-6 K
# (tests/unit/core/pour/test_cooling.py).
_STEPS = 120
# Where the cup counts as at rest: e^-24 of its way is left, a few billionths of a kelvin.
_REST = 24.0
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(3)


@dataclass(frozen=True, slots=True)
class Cup:
    """A cup as it cools. J/K, W/K, W/kPa, °C, seconds after the pour.

    `crust_until_s` is when the crust is broken; before it only `crust_share` of the vapour leaves.
    """

    start_c: float
    heat_j_k: float
    dry_w_k: float
    wet_w_kpa: float
    room_c: float
    humidity: float = HUMIDITY
    crust_until_s: float = 240.0
    crust_share: float = CRUST_SHARE


def vapour_kpa(celsius: ArrayLike) -> Floats:
    """Pressure of vapour above water in kPa, for arrays. 20 °C: 2.338; 93 °C: 78.5."""
    t = np.asarray(celsius, dtype=float)
    return np.asarray(0.61121 * np.exp((18.678 - t / 234.5) * (t / (257.14 + t))))


def wet_w_kpa(open_cm2: float, pressure_pa: float = STANDARD_PRESSURE_PA) -> float:
    """E of an open surface; vapour spreads the faster, the thinner the air."""
    return EVAPORATION_W_M2_KPA * open_cm2 / 1e4 * STANDARD_PRESSURE_PA / pressure_pa


def temperatures(cup: Cup, seconds: ArrayLike) -> Floats:
    """The temperature of a cup, °C.

    Parameters
    ----------
    seconds : array of float, any shape
        Time since the pour; before it the cup has its starting temperature.

    Returns
    -------
    float array of the same shape
        Falls from `start_c` to a little below the room, where evaporation balances what the room gives.

    Raises
    ------
    Refused
        For a cup that is no hotter than the room.

    Notes
    -----
    Error: one temperature for the whole cup (the surface is a little colder); what evaporates is not taken
    off C, some 3 % of it in half an hour, so the curve is 0.3 K too warm by then. Stable for any times: the
    time is an integral over temperature, which has no stiff step.
    """
    if not cup.start_c > cup.room_c:
        raise Refused(
            f"A cup of {cup.start_c:g} °C does not cool in a room of {cup.room_c:g} °C.",
            todo="Check both temperatures.",
        )
    asked = np.asarray(seconds, dtype=float)
    covered = _Phase(cup, cup.wet_w_kpa * cup.crust_share, cup.start_c)
    at_break = float(covered(np.array(cup.crust_until_s)))
    opened = _Phase(cup, cup.wet_w_kpa, at_break)
    return np.where(
        asked <= cup.crust_until_s,
        covered(np.clip(asked, 0, cup.crust_until_s)),
        opened(np.maximum(asked - cup.crust_until_s, 0)),
    )


def watts(cup: Cup, celsius: ArrayLike, wet: float | None = None) -> Floats:
    """What an open cup loses at some temperature, W; `wet` (W/kPa) replaces its own E."""
    t = np.asarray(celsius, dtype=float)
    vapour = vapour_kpa(t) - cup.humidity * vapour_kpa(cup.room_c)
    return np.asarray(cup.dry_w_k * (t - cup.room_c) + (cup.wet_w_kpa if wet is None else wet) * vapour)


class _Phase:
    """A stretch of cooling with the same losses throughout, as a function of its own seconds.

    With u = ln of how far the start was above the end over how far the cup still is, u(t) is nearly a
    straight line (quite one without vapour), so its integral t(u) and its inverse are smooth.
    """

    def __init__(self, cup: Cup, wet: float, start_c: float) -> None:
        self._end = resting_c(cup, wet)
        self._above = start_c - self._end
        self._cup, self._wet = cup, wet
        self._u = np.array([0.0])
        self._t = np.array([0.0])

    def __call__(self, seconds: Floats) -> Floats:
        self._reach(float(np.max(seconds, initial=0.0)))
        return np.asarray(self._end + self._above * np.exp(-self._inverse(seconds)))

    def _reach(self, horizon: float) -> None:
        """Lay the grid so that it holds `horizon` seconds."""
        # The rate du/dt is greatest while the cup is hottest.
        fastest = float(1 / self._slope(np.array(0.0)))
        edges = np.linspace(0.0, np.clip(fastest * horizon, 1e-6, _REST), _STEPS + 1)
        passed = np.cumsum(self._between(edges[:-1], edges[1:]))
        self._u, self._t = edges, np.concatenate(([0.0], passed))

    def _between(self, u: Floats, upto: Floats) -> Floats:
        """Seconds from one u to another."""
        half = (upto - u)[..., None] / 2
        pieces = half * _WEIGHTS * self._slope(u[..., None] + half * (1 + _NODES))
        return np.asarray(pieces.sum(axis=-1))

    def _slope(self, u: Floats) -> Floats:
        """dt/du, seconds."""
        above = self._above * np.exp(-u)
        return np.asarray(self._cup.heat_j_k * above / watts(self._cup, self._end + above, self._wet))

    def _inverse(self, seconds: Floats) -> Floats:
        """u at some times: cubic between the grid's points by the slopes there, then one step to set it
        right."""
        seconds = np.minimum(seconds, self._t[-1])
        i = np.clip(np.searchsorted(self._t, seconds, side="right") - 1, 0, _STEPS - 1)
        step = self._t[i + 1] - self._t[i]
        x = (seconds - self._t[i]) / step
        here, there = 1 / self._slope(self._u[i]), 1 / self._slope(self._u[i + 1])
        u = np.asarray(
            self._u[i] * (1 + 2 * x) * (1 - x) ** 2
            + step * here * x * (1 - x) ** 2
            + self._u[i + 1] * x**2 * (3 - 2 * x)
            + step * there * x**2 * (x - 1)
        )
        late = self._t[i] + self._between(self._u[i], u) - seconds
        return np.asarray(u - late / self._slope(u))


def resting_c(cup: Cup, wet: float) -> float:
    """Where a cup stops cooling, °C: the loss is nought. Newton's steps come down on it, since it is
    convex."""
    t = cup.room_c
    for _ in range(20):
        low, here, high = watts(cup, [t - 1e-3, t, t + 1e-3], wet).tolist()
        step = here / (high - low) * 2e-3
        t -= step
        if abs(step) < 1e-12:
            break
    return t
