"""Coffees on a latent scale: each about the mean of all, and all pairs, with intervals that hold together."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import stdtr, stdtrit

Floats = NDArray[np.float64]

DRAWS = 4000
_LEAST_ERROR = 1e-12


@dataclass(frozen=True, slots=True)
class CoffeeLevel:
    """Where a coffee stands, about the mean of all, on the latent scale; `p_best` as likely highest."""

    coffee: str
    estimate: float
    low: float
    high: float
    p_best: float


@dataclass(frozen=True, slots=True)
class LevelPair:
    """How far one coffee stands above another; the intervals of all pairs hold together at the level."""

    a: str
    b: str
    difference: float
    low: float
    high: float
    p_a_better: float


def coffee_levels(
    names: tuple[str, ...],
    at: Floats,
    around: Floats,
    *,
    freedom: float,
    level: float,
    rng: np.random.Generator,
) -> tuple[tuple[CoffeeLevel, ...], tuple[LevelPair, ...]]:
    """Intervals and probabilities from estimates and their covariance.

    Parameters
    ----------
    names : of the coffees
    at, around : float arrays, shape (n,) and (n, n)
        Where they stand, adding up to 0, and the covariance of that.
    freedom : float
        Degrees of freedom of Student's quantiles; infinite for the normal ones.

    Notes
    -----
    Error: probabilities are as sure as the normal shape of the likelihood; those near 0 or 1 are rough.
    Source: intervals of all pairs by the largest of all differences, [Hochberg1987], from draws.
    """
    if not names:
        return (), ()
    first, second = np.triu_indices(len(names), 1)
    apart = at[first] - at[second]
    variances = np.diag(around)[first] + np.diag(around)[second] - 2 * around[first, second]
    errors = np.sqrt(np.maximum(variances, _LEAST_ERROR))
    drawn = _drawn(around, freedom, rng)
    largest = np.abs((drawn[:, first] - drawn[:, second]) / errors).max(axis=1)
    best = np.bincount((at + drawn).argmax(axis=1), minlength=len(names)) / len(drawn)
    reach = float(stdtrit(freedom, (1 + level) / 2)) * np.sqrt(np.diag(around))
    together = float(np.quantile(largest, level)) * errors
    better = stdtr(freedom, apart / errors)
    pairs = zip(
        first.tolist(), second.tolist(), apart.tolist(), together.tolist(), better.tolist(), strict=True
    )
    return (
        tuple(map(CoffeeLevel, names, *(part.tolist() for part in (at, at - reach, at + reach, best)))),
        tuple(LevelPair(names[a], names[b], gap, gap - end, gap + end, p) for a, b, gap, end, p in pairs),
    )


def _drawn(covariance: Floats, freedom: float, rng: np.random.Generator) -> Floats:
    """Errors of the estimates, multivariate Student, shape (DRAWS, n)."""
    values, vectors = np.linalg.eigh(covariance)
    drawn = rng.standard_normal((DRAWS, len(values))) @ (vectors * np.sqrt(np.maximum(values, 0))).T
    if np.isfinite(freedom):
        drawn *= np.sqrt(freedom / rng.chisquare(freedom, DRAWS))[:, None]
    return np.asarray(drawn)
