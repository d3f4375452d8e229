"""Simulated size: how often a table finds a difference, where no formula holds.

Tables are drawn with a difference put in and evaluated as they would be: each taster may get only some of the
coffees, scores come in the steps of the sheet, and some are never written. The difference of two coffees is
tested by least squares with a level for each taster and each coffee, which for a full table is the test of
panel_size.py.
"""

import math
import random
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy.special import stdtr

from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.proportions import wilson
from cupwright.core.plan.blocks import draw_blocks
from cupwright.core.plan.critical_counts import checked_chance
from cupwright.core.plan.panel_size import ASSUMED_SPREAD, Spread
from cupwright.errors import Refused

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

MOST_DRAWS = 20_000
MOST_SCORES_AT_ONCE = 2_000_000
MOST_SCORES = 20_000_000


@dataclass(frozen=True, slots=True)
class Design:
    """A table to be drawn again and again.

    `points` lie between the first two coffees; the others stand halfway. `samples_each` is how many of the
    coffees a taster gets (0: all), `step` the step of the scale in points (0: none), `lost` the share of a
    taster's coffees that stay without a score, `taster_level` the spread of tasters' habitual levels in
    points.
    """

    points: float
    tasters: int
    coffees: int = 2
    samples_each: int = 0
    repeats: int = 1
    spread: Spread = ASSUMED_SPREAD
    step: float = 0.0
    lost: float = 0.0
    taster_level: float = 1.0


@dataclass(frozen=True, slots=True)
class SimulatedPower:
    """How often the difference was found, and how often one where there is none (`false_alarms`).

    The intervals say how far luck in the drawing reaches; `error` is the standard error of `found`.
    """

    design: Design
    alpha: float
    draws: int
    seed: int
    found: Estimate
    error: float
    false_alarms: Estimate


def simulated_power(
    design: Design, *, alpha: float = 0.05, draws: int = 4000, seed: int = 1
) -> SimulatedPower:
    """How often does this table find the difference, and how often one that is not there?

    Parameters
    ----------
    design : Design
    alpha : float in (0, 1)
        Error of each test, two-sided.
    draws : int
        Tables drawn, 100 to 20,000.
    seed : int
        Of the drawing, from 0; the same number gives the same answer.

    Returns
    -------
    SimulatedPower

    Raises
    ------
    Refused
        If a number is out of its range, the drawing would be too large, or so few tasters with so few coffees
        each cannot link all coffees.

    Notes
    -----
    Where a draw cannot tell the two coffees apart at all (too much was lost), it counts as nothing found.
    Error: `error`, from the finite number of draws: 0.008 at most with 4000. Spreads are as given, normal.
    Source: intrablock analysis of incomplete blocks [Yates1936]; checked against noncentral t and against
    statsmodels' least squares on single draws.
    """
    checked_chance(alpha, "An error", "alpha")
    _check(design, draws, seed)
    rng = np.random.default_rng(seed)
    found = _count_found(design, alpha, draws, rng)
    alarms = _count_found(replace(design, points=0.0), alpha, draws, rng)
    share = found / draws
    return SimulatedPower(
        design=design,
        alpha=alpha,
        draws=draws,
        seed=seed,
        found=wilson(found, draws),
        error=math.sqrt(share * (1 - share) / draws),
        false_alarms=wilson(alarms, draws),
    )


