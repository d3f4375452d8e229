"""As it cools: how points move with the temperature of the cup, coffee by coffee.

Slopes are points for each 10 K that the cup is cooler. What a taster habitually gives, and where each coffee
stands, is set aside before the slope is taken.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import stdtrit

from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.finding import Finding, silent
from cupwright.core.analyse.normal_intervals import around, tail_of_f
from cupwright.core.analyse.scores import Scores
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import NoSpread, TooFewObservations

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

LEAST_SPREAD_K, LEAST_FREEDOM = 2.0, 3
# Where the error of the thermometer makes up more than half of the variance, no trend is told.
LEAST_ATTENUATION = 0.5
_STEP_K, _POINTS = 10.0, 9
_EVEN = 1e-9


@dataclass(frozen=True, slots=True)
class LinePoint:
    """The line of a coffee at one temperature, in points, with its interval."""

    celsius: float
    estimate: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class CoffeeCooling:
    """One coffee. `slope`: points for each 10 K cooler. `line` from the hottest cup down, or empty."""

    coffee: str
    scores: int
    hottest_c: float
    coolest_c: float
    slope: Finding
    line: tuple[LinePoint, ...]


@dataclass(frozen=True, slots=True)
class SlopeDifference:
    """Slope of coffee `a` less that of `b`, in points for each 10 K cooler."""

    a: str
    b: str
    difference: Estimate


@dataclass(frozen=True, slots=True)
class CoolingTrend(Tabular):
    """How one attribute moves as the cups cool.

    `overall` is one slope for all coffees. `p_same` is how often coffees that all move alike would come out
    as different as these (None where it cannot be told). `attenuation` in (0, 1] is what a thermometer's
    error draws every slope towards 0 by; 1 where none was stated. `within_cells`: tasters met a coffee at
    several temperatures, and slopes come from these alone.
    """

    overall: Finding
    coffees: tuple[CoffeeCooling, ...]
    pairs: tuple[SlopeDifference, ...]
    p_same: float | None
    attenuation: float
    within_cells: bool
    level: float

    def rows(self) -> list[Record]:
        """One record a coffee."""
        return [
            {"coffee": one.coffee, "scores": one.scores, **one.slope.flat("per_10_k_cooler")}
            for one in self.coffees
        ]


@dataclass(frozen=True, slots=True)
class _Rows:
    """Scores whose temperature is known; `cool` is how many times 10 K the cup is below 0 °C."""

    names: tuple[str, ...]
    coffee: Ints
    taster: Ints
    value: Floats
    cool: Floats
    within_cells: bool

    def kept(self, keep: Bools) -> "_Rows":
        return _Rows(
            self.names,
            self.coffee[keep],
            self.taster[keep],
            self.value[keep],
            self.cool[keep],
            self.within_cells,
        )

    def freed(self, columns: Floats) -> Floats:
        """Columns, shape (n_rows, n_columns), without what the blocks explain."""
        blocks = self.blocks
        return np.asarray(columns - blocks @ np.linalg.lstsq(blocks, columns, rcond=None)[0])

    @property
    def blocks(self) -> Floats:
        """Indicators: of every cell, or of coffees and tasters."""
        if self.within_cells:
            return _indicators(self.coffee * (int(self.taster.max()) + 1) + self.taster)
        return np.column_stack([_indicators(self.coffee), _indicators(self.taster)])


def cooling_trend(scores: Scores, *, temperature_error: float = 0.0, level: float = 0.95) -> CoolingTrend:
    """Does a coffee gain or lose as it cools, and do coffees differ in that?

    Parameters
    ----------
    scores : Scores
        With `temperature` in °C; scores without one are left out.
    temperature_error : float
        Standard deviation of a thermometer's error, in K; 0 where temperatures are computed from the clock.
    level : float in (0, 1)
        Coverage of each interval.

    Raises
    ------
    TooFewObservations
        If no temperature is known, or too few scores are left.
    NoSpread
        If the temperatures hardly vary, or are no surer than they vary.

    Notes
    -----
    Least squares of points on coolness within blocks: a block is one taster's scores of one coffee where
    these were given at several temperatures, else coffees and tasters are set aside as added levels. One
    residual variance for all; Student's t. p_same is the F test of one slope against one a coffee.
    Error: exact for normal deviations. It speaks for these tasters; cups taste different when later for other
    reasons than warmth too (tired tongues, talk). A temperature that was computed from the clock differs from
    the true one without drawing the slope in (Berkson's case); one that was *measured* with error e draws it
    by 1 - e^2 / s^2, s the spread of the temperatures in their blocks: `attenuation`.
    Source: [Fuller1987], section 1.1; [Berkson1950]; checked against statsmodels.
    """
    rows = _known(scores)
    spread = _spread(rows)
    attenuation = _attenuation(spread, temperature_error)
    separate = rows.kept(np.isin(rows.coffee, _moving(rows)))
    overall, common_squares = _common(rows, level)
    fitted = _separate(separate)
    each = tuple(_coffee(rows, number, fitted, level) for number in range(len(rows.names)))
    return CoolingTrend(
        overall,
        each,
        _pairs(rows.names, fitted, level),
        _p_same(separate, fitted, common_squares if len(separate.coffee) == len(rows.coffee) else None),
        attenuation,
        rows.within_cells,
        level,
    )


def _known(scores: Scores) -> _Rows:
    known = np.zeros(len(scores), dtype=bool) if scores.temperature is None else ~np.isnan(scores.temperature)
    if scores.temperature is None or not known.any():
        raise TooFewObservations(
            "No cup's temperature is known.", todo="Start the clock, or read a thermometer."
        )
    columns = (
        scores.coffee[known],
        scores.taster[known],
        scores.value[known],
        -scores.temperature[known] / _STEP_K,
    )
    cells = columns[0] * len(scores.tasters) + columns[1]
    coffees = len(np.unique(columns[0]))
    within = len(cells) - len(np.unique(cells)) - coffees >= LEAST_FREEDOM
    rows = _Rows(scores.coffees, *columns, within)
    if len(cells) - np.linalg.matrix_rank(rows.blocks) - 1 < LEAST_FREEDOM:
        raise TooFewObservations(
            f"{len(cells)} scores with a temperature are too few for a trend.",
            todo="Score again as the cups cool.",
        )
    return rows


def _spread(rows: _Rows) -> float:
    """Standard deviation of the temperatures in their blocks, in K."""
    freed = rows.freed(rows.cool[:, None])[:, 0]
    spread = _STEP_K * float(np.sqrt(freed @ freed / (len(freed) - np.linalg.matrix_rank(rows.blocks))))
    if spread < LEAST_SPREAD_K:
        raise NoSpread(
            f"The temperatures hardly vary (by {spread:.1f} K), so no trend can be told.",
            todo="Taste each coffee again when it is 10 K cooler.",
        )
    return spread


def _attenuation(spread: float, error: float) -> float:
    attenuation = 1 - (error / spread) ** 2
    if attenuation < LEAST_ATTENUATION:
        raise NoSpread(
            f"The temperatures vary by {spread:.1f} K and are known to {error:.1f} K only.",
            todo="Read them with a better thermometer, or taste over a wider range.",
        )
    return attenuation


def _moving(rows: _Rows) -> list[int]:
    """Coffees whose own temperatures vary enough, within cells where slopes come from there."""
    moving: list[int] = []
    for coffee in np.unique(rows.coffee):
        own = rows.coffee == coffee
        cell = rows.taster[own] if rows.within_cells else np.zeros(int(own.sum()), dtype=np.int64)
        blocks = _indicators(cell)
        left = rows.cool[own] - blocks @ (blocks.T @ rows.cool[own] / blocks.sum(axis=0))
        freedom = len(left) - blocks.shape[1]
        if freedom >= 1 and _STEP_K * np.sqrt(left @ left / freedom) >= LEAST_SPREAD_K:
            moving.append(int(coffee))
    return moving


@dataclass(frozen=True, slots=True)
class _Fit:
    """Slopes of some coffees with their covariance over the residual variance, and the residual."""

    coffees: tuple[int, ...]
    slopes: Floats
    shape: Floats
    squares: float
    freedom: int

    @property
    def variance(self) -> float:
        return self.squares / self.freedom


def _common(rows: _Rows, level: float) -> tuple[Finding, float]:
    fit = _fit(rows, rows.cool[:, None], (0,))
    if fit is None:
        return silent("One slope for all coffees cannot be told from their places.", 0), 0.0
    return _slope(fit, 0, level), fit.squares


def _separate(rows: _Rows) -> _Fit | None:
    coffees = tuple(int(one) for one in np.unique(rows.coffee))
    if not coffees:
        return None
    return _fit(rows, rows.cool[:, None] * (rows.coffee[:, None] == np.array(coffees)), coffees)


def _fit(rows: _Rows, columns: Floats, coffees: tuple[int, ...]) -> _Fit | None:
    """None where the slopes cannot be told from the blocks, or too little is left to know the scatter."""
    freed = rows.freed(np.column_stack([columns, rows.value]))
    x, y = freed[:, :-1], freed[:, -1]
    freedom = len(y) - int(np.linalg.matrix_rank(rows.blocks)) - x.shape[1]
    if freedom < LEAST_FREEDOM or np.linalg.matrix_rank(x, tol=_EVEN * len(y)) < x.shape[1]:
        return None
    shape = np.asarray(np.linalg.inv(x.T @ x), dtype=float)
    slopes = shape @ (x.T @ y)
    left = y - x @ slopes
    return _Fit(coffees, slopes, shape, float(left @ left), freedom)


def _slope(fit: _Fit, place: int, level: float) -> Finding:
    if fit.squares <= _EVEN**2:
        return silent(
            "The scores lie on the line to the last digit; how sure that is cannot be told.", fit.freedom
        )
    reach = stdtrit(fit.freedom, (1 + level) / 2) * np.sqrt(fit.variance * fit.shape[place, place])
    return Finding(around(float(fit.slopes[place]), float(reach), level), fit.freedom)


def _coffee(rows: _Rows, number: int, fit: _Fit | None, level: float) -> CoffeeCooling:
    own = rows.coffee == number
    celsius = -_STEP_K * rows.cool[own]
    ends = (float(celsius.max(initial=-np.inf)), float(celsius.min(initial=np.inf)))
    if fit is None or number not in fit.coffees:
        why = (
            "Its cups were all tasted at about one temperature." if own.any() else "No temperature is known."
        )
        if fit is None and own.any():
            why = "There are too few scores for a slope of its own."
        ends = ends if own.any() else (float("nan"), float("nan"))
        return CoffeeCooling(rows.names[number], int(own.sum()), *ends, silent(why), ())
    place = fit.coffees.index(number)
    slope = _slope(fit, place, level)
    line = _line(rows.value[own], celsius, fit, place, level) if slope.found else ()
    return CoffeeCooling(rows.names[number], int(own.sum()), *ends, slope, line)


def _line(value: Floats, celsius: Floats, fit: _Fit, place: int, level: float) -> tuple[LinePoint, ...]:
    """Through the middle of the coffee's cups; the band holds the line of these tasters."""
    t = stdtrit(fit.freedom, (1 + level) / 2)
    made: list[LinePoint] = []
    for at in np.linspace(celsius.max(), celsius.min(), _POINTS):
        away = float(celsius.mean() - at) / _STEP_K
        middle = float(value.mean()) + float(fit.slopes[place]) * away
        reach = float(t * np.sqrt(fit.variance * (1 / len(value) + fit.shape[place, place] * away**2)))
        made.append(LinePoint(float(at), middle, middle - reach, middle + reach))
    return tuple(made)


def _pairs(names: tuple[str, ...], fit: _Fit | None, level: float) -> tuple[SlopeDifference, ...]:
    if fit is None or fit.squares <= _EVEN**2:
        return ()
    t = stdtrit(fit.freedom, (1 + level) / 2)
    found: list[SlopeDifference] = []
    for i, a in enumerate(fit.coffees):
        for j, b in enumerate(fit.coffees[i + 1 :], start=i + 1):
            shape = fit.shape[i, i] + fit.shape[j, j] - 2 * fit.shape[i, j]
            reach = float(t * np.sqrt(fit.variance * shape))
            difference = around(float(fit.slopes[i] - fit.slopes[j]), reach, level)
            found.append(SlopeDifference(names[a], names[b], difference))
    return tuple(found)


def _p_same(rows: _Rows, fit: _Fit | None, common: float | None) -> float | None:
    if fit is None or len(fit.coffees) < 2 or fit.squares <= _EVEN**2:
        return None
    if common is None:
        one = _fit(rows, rows.cool[:, None], (0,))
        if one is None:
            return None
        common = one.squares
    extra = len(fit.coffees) - 1
    return tail_of_f(max(common - fit.squares, 0.0) / extra / fit.variance, extra, fit.freedom)


def _indicators(labels: Ints) -> Floats:
    _, index = np.unique(labels, return_inverse=True)
    return np.asarray(np.eye(int(index.max()) + 1)[index])
