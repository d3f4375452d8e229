"""Ordinal answers of tasters who each use the scale in their own way: coffees fixed, tasters random.

P(answer <= j) = F(θ_j - coffee - terms - taster), taster normal with mean 0 and standard deviation σ.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import chdtrc, ndtri, stdtrit

from cupwright.core.analyse.coffee_levels import CoffeeLevel, LevelPair, coffee_levels
from cupwright.core.analyse.cumulative_link import chosen_link
from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.level import checked_level
from cupwright.core.analyse.ordinal_fit import OrdinalFit, OrdinalModel, highest, spread_interval
from cupwright.core.analyse.resamples import generator
from cupwright.core.analyse.scores import Scores, scores_of
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import Refused

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Term:
    """A fixed term: what one unit of it adds on the latent scale."""

    name: str
    estimate: float
    error: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class TasterLevel:
    """How high a taster answers beside the others: the mode of the level, and an interval from its curve."""

    taster: str
    estimate: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class CumulativeLinkMixed(Tabular):
    """A fit. Everything is on the latent scale; with the logit link it is in log odds.

    `taster_sd` is σ; `taster_sd_interval` its profile interval, None where it was not asked for.
    `log_likelihood_without_tasters` is of the same model with σ = 0. `penalised`: the answers alone would
    leave something without an end, and a weak penalty keeps it finite.
    """

    coffees: tuple[CoffeeLevel, ...]
    pairs: tuple[LevelPair, ...]
    terms: tuple[Term, ...]
    tasters: tuple[TasterLevel, ...]
    taster_sd: float
    taster_sd_interval: Estimate | None
    thresholds: tuple[float, ...]
    categories: tuple[float, ...]
    log_likelihood: float
    log_likelihood_without_tasters: float
    parameters: int
    observations: int
    freedom: float
    link: str
    nodes: int
    level: float
    penalised: bool

    def rows(self) -> list[Record]:
        """One row a coffee, one a term, and one for σ."""
        found: list[Record] = [
            {"term": one.coffee, "estimate": one.estimate, "low": one.low, "high": one.high}
            for one in self.coffees
        ]
        found += [
            {"term": one.name, "estimate": one.estimate, "low": one.low, "high": one.high}
            for one in self.terms
        ]
        spread = self.taster_sd_interval
        return [
            *found,
            {
                "term": "sd of tasters",
                "estimate": self.taster_sd,
                "low": spread and spread.low,
                "high": spread and spread.high,
            },
        ]


@dataclass(frozen=True, slots=True)
class LikelihoodRatio(Tabular):
    """Twice the log of a ratio of likelihoods, against chi-squared."""

    statistic: float
    freedom: int
    p: float


def likelihood_ratio(fuller: CumulativeLinkMixed, simpler: CumulativeLinkMixed) -> LikelihoodRatio:
    """Does what the fuller model has beyond the simpler one move the answers?

    Raises
    ------
    Refused
        If the two do not stand on the same answers, the first is not the fuller, or one is penalised.

    Notes
    -----
    Error: the p value is right for many answers, and too small for tables of few tasters.
    Source: [Christensen2019], whose wine tables it reproduces.
    """
    more = fuller.parameters - simpler.parameters
    if more < 1 or fuller.observations != simpler.observations or fuller.categories != simpler.categories:
        raise Refused("The two models cannot be compared.", todo="Give the fuller one first, same answers.")
    if fuller.penalised or simpler.penalised:
        raise Refused("A penalised fit has no likelihood to compare.", todo="Compare the intervals.")
    statistic = max(0.0, 2 * (fuller.log_likelihood - simpler.log_likelihood))
    return LikelihoodRatio(statistic, more, float(chdtrc(more, statistic)))


def cumulative_link_mixed(
    scores: Scores | Floats,
    *,
    link: str = "logit",
    nodes: int = 10,
    level: float = 0.95,
    terms: ArrayLike | None = None,
    names: Sequence[str] = (),
    coffees: bool = True,
    profile: bool = True,
    rng: np.random.Generator | None = None,
) -> CumulativeLinkMixed:
    """Which coffee gets the higher answers, whatever the steps of the scale are worth?

    Parameters
    ----------
    scores : Scores, or float array of shape (n_coffees, n_tasters[, n_repeats])
        Answers on a short scale, of which the order alone counts; NaN where there is none.
    link : "logit" or "probit"
        Latent distribution.
    nodes : int
        Of the quadrature over the tasters' levels; 1 is Laplace's approximation.
    level : float in (0, 1)
        Coverage of the intervals.
    terms : float array, shape (n_scores,) or (n_scores, n_terms)
        Further fixed terms (position, temperature), a row for each row of `Scores`.
    names : sequence of str
        Of the terms.
    coffees : bool
        False leaves the coffees out: the terms alone move the answers.
    profile : bool
        Whether to find the interval of σ; without it a fit takes a third of the time.
    rng : Generator
        Draws for `p_best` and for intervals of pairs that hold together; a fixed seed if left out.

    Raises
    ------
    TooFewObservations
        If there are fewer than two tasters or coffees, or not more answers than parameters.
    NoSpread
        If all answers are the same.
    Refused
        If a term cannot be told from the coffees, more than 50 values are used, or a name, link, level or
        number of nodes is none.

    Notes
    -----
    Coffees are fixed, not drawn from a crowd of coffees: their estimates are not shrunk towards each other.
    Error: intervals of coffees, pairs and terms are Wald's with Student's quantiles: a degree of freedom
    for each answer beyond the parameters, half as many as answers at least; how often they hold is in
    docs/methods/ordinal.md. The interval of σ is that of the profile likelihood with Student's quantile, a
    degree of freedom for each taster but one, as tasters are few. Levels of tasters are taken as normal,
    thresholds as all the same but for that.
    Source: [Christensen2019]; [PinheiroBates1995]; checked against the printed fits of the wine data.
    """
    checked_level(level)
    found = scores_of(scores)
    given = OrdinalModel.of(found, chosen_link(link), nodes, terms, coffees)
    fit = highest(given)
    return _result(
        found,
        given,
        fit,
        level=level,
        names=_term_names(names, given.others),
        spread=spread_interval(given, fit, level, len(given.tasters) - 1) if profile else None,
        rng=generator(rng),
    )


def _result(
    scores: Scores,
    model: OrdinalModel,
    fit: OrdinalFit,
    *,
    level: float,
    names: tuple[str, ...],
    spread: Estimate | None,
    rng: np.random.Generator,
) -> CumulativeLinkMixed:
    freedom = max(len(scores) - model.size, len(scores) / 2)
    cuts, coffees = model.cells.cuts, model.contrasts.shape[1]
    inside = slice(cuts, cuts + coffees)
    levels, pairs = coffee_levels(
        model.coffees,
        model.contrasts @ fit.parameters[inside],
        model.contrasts @ fit.covariance[inside, inside] @ model.contrasts.T,
        freedom=freedom,
        level=level,
        rng=rng,
    )
    return CumulativeLinkMixed(
        coffees=levels,
        pairs=pairs,
        terms=_terms(fit, cuts + coffees, names, freedom, level),
        tasters=_tasters(model, fit, level),
        taster_sd=fit.spread,
        taster_sd_interval=spread,
        thresholds=tuple(fit.parameters[:cuts].tolist()),
        categories=model.cells.categories,
        log_likelihood=fit.log_likelihood,
        log_likelihood_without_tasters=fit.without.log_likelihood,
        parameters=model.size,
        observations=len(scores),
        freedom=freedom,
        link=model.link.value,
        nodes=model.nodes,
        level=level,
        penalised=fit.penalised,
    )


def _terms(
    fit: OrdinalFit, first: int, names: tuple[str, ...], freedom: float, level: float
) -> tuple[Term, ...]:
    """The further terms, from the place where they begin."""
    reach = float(stdtrit(freedom, (1 + level) / 2))
    found = []
    for place, name in enumerate(names, start=first):
        estimate, error = float(fit.parameters[place]), float(np.sqrt(fit.covariance[place, place]))
        found.append(Term(name, estimate, error, estimate - reach * error, estimate + reach * error))
    return tuple(found)


def _tasters(model: OrdinalModel, fit: OrdinalFit, level: float) -> tuple[TasterLevel, ...]:
    """The mode of each taster's level, and as far around it as its curve reaches."""
    if fit.spread == 0:
        return tuple(TasterLevel(name, 0.0, 0.0, 0.0) for name in model.tasters)
    reach = float(ndtri((1 + level) / 2))
    modes, errors = fit.spread * fit.integral.modes, fit.spread * fit.integral.curvatures**-0.5
    return tuple(
        TasterLevel(name, mode, mode - reach * error, mode + reach * error)
        for name, mode, error in zip(model.tasters, modes.tolist(), errors.tolist(), strict=True)
    )


def _term_names(given: Sequence[str], count: int) -> tuple[str, ...]:
    if given and len(given) != count:
        raise Refused(f"{count} terms have {len(given)} names.", todo="Give one name a term.")
    return tuple(given) or tuple(f"term {number}" for number in range(1, count + 1))