def _count_found(design: Design, alpha: float, draws: int, rng: np.random.Generator) -> int:
    cells = design.tasters * design.coffees * design.repeats
    at_once = max(1, MOST_SCORES_AT_ONCE // cells)
    sizes = [min(at_once, draws - done) for done in range(0, draws, at_once)]
    return sum(int(np.sum(p_values(*_drawn(design, size, rng)) <= alpha)) for size in sizes)


def _drawn(design: Design, draws: int, rng: np.random.Generator) -> tuple[Floats, Bools]:
    """Scores and which of them are there, each of shape (draws, tasters, coffees); bowls are averaged."""
    shape = (draws, design.tasters, design.coffees)
    levels = rng.normal(0, design.taster_level, (*shape[:2], 1))
    # Where between two steps the true values lie is a matter of luck, too.
    levels += rng.uniform(0, design.step, (draws, 1, 1))
    coffees = np.zeros(design.coffees)
    coffees[:2] = design.points / 2, -design.points / 2
    likings = rng.normal(0, design.spread.taster_coffee, shape)
    bowls = rng.normal(0, design.spread.residual, (*shape, design.repeats))
    scores = (levels + coffees + likings)[..., None] + bowls
    if design.step > 0:
        scores = np.round(scores / design.step) * design.step
    there = served(design, draws, rng) & (rng.random(shape) >= design.lost)
    return scores.mean(axis=3), there


def served(design: Design, draws: int, rng: np.random.Generator) -> Bools:
    """Which taster gets which coffee in each draw, bool array of shape (draws, tasters, coffees).

    The blocks of a plan (blocks.py), drawn once; which coffees are compared changes from draw to draw, as two
    of them may meet in more tasters than two others.
    """
    each = design.samples_each or design.coffees
    if each == design.coffees:
        return np.ones((draws, design.tasters, design.coffees), dtype=bool)
    chance = random.Random(int(rng.integers(2**63)))
    given = np.zeros((design.coffees, design.tasters), dtype=bool)
    for taster, block in enumerate(draw_blocks(design.coffees, design.tasters, each, rng=chance)):
        given[list(block), taster] = True
    labels = rng.permuted(np.tile(np.arange(design.coffees), (draws, 1)), axis=1)
    return np.asarray(given[labels].transpose(0, 2, 1))


def p_values(scores: Floats, there: Bools) -> Floats:
    """Two-sided p value of the first coffee against the second in each draw; 1 where it cannot be told.

    Parameters
    ----------
    scores, there : float and bool arrays, shape (draws, tasters, coffees)
        Points, and which of them were given.

    Returns
    -------
    float array, shape (draws,)

    Notes
    -----
    Letters as in [Yates1936]: k how many coffees a taster scored, C the matrix of the normal equations once
    tasters are taken out, Q the coffees' totals adjusted for tasters. C alone has no inverse, since a level
    may be added to all coffees that hang together; with ones between those it has, and no contrast changes.
    """
    weight = there.astype(float)
    k = weight.sum(axis=2, keepdims=True)
    each = np.maximum(k, 1)
    centred = (scores - (scores * weight).sum(axis=2, keepdims=True) / each) * weight
    q = centred.sum(axis=1)
    c = -np.matmul((weight / each).transpose(0, 2, 1), weight)
    own = np.arange(c.shape[1])
    c[:, own, own] += weight.sum(axis=1)
    group = _hanging_together(there)
    contrast = np.zeros_like(q)
    contrast[:, :2] = 1, -1
    solved = np.linalg.solve(c + (group[:, :, None] == group[:, None, :]), np.stack([contrast, q], axis=2))
    fitted = solved[..., 1]
    difference = fitted[:, 0] - fitted[:, 1]
    variance = solved[:, 0, 0] - solved[:, 1, 0]
    rank = (group != own).sum(axis=1)
    df = weight.sum(axis=(1, 2)) - (k[..., 0] > 0).sum(axis=1) - rank
    residual = np.maximum(np.sum(centred**2, axis=(1, 2)) - np.sum(q * fitted, axis=1), 0)
    told = (group[:, 0] == group[:, 1]) & (df >= 1)
    return _two_sided(difference, variance * residual / np.maximum(df, 1), df, told)


def _hanging_together(there: Bools) -> NDArray[np.int64]:
    """For each coffee the first of those that it hangs together with over tasters who scored both."""
    coffees = there.shape[2]
    group = np.broadcast_to(np.arange(coffees), (len(there), coffees))
    while True:
        by_taster = np.where(there, group[:, None, :], coffees).min(axis=2)
        joined = np.minimum(group, np.where(there, by_taster[:, :, None], coffees).min(axis=1))
        if np.array_equal(joined, group):
            return np.asarray(group)
        group = joined


def _two_sided(difference: Floats, variance: Floats, df: Floats, told: Bools) -> Floats:
    """Coarse scores may leave no spread at all; a difference without any is as sure as can be."""
    spread = variance > 1e-18
    t = np.abs(difference) / np.sqrt(np.where(spread, variance, 1))
    p = np.where(spread, 2 * stdtr(np.maximum(df, 1), -t), np.where(np.abs(difference) > 1e-9, 0.0, 1.0))
    return np.where(told, p, 1.0)


def _check(design: Design, draws: int, seed: int) -> None:
    each = design.samples_each
    for value, name, about, low, high in (
        (design.tasters, "tasters", "tasters", 2, 200),
        (design.coffees, "coffees", "coffees", 2, 40),
        (each or 2, "samples for each taster", "samples_each", 2, design.coffees),
        (design.repeats, "bowls", "repeats", 1, 20),
        (draws, "draws", "draws", 100, MOST_DRAWS),
        (seed, "a seed", "seed", 0, 2**53),
    ):
        if not math.isfinite(value) or value != int(value) or not low <= value <= high:
            raise Refused(
                f"{value:g} is not a number of {name} between {low} and {high:,}.",
                todo="Give a whole number.",
                about=about,
            )
    for amount, what, about in (
        (abs(design.points), "A difference", "points"),
        (design.spread.taster_coffee, "A spread, taster by coffee,", "taster_sd"),
        (design.spread.residual, "A spread, bowl to bowl,", "residual_sd"),
        (design.taster_level, "A spread of tasters' levels", "level_sd"),
        (design.step, "A step", "step"),
    ):
        if not 0 <= amount <= 1000:
            raise Refused(
                f"{what} of {amount:g} points is not a number from 0 to 1000.",
                todo="Give points, such as 0.25.",
                about=about,
            )
    if not 0 <= design.lost < 1:
        raise Refused(
            f"A share of {design.lost:g} of lost scores is not between 0 and 1.",
            todo="Give 0.1 for one in ten.",
            about="lost",
        )
    if 2 * draws * design.tasters * design.coffees * design.repeats > MOST_SCORES:
        raise Refused(
            f"This drawing would take more than {MOST_SCORES:,} scores.",
            todo="Draw fewer tables, or plan a smaller one.",
            about="draws",
        )
