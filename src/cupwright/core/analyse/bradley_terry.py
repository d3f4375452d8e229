"""Paired choices: how much each coffee is worth when tasters pick the better of two."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import xlogy

from cupwright.core.analyse.choice_stages import ChoiceFit, Stages, fitted_choices, stages_of
from cupwright.core.analyse.choices import Choices, choices_from
from cupwright.core.analyse.level import checked_level
from cupwright.core.analyse.plackett_luce import coffee_names
from cupwright.core.analyse.rao_kupper import rao_kupper, rao_kupper_shares
from cupwright.core.analyse.resamples import generator
from cupwright.errors import Refused, TooFewObservations

Floats = NDArray[np.float64]


def bradley_terry(
    wins: ArrayLike,
    *,
    ties: ArrayLike | None = None,
    tie_model: str = "davidson",
    coffees: Sequence[str] = (),
    level: float = 0.95,
    rng: np.random.Generator | None = None,
) -> Choices:
    """Which coffee is picked over which, and how surely?

    Parameters
    ----------
    wins : float array, shape (n_coffees, n_coffees)
        wins[i, j] counts how often i was picked over j; the diagonal is not looked at.
    ties : float array, shape (n_coffees, n_coffees)
        How often i and j could not be told apart; symmetric.
    tie_model : "davidson" or "rao_kupper"
        A tie as likely as the geometric mean of the two worths times δ, or wherever the two are nearer than
        log θ.
    coffees : sequence of str
        Names; counted from 1 if left out.
    level : float in (0, 1)
        Coverage of the intervals.
    rng : Generator
        Draws for `p_best` and for intervals of pairs that hold together; a fixed seed if left out.

    Raises
    ------
    TooFewObservations
        If there are not two coffees, or no two were compared.
    NoSpread
        If every comparison is a tie.
    Refused
        If groups of coffees were never compared, a count is not one, or ties are not symmetric.

    Notes
    -----
    Error: intervals are Wald's, from the curve of the likelihood, with Student's quantiles;
    comparisons are taken as independent, so several of one taster weigh as much as those of several. If some
    coffees never lost to the others, worths have no end; half a win and half a loss against a coffee of mean
    worth then keep them finite.
    Source: [BradleyTerry1952], [Davidson1970], [RaoKupper1967]; checked against the printed fits of
    [Turner2012], [Agresti2002], choix and statsmodels.
    """
    checked_level(level)
    won, tied = _counts(wins, ties)
    names = coffee_names(coffees, len(won))
    stages = _stages(won, tied, names)
    if tie_model not in ("davidson", "rao_kupper"):
        raise Refused(f"There is no model {tie_model!r} of ties.", todo="Use 'davidson' or 'rao_kupper'.")
    if tie_model == "rao_kupper" and tied.any():
        fit = rao_kupper(won, tied, penalised=fitted_choices(stages).penalised)
        shares = rao_kupper_shares(fit)
    else:
        fit = fitted_choices(stages)
        shares = _davidson_shares(fit)
    found_ties = tuple(zip(stages.tied, np.exp(fit.log_ties).tolist(), strict=True))
    return choices_from(
        names,
        fit,
        found_ties,
        comparisons=round(float(stages.count.sum())),
        picks=float(stages.count.sum()),
        level=level,
        rng=generator(rng),
        deviance=_deviance(won, tied, shares, len(names) - 1 + len(found_ties)),
    )


def _counts(wins: ArrayLike, ties: ArrayLike | None) -> tuple[Floats, Floats]:
    won = np.array(wins, dtype=float)
    tied = np.zeros_like(won) if ties is None else np.array(ties, dtype=float)
    if won.ndim != 2 or won.shape[0] != won.shape[1] or tied.shape != won.shape:
        raise Refused("Wins and ties are square.", todo="Give a row and a column for each coffee.")
    if len(won) < 2:
        raise TooFewObservations("There is one coffee alone.", todo="Compare it with another.")
    np.fill_diagonal(won, 0)
    np.fill_diagonal(tied, 0)
    if not (np.isfinite(won).all() and np.isfinite(tied).all() and (won >= 0).all() and (tied >= 0).all()):
        raise Refused("A count is negative or no number.", todo="Correct it; 0 where two never met.")
    if not (tied == tied.T).all():
        raise Refused("Ties are not symmetric.", todo="Give i with j the count of j with i.")
    return won, tied


def _stages(won: Floats, tied: Floats, names: Sequence[str]) -> Stages:
    left, picked, count = [], [], []
    one = np.eye(len(won), dtype=bool)
    for i, j in zip(*np.nonzero(won), strict=True):
        left.append(one[i] | one[j])
        picked.append(one[i])
        count.append(won[i, j])
    for i, j in zip(*np.nonzero(np.triu(tied)), strict=True):
        left.append(one[i] | one[j])
        picked.append(one[i] | one[j])
        count.append(tied[i, j])
    shape = (-1, len(won))
    return stages_of(
        np.array(left, dtype=bool).reshape(shape),
        np.array(picked, dtype=bool).reshape(shape),
        np.array(count),
        names,
    )


def _davidson_shares(fit: ChoiceFit) -> tuple[Floats, Floats]:
    """The chances that i is picked over j, and that the two tie."""
    gap = fit.log_worths[:, None] - fit.log_worths
    delta = float(np.exp(fit.log_ties[0])) if len(fit.log_ties) else 0.0
    below = np.exp(gap / 2) + np.exp(-gap / 2) + delta
    return np.exp(gap / 2) / below, delta / below


def _deviance(won: Floats, tied: Floats, shares: tuple[Floats, Floats], parameters: int) -> tuple[float, int]:
    """Twice the log-likelihood lost against every pair's own shares, and its degrees of freedom."""
    met = won + won.T + tied
    pairs = int((np.triu(met) > 0).sum())
    safe = np.maximum(met, 1)
    lost = xlogy(won, np.where(won > 0, won / safe / shares[0], 1)).sum()
    lost += xlogy(tied, np.where(tied > 0, tied / safe / np.maximum(shares[1], 1e-300), 1)).sum() / 2
    return 2 * float(lost), pairs * (2 if tied.any() else 1) - parameters
