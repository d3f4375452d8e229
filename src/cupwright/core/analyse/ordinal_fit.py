"""The fit of ordinal answers with random tasters: what is fitted, and where its likelihood is highest."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import stdtrit

from cupwright.core.analyse.cumulative_link import Cells, Fit, Penalty, collapsed, fitted
from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.latent_link import Link
from cupwright.core.analyse.quasi_newton import hessian, lowest
from cupwright.core.analyse.scores import Scores
from cupwright.core.analyse.taster_integral import TasterIntegral
from cupwright.errors import Refused, TooFewObservations

Floats = NDArray[np.float64]

# In logits: what no table of tasters shows, so that an estimate beyond is on its way to infinity.
_FARTHEST = 12.0
_SPREAD_SCALE = 3.0
_LEAST_SPREAD = 0.02


@dataclass(frozen=True, slots=True)
class OrdinalModel:
    """What is fitted: cells sorted by taster, the coffees' contrasts, and which penalty would hold them."""

    cells: Cells
    taster: NDArray[np.int64]
    tasters: tuple[str, ...]
    coffees: tuple[str, ...]
    contrasts: Floats  # coffee deviations = contrasts @ the first columns of the design
    others: int
    link: Link
    nodes: int

    @classmethod
    def of(
        cls, scores: Scores, link: Link, nodes: int, terms: ArrayLike | None, coffees: bool
    ) -> "OrdinalModel":
        """Raises as `cumulative_link_mixed` does."""
        order = np.argsort(scores.taster, kind="stable")
        who, taster = np.unique(scores.taster[order], return_inverse=True)
        which, coffee = np.unique(scores.coffee[order], return_inverse=True)
        if len(who) < 2:
            raise TooFewObservations(
                "One taster's answers do not show how tasters differ.", todo="Ask a second taster."
            )
        if coffees and len(which) < 2:
            raise TooFewObservations("There is one coffee alone.", todo="Compare it with another.")
        contrasts = np.vstack([np.eye(len(which) - 1), -np.ones((1, len(which) - 1))])
        extra = _extra(terms, len(scores))[order]
        design = np.hstack([contrasts[coffee], extra]) if coffees else extra
        # Checks, and the values in use; the cells themselves stay apart by taster.
        categories = collapsed(scores.value, design[np.argsort(order)]).categories
        category = np.searchsorted(np.array(categories), scores.value[order])
        cells = Cells(category, design, np.ones(len(order)), categories)
        if len(order) <= design.shape[1] + cells.cuts + 1:
            raise TooFewObservations(
                f"{len(order)} answers cannot carry {design.shape[1] + cells.cuts + 1} parameters.",
                todo="Ask more tasters, or join categories.",
            )
        return cls(
            cells,
            taster,
            tuple(scores.tasters[one] for one in who),
            tuple(scores.coffees[one] for one in which) if coffees else (),
            contrasts if coffees else np.zeros((0, 0)),
            extra.shape[1],
            link,
            nodes,
        )

    @property
    def size(self) -> int:
        """How many parameters there are, σ among them."""
        return int(self.cells.cuts + self.cells.design.shape[1] + 1)

    def penalty(self) -> Penalty:
        """On each coffee's distance from the mean, and on what each term does over its range."""
        reach = np.ptp(self.cells.design[:, self.contrasts.shape[1] :], axis=0)
        rows = np.zeros((len(self.contrasts) + self.others, self.size - 1))
        first, second = self.cells.cuts, self.cells.cuts + self.contrasts.shape[1]
        rows[: len(self.contrasts), first:second] = self.contrasts
        rows[len(self.contrasts) :, second:] = np.diag(reach)
        return Penalty(rows * self.link.logits)

    def integral(self, penalised: bool) -> TasterIntegral:
        """Its likelihood, with penalties if asked for."""
        scale = _SPREAD_SCALE / self.link.logits
        return TasterIntegral(
            self.cells,
            self.taster,
            self.link,
            self.nodes,
            self.penalty() if penalised else None,
            scale if penalised else None,
        )


@dataclass(frozen=True, slots=True)
class OrdinalFit:
    """The highest point: φ = (θ, β) and σ, with their covariance; log σ is its last row if σ > 0."""

    parameters: Floats
    spread: float
    covariance: Floats
    log_likelihood: float
    without: Fit
    penalised: bool
    integral: TasterIntegral
    minimum: float  # minus the log-likelihood, penalties included
    flat: float  # the same at σ = 0


def highest(model: OrdinalModel) -> OrdinalFit:
    """Where the likelihood is highest; penalised where the answers alone leave something without an end."""
    without = fitted(model.cells, model.link, model.penalty())
    found = _tried(model, without, penalised=without.penalty is not None)
    if not found.penalised and _without_end(model, found):
        held = fitted(model.cells, model.link, model.penalty(), always=True)
        return _tried(model, held, penalised=True)
    return found


