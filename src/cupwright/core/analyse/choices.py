"""What choices tell: each coffee's worth, its chance to be picked first, and all pairs."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import expit, stdtrit

from cupwright.core.analyse.choice_stages import ChoiceFit
from cupwright.core.analyse.coffee_levels import CoffeeLevel, LevelPair, coffee_levels
from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import NotFound

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Choices(Tabular):
    """A fit. `coffees` holds log worths about their mean; `picked_first` the chance to be taken first of all.

    `ties` are δ_s for each number s of coffees that ever shared a place, as (s, δ_s); or (2, θ) of Rao and
    Kupper. `deviance` (of pairs) is how far the model is from every pair's own shares, on `deviance_freedom`.
    `penalised`: some coffees never lost to the others, and a weak penalty keeps their worth finite.
    """

    coffees: tuple[CoffeeLevel, ...]
    picked_first: tuple[Estimate, ...]
    pairs: tuple[LevelPair, ...]
    ties: tuple[tuple[int, float], ...]
    log_likelihood: float
    comparisons: int
    level: float
    penalised: bool
    covariance: Floats
    deviance: float | None = None
    deviance_freedom: int | None = None

    def rows(self) -> list[Record]:
        """One row a coffee."""
        return [
            {
                "coffee": one.coffee,
                "log_worth": one.estimate,
                "low": one.low,
                "high": one.high,
                "picked_first": share.estimate,
                "first_low": share.low,
                "first_high": share.high,
                "p_best": one.p_best,
            }
            for one, share in zip(self.coffees, self.picked_first, strict=True)
        ]

    def against(self, reference: str) -> dict[str, tuple[float, float]]:
        """coffee -> (log worth above the reference's, standard error), as tables are mostly printed."""
        names = [one.coffee for one in self.coffees]
        if reference not in names:
            raise NotFound(f"There is no coffee {reference!r}.", todo="Name one of the coffees.")
        at, base = np.array([one.estimate for one in self.coffees]), names.index(reference)
        v = self.covariance
        errors = np.sqrt(np.maximum(np.diag(v) + v[base, base] - 2 * v[base], 0))
        return dict(zip(names, zip((at - at[base]).tolist(), errors.tolist(), strict=True), strict=True))


def choices_from(
    names: tuple[str, ...],
    fit: ChoiceFit,
    ties: tuple[tuple[int, float], ...],
    *,
    comparisons: int,
    picks: float,
    level: float,
    rng: np.random.Generator,
    deviance: tuple[float, int] | None = None,
) -> Choices:
    """The result of a fit to so many `picks`: choices from two coffees or more.

    Quantiles are Student's: a degree of freedom for each pick beyond the parameters, half as many as picks at
    least.
    """
    size = len(names)
    freedom = max(picks - (size - 1) - len(ties), picks / 2)
    around = fit.covariance[:size, :size]
    levels, pairs = coffee_levels(names, fit.log_worths, around, freedom=freedom, level=level, rng=rng)
    return Choices(
        coffees=levels,
        picked_first=_first(fit.log_worths, around, freedom, level),
        pairs=pairs,
        ties=ties,
        log_likelihood=fit.log_likelihood,
        comparisons=comparisons,
        level=level,
        penalised=fit.penalised,
        covariance=around,
        deviance=None if deviance is None else deviance[0],
        deviance_freedom=None if deviance is None else deviance[1],
    )


def _first(log_worths: Floats, around: Floats, freedom: float, level: float) -> tuple[Estimate, ...]:
    """The chance to be picked first of all, its interval on the scale of log odds: it stays inside 0 to 1."""
    found, reach = [], float(stdtrit(freedom, (1 + level) / 2))
    for place in range(len(log_worths)):
        others = np.exp(log_worths - log_worths.max()) * (np.arange(len(log_worths)) != place)
        odds = log_worths[place] - log_worths.max() - np.log(others.sum())
        slope = -others / others.sum()
        slope[place] = 1.0
        error = reach * np.sqrt(max(float(slope @ around @ slope), 0.0))
        share, low, high = expit([odds, odds - error, odds + error]).tolist()
        found.append(Estimate(share, low, high, level))
    return tuple(found)
