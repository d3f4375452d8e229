"""Ordinal regression: how far something moves the answers on a scale whose steps need not be equal.

P(answer <= j) = F(θ_j - xβ), F logistic or normal, θ the thresholds [McCullagh1980]. Only the order of the
categories counts. Newton with the analytic Hessian on cells: rows with the same design and answer are one.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import chdtri, expit, log_expit, logit, ndtri

from cupwright.core.analyse.estimate import Estimate
from cupwright.core.analyse.latent_link import BEYOND, Link, Slopes, slopes
from cupwright.core.analyse.level import checked_level
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import NoSpread, Refused, TooFewObservations

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

MOST_CATEGORIES = 50
# An information that low about a coefficient is what is left of it on the way to infinity.
_LOST = 1e-5
_STEPS = 60


@dataclass(frozen=True, slots=True)
class Cells:
    """Rows collapsed: thresholds of a cell are upper = a0 + A φ and lower = b0 + B φ, φ = (θ, β).

    `count` is how many answers a cell holds, `category` which one; `categories` are the values in use.
    """

    category: Ints
    design: Floats
    count: Floats
    categories: tuple[float, ...]

    @property
    def cuts(self) -> int:
        """How many thresholds there are."""
        return len(self.categories) - 1

    def thresholds(self) -> tuple[Floats, Floats, Floats, Floats]:
        """A, B, a0 and b0."""
        upper, lower = np.eye(self.cuts + 1, self.cuts), np.eye(self.cuts + 1, self.cuts, -1)
        a0, b0 = np.zeros(self.cuts + 1), np.zeros(self.cuts + 1)
        a0[-1], b0[0] = BEYOND, -BEYOND
        y = self.category
        return (
            np.hstack([upper[y], -self.design]),
            np.hstack([lower[y], -self.design]),
            a0[y],
            b0[y],
        )


@dataclass(frozen=True, slots=True)
class Penalty:
    """log-F(1, 1) densities on v = rows φ: as if half an answer for and half one against stood in each row.

    It keeps finite what the answers alone leave without an end [GreenlandMansournia2015].
    """

    rows: Floats

    def value(self, parameters: Floats) -> float:
        """The log density, less a constant; at most 0."""
        v = self.rows @ parameters
        return float(np.sum(log_expit(v) + log_expit(-v)) / 2)

    def gradient(self, parameters: Floats) -> Floats:
        """By the parameters."""
        return np.asarray(self.rows.T @ (0.5 - expit(self.rows @ parameters)))

    def hessian(self, parameters: Floats) -> Floats:
        """By the parameters, twice."""
        p = expit(self.rows @ parameters)
        return np.asarray(-(self.rows.T * (p * (1 - p))) @ self.rows)


@dataclass(frozen=True, slots=True)
class CumulativeLink(Tabular):
    """A fit. `coefficients` and `thresholds` are on the latent scale; `covariance` has thresholds first.

    A positive coefficient moves answers up. `penalised`: the answers alone would leave a coefficient without
    an end (something always got the top answers), and a weak penalty keeps it finite. `log_likelihood` is
    that of the answers alone.
    """

    names: tuple[str, ...]
    coefficients: tuple[float, ...]
    errors: tuple[float, ...]
    intervals: tuple[Estimate, ...]
    thresholds: tuple[float, ...]
    threshold_errors: tuple[float, ...]
    categories: tuple[float, ...]
    log_likelihood: float
    observations: int
    link: str
    penalised: bool
    covariance: Floats

    def rows(self) -> list[Record]:
        """One row a coefficient, with its interval; then one a threshold."""
        terms: list[Record] = [
            {
                "term": name,
                "estimate": value,
                "error": error,
                "low": interval.low if interval else None,
                "high": interval.high if interval else None,
            }
            for name, value, error, interval in zip(
                self.names,
                self.coefficients,
                self.errors,
                self.intervals or (None,) * len(self.names),
                strict=True,
            )
        ]
        return terms + [
            {"term": f"{low:g} | {high:g}", "estimate": value, "error": error, "low": None, "high": None}
            for low, high, value, error in zip(
                self.categories[:-1], self.categories[1:], self.thresholds, self.threshold_errors, strict=True
            )
        ]


def cumulative_link(
    responses: ArrayLike,
    design: ArrayLike,
    *,
    link: str = "logit",
    names: Sequence[str] = (),
    counts: ArrayLike | None = None,
    level: float = 0.95,
    profile: bool = True,
) -> CumulativeLink:
    """What moves the answers on an ordered scale, and how far?

    Parameters
    ----------
    responses : float array, shape (n,)
        Answers; only their order counts. Values that nobody used have no category.
    design : float array, shape (n,) or (n, n_terms)
        What may move them, without a column of ones: the thresholds hold it.
    link : "logit" or "probit"
        Latent distribution; with "logit" exp(coefficient) is the ratio of the odds of a higher answer.
    names : sequence of str
        Of the columns; counted from 1 if left out.
    counts : float array, shape (n,)
        How many answers each row stands for; 1 if left out.
    level : float in (0, 1)
        Coverage of the intervals.
    profile : bool
        Whether to find the intervals at all; a fit alone takes a sixth of the time.

    Raises
    ------
    TooFewObservations
        If there are not more answers than coefficients and thresholds.
    NoSpread
        If all answers are the same.
    Refused
        If lengths differ, a number is not finite, columns repeat each other, or more than 50 values are used.

    Notes
    -----
    Error: intervals are of the profile likelihood, right for many answers and close for few; they assume that
    a term moves all thresholds alike (proportional odds) and that answers are independent, so for tasters
    who scored several coffees take `cumulative_link_mixed`.
    Source: [McCullagh1980]; checked against [Christensen2019], [VenablesRipley2002], [Agresti2002] and
    statsmodels.
    """
    checked_level(level)
    cells = collapsed(responses, design, counts)
    chosen = chosen_link(link)
    fit = fitted(cells, chosen, _range_penalty(cells, chosen))
    cuts, terms = cells.cuts, cells.design.shape[1]
    errors = np.sqrt(np.diag(fit.covariance))
    intervals = tuple(fit.profiled(cuts + term, level) for term in range(terms)) if profile else ()
    return CumulativeLink(
        names=_names(names, terms),
        coefficients=tuple(fit.parameters[cuts:].tolist()),
        errors=tuple(errors[cuts:].tolist()),
        intervals=intervals,
        thresholds=tuple(fit.parameters[:cuts].tolist()),
        threshold_errors=tuple(errors[:cuts].tolist()),
        categories=cells.categories,
        log_likelihood=fit.log_likelihood,
        observations=int(cells.count.sum()),
        link=chosen.value,
        penalised=fit.penalty is not None,
        covariance=fit.covariance,
    )


def chosen_link(link: str) -> Link:
    """The link of that name. Raises Refused if there is none."""
    try:
        return Link(link)
    except ValueError:
        raise Refused(f"There is no link {link!r}.", todo="Use 'logit' or 'probit'.") from None


def collapsed(responses: ArrayLike, design: ArrayLike, counts: ArrayLike | None = None) -> Cells:
    """Answers and design as cells. Raises as `cumulative_link` does."""
    y, x = np.asarray(responses, dtype=float), np.asarray(design, dtype=float)
    x = x[:, None] if x.ndim == 1 else x
    n = np.ones(len(y)) if counts is None else np.asarray(counts, dtype=float)
    if y.ndim != 1 or x.ndim != 2 or len(x) != len(y) or n.shape != y.shape:
        raise Refused("Answers, design and counts differ in length.", todo="Give one row an answer.")
    if not (np.isfinite(y).all() and np.isfinite(x).all() and np.isfinite(n).all() and (n >= 0).all()):
        raise Refused("An answer, a term or a count is not a finite number.", todo="Leave its row out.")
    y, x, n = y[n > 0], x[n > 0], n[n > 0]
    categories, category = np.unique(y, return_inverse=True)
    _check(categories, x, float(n.sum()))
    rows = np.lexsort((category, *x.T))
    sorted_rows = np.column_stack([category, x])[rows]
    unlike = (sorted_rows[1:] != sorted_rows[:-1]).any(axis=1)
    starts = np.concatenate([[0], np.flatnonzero(unlike) + 1])
    first = rows[starts]
    return Cells(category[first], x[first], np.add.reduceat(n[rows], starts), tuple(categories.tolist()))


def _check(categories: Floats, x: Floats, answers: float) -> None:
    if len(categories) < 2:
        raise NoSpread("All answers are the same.", todo="Report that answer.")
    if len(categories) > MOST_CATEGORIES:
        raise Refused(
            f"{len(categories)} different values are more than {MOST_CATEGORIES}.",
            todo="Take the values as numbers on a scale.",
        )
    if answers <= x.shape[1] + len(categories) - 1:
        raise TooFewObservations(
            f"{answers:g} answers cannot carry {x.shape[1]} terms and {len(categories) - 1} thresholds.",
            todo="Add answers or join categories.",
        )
    centred = x - x.mean(axis=0)
    if x.shape[1] and np.linalg.matrix_rank(centred) < x.shape[1]:
        raise Refused("A term is constant or repeats the others.", todo="Leave one of them out.")


@dataclass(frozen=True, slots=True)
class Fit:
    """Where the likelihood, or the penalised one, is highest."""

    cells: Cells
    link: Link
    parameters: Floats
    covariance: Floats
    log_likelihood: float  # of the answers alone
    penalty: Penalty | None

    def profiled(self, which: int, level: float) -> Estimate:
        """The interval of one parameter on which the likelihood does not fall too low."""
        estimate, error = float(self.parameters[which]), float(np.sqrt(self.covariance[which, which]))
        likelihood = _Likelihood(self.cells, self.link, self.penalty)
        top = likelihood.value(self.parameters)
        drop = float(np.sqrt(chdtri(1, 1 - level)))

        def fall(at: float, start: Floats) -> tuple[float, Floats]:
            found, _ = newton(likelihood, np.where(np.arange(len(start)) == which, at, start), which)
            return float(np.sqrt(max(0.0, 2 * (top - likelihood.value(found))))), found

        low, high = (profile_end(estimate, side * error, drop, self.parameters, fall) for side in (-1, 1))
        return Estimate(estimate, low, high, level)


def fitted(cells: Cells, link: Link, penalty: Penalty, *, always: bool = False) -> Fit:
    """Newton; with the penalty only where a coefficient has no end without it, or `always`."""
    start = np.concatenate([_start(cells, link), np.zeros(cells.design.shape[1])])
    plain = _Likelihood(cells, link, None)
    found, hessian = newton(plain, start)
    held: Penalty | None = None
    if always or _without_end(cells, link, hessian):
        held = penalty
        found, hessian = newton(_Likelihood(cells, link, held), start)
    alone = plain.value(found)
    return Fit(cells, link, found, np.asarray(np.linalg.inv(-hessian), dtype=float), alone, held)


def _without_end(cells: Cells, link: Link, hessian: Floats) -> bool:
    """Whether the information about a coefficient, over the range of its term, is all but gone."""
    if not cells.design.shape[1]:
        return False
    reach = np.concatenate([np.ones(cells.cuts), np.ptp(cells.design, axis=0)]) * link.logits
    scaled = -hessian / np.outer(reach, reach)
    return bool(np.linalg.eigvalsh(scaled)[0] < _LOST)


def newton(likelihood: "_Likelihood", start: Floats, fixed: int | None = None) -> tuple[Floats, Floats]:
    """The highest point and the Hessian there; `fixed` is a parameter that stays as it is."""
    free = slice(None) if fixed is None else np.arange(len(start)) != fixed
    at, value = start.copy(), likelihood.value(start)
    gradient, hessian = likelihood.slopes(at)
    for _ in range(_STEPS):
        step = np.zeros_like(at)
        step[free] = _solved(-hessian[free][:, free], gradient[free])
        gain = float(gradient @ step)
        if gain < 1e-13:  # a last short step doubles the digits; a long one is on its way to infinity
            return (at + step if np.abs(step).max() < 1e-3 else at), hessian
        size = 1.0
        while not (reached := likelihood.value(new := at + size * step)) >= value and size > 1e-9:
            size /= 2
        if size <= 1e-9:
            break
        at, value = new, reached
        gradient, hessian = likelihood.slopes(at)
    return at, hessian


def _solved(information: Floats, gradient: Floats) -> Floats:
    try:
        return np.asarray(np.linalg.solve(information, gradient))
    except np.linalg.LinAlgError:
        return gradient / np.maximum(np.diag(information), 1e-12)


def profile_end(
    estimate: float,
    error: float,
    drop: float,
    start: Floats,
    fall: Callable[[float, Floats], tuple[float, Floats]],
) -> float:
    """Where the signed root of the likelihood's fall reaches `drop`; the root is nearly straight, so secants.

    `error` is signed: the side to go to.
    """
    near, near_fall, parameters = estimate, 0.0, start
    at = estimate + drop * error
    for _ in range(30):
        fallen, parameters = fall(at, parameters)
        if abs(fallen - drop) < 1e-7:
            break
        slope = (fallen - near_fall) / (at - near) if fallen != near_fall else 1 / error
        near, near_fall = at, fallen
        # A step is at most three errors: a flat stretch must not throw it away.
        at += float(np.clip((drop - fallen) / slope, -3 * abs(error), 3 * abs(error)))
    return at


class _Likelihood:
    """Log-likelihood of cells, its gradient and Hessian by φ = (θ, β), the penalty's share included."""

    def __init__(self, cells: Cells, link: Link, penalty: Penalty | None) -> None:
        a, b, a0, b0 = cells.thresholds()  # stacked, so that each product below is one
        self._both, self._ends, self._cells = np.vstack([a, b]), np.concatenate([a0, b0]), len(a)
        self._count, self._cuts, self._link, self._penalty = cells.count, cells.cuts, link, penalty
        self._last: tuple[Floats, Slopes] | None = None

    def value(self, parameters: Floats) -> float:
        """-inf where thresholds are out of order."""
        if (np.diff(parameters[: self._cuts]) <= 0).any():
            return -np.inf
        found = float(self._count @ self._at(parameters).g)
        return found + (self._penalty.value(parameters) if self._penalty else 0.0)

    def slopes(self, parameters: Floats) -> tuple[Floats, Floats]:
        """Gradient and Hessian."""
        s, n, both = self._at(parameters), self._count, self._both
        a, b = both[: self._cells], both[self._cells :]
        gradient = np.concatenate([n * s.a, n * s.b]) @ both
        across = (n * s.ab)[:, None]
        upper, lower = (n * (-s.ca - s.ab))[:, None], (n * (-s.cb - s.ab))[:, None]
        hessian = both.T @ np.concatenate([upper * a + across * b, across * a + lower * b])
        if self._penalty:
            gradient = gradient + self._penalty.gradient(parameters)
            hessian = hessian + self._penalty.hessian(parameters)
        return gradient, hessian

    def _at(self, parameters: Floats) -> Slopes:
        # Newton asks for the value at a point, and then for the slopes at the same one.
        if self._last is None or self._last[0] is not parameters:
            ends = self._ends + self._both @ parameters
            self._last = parameters, slopes(self._link, ends[: self._cells], ends[self._cells :])
        return self._last[1]


def _start(cells: Cells, link: Link) -> Floats:
    """Thresholds that give each category its share, whatever the design."""
    shares = np.cumsum(np.bincount(cells.category, weights=cells.count))[:-1] / cells.count.sum()
    return np.asarray(logit(shares) if link is Link.LOGIT else ndtri(shares))


def _range_penalty(cells: Cells, link: Link) -> Penalty:
    """On what each term does over its whole range."""
    terms = cells.design.shape[1]
    reach = np.ptp(cells.design, axis=0) * link.logits if terms else np.zeros(0)
    return Penalty(np.hstack([np.zeros((terms, cells.cuts)), np.diag(reach)]))


def _names(given: Sequence[str], count: int) -> tuple[str, ...]:
    if given and len(given) != count:
        raise Refused(f"{count} terms have {len(given)} names.", todo="Give one name a column.")
    return tuple(given) or tuple(f"term {number}" for number in range(1, count + 1))