def _tried(model: OrdinalModel, without: Fit, *, penalised: bool) -> OrdinalFit:
    integral = model.integral(penalised)
    start = np.append(without.parameters, np.log(0.8 / model.link.logits))
    inverse = np.zeros((model.size, model.size))
    inverse[:-1, :-1], inverse[-1, -1] = without.covariance, 0.1
    at, value = lowest(integral, start, inverse)
    spread = float(np.exp(at[-1]))
    flat = -without.log_likelihood - (without.penalty.value(without.parameters) if without.penalty else 0.0)
    if spread < _LEAST_SPREAD or value >= flat - 1e-9:
        integral.modes = np.zeros(len(model.tasters))
        return OrdinalFit(
            without.parameters,
            0.0,
            without.covariance,
            without.log_likelihood,
            without,
            penalised,
            integral,
            flat,
            flat,
        )
    covariance = _covariance(hessian(integral, at))
    integral(at)  # leaves the modes where they belong
    alone = -integral.plain(at)[0]
    return OrdinalFit(at[:-1], spread, covariance, alone, without, penalised, integral, value, flat)


def _covariance(information: Floats) -> Floats:
    """Of θ, β and log σ; where log σ has no error to speak of, that of the others with σ as it is."""
    values = np.linalg.eigvalsh(information)
    if values[0] > 1e-8 * values[-1]:
        return np.asarray(np.linalg.inv(information))
    found = np.zeros_like(information)
    inner = information[:-1, :-1]
    values = np.linalg.eigvalsh(inner)
    # For a given σ the likelihood is log-concave in the others: what is not positive here is flat.
    flat = values[0] <= 1e-8 * values[-1]
    found[:-1, :-1] = np.diag(np.full(len(inner), np.inf)) if flat else np.linalg.inv(inner)
    return found


def _without_end(model: OrdinalModel, found: OrdinalFit) -> bool:
    """Whether the answers alone drive an estimate to infinity."""
    far = _FARTHEST / model.link.logits
    reach = model.penalty().rows @ found.parameters / model.link.logits
    cuts = model.cells.cuts
    errors = np.sqrt(np.diag(found.covariance)[cuts : model.size - 1])
    return bool(found.spread > far or (np.abs(reach) > far).any() or not (errors < far).all())


def spread_interval(model: OrdinalModel, fit: OrdinalFit, level: float, freedom: float) -> Estimate:
    """σ with the interval of its profile likelihood; 0 and infinity are possible ends.

    The root of the fall is held against Student's quantile with `freedom`; infinite for the normal one.
    """
    fall = _SpreadProfile(model, fit, float(stdtrit(freedom, (1 + level) / 2)))
    at_zero = fall(0.0)
    low = 0.0 if at_zero <= 0 else _crossing(fall, 0.0, at_zero, fit.spread)
    top = max(2 * fit.spread, 0.5)
    while (at_top := fall(top)) <= 0 and top < 2 * _FARTHEST:
        top *= 2
    high = _crossing(fall, top, at_top, fit.spread) if at_top > 0 else np.inf
    return Estimate(fit.spread, low, high, level)


class _SpreadProfile:
    """How far the root of the likelihood's fall at σ, the rest fitted again, lies above what is allowed."""

    def __init__(self, model: OrdinalModel, fit: OrdinalFit, allowed: float) -> None:
        self._integral, self._allowed = model.integral(fit.penalised), allowed
        self._top, self._flat = -fit.minimum, -fit.flat
        self._inverse = fit.covariance[: model.size - 1, : model.size - 1]
        self._start, self._spread, self._best = fit.parameters, fit.spread, fit.spread
        self._unit = model.link.logits / 1.7

    def _size(self, spread: float) -> float:
        """How far apart thresholds are for the same answers when tasters spread by that [Zeger1988]."""
        return float(np.hypot(1, spread * self._unit))

    def __call__(self, spread: float) -> float:
        if spread <= 0:
            reached = self._flat
        elif spread == self._best:
            reached = self._top
        else:
            log = np.log(spread)

            def rest(parameters: Floats) -> tuple[float, Floats]:
                value, gradient = self._integral(np.append(parameters, log))
                return value, gradient[:-1]

            grown = self._size(spread) / self._size(self._spread)
            found, lowest_value = lowest(rest, self._start * grown, self._inverse * grown**2)
            self._start, self._spread = found, spread
            reached = -lowest_value
        return float(np.sqrt(max(0.0, 2 * (self._top - reached)))) - self._allowed


def _crossing(fall: _SpreadProfile, outer: float, above: float, inner: float) -> float:
    """Where the fall is what is allowed: false position [DowellJarratt1971], Illinois form."""
    below, stayed = fall(inner), 0
    at = outer
    for _ in range(40):
        at = (inner * above - outer * below) / (above - below)
        found = fall(at)
        if abs(found) < 1e-5 or abs(outer - inner) < 1e-8:
            break
        if found > 0:
            outer, above, below = at, found, below / 2 if stayed > 0 else below
            stayed = 1
        else:
            inner, below, above = at, found, above / 2 if stayed < 0 else above
            stayed = -1
    return at


def _extra(terms: ArrayLike | None, count: int) -> Floats:
    """The further terms as columns."""
    if terms is None:
        return np.zeros((count, 0))
    found = np.asarray(terms, dtype=float)
    found = found[:, None] if found.ndim == 1 else found
    if found.ndim != 2 or len(found) != count:
        raise Refused(f"The terms do not have {count} rows.", todo="Give one row a score.")
    return found
