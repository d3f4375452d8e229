"""Choices in stages: the best of what is left is picked, then that of the rest; ties are picked together.

With x_i = exp(λ_i) the worth of coffee i, the chance that the set S is picked from what is left is

    δ_s ∏_S x_i^(1/s)  /  Σ_d δ_d e_d(x^(1/d)),    s = |S|, δ_1 = 1, e_d the elementary symmetric polynomial:

[Turner2020]. Without ties it is Plackett-Luce [Luce1959; Plackett1975], for two at a time Davidson's
model of ties [Davidson1970], for both Bradley-Terry [BradleyTerry1952].
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import expit, log_expit

from cupwright.core.analyse.quasi_newton import hessian, lowest
from cupwright.errors import NoSpread, Refused, TooFewObservations

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

MOST_TIED = 6
# Log worths, or log ties, farther than that from 0 are on their way to infinity.
_FARTHEST = 12.0
# No climb goes on beyond that: exp() is far from its end there, and the climb has none.
_BEYOND = 5 * _FARTHEST


@dataclass(frozen=True, slots=True)
class Stages:
    """Row i: `picked[i]` was taken from `left[i]`, `count[i]` times. Both have a column for each coffee."""

    left: Bools
    picked: Bools
    count: Floats

    @property
    def tied(self) -> tuple[int, ...]:
        """How many were ever picked together, 1 left out."""
        return tuple(int(size) for size in np.unique(self.picked.sum(axis=1)) if size > 1)


@dataclass(frozen=True, slots=True)
class ChoiceFit:
    """Log worths, adding up to 0, and log ties δ_s for each size of `Stages.tied`, with their covariance."""

    log_worths: Floats
    log_ties: Floats
    covariance: Floats
    log_likelihood: float
    penalised: bool


def stages_of(left: Bools, picked: Bools, count: Floats, names: Sequence[str]) -> Stages:
    """Checked and collapsed; `names` of the columns. Raises as `bradley_terry` does."""
    told = (left.sum(axis=1) > 1) & (count > 0)
    left, picked, count = left[told], picked[told], count[told]
    if not len(left):
        raise TooFewObservations("No two coffees were compared.", todo="Compare some.")
    both, where = np.unique(np.hstack([left, picked]), axis=0, return_inverse=True)
    half = left.shape[1]
    found = Stages(both[:, :half], both[:, half:], np.bincount(where.ravel(), count).astype(float))
    parts = _connected(found.left)
    if len(np.unique(parts)) > 1:
        groups = [", ".join(np.array(names)[parts == part].tolist()) for part in np.unique(parts)]
        raise Refused(
            f"The coffees fall into groups that were never compared with each other: {'; '.join(groups)}.",
            todo="Analyse each group alone, or compare across them.",
        )
    if (found.picked == found.left).all():
        raise NoSpread("Every comparison is a tie.", todo="Report that nobody told two coffees apart.")
    if max(found.tied, default=1) > MOST_TIED:
        raise Refused(
            f"More than {MOST_TIED} coffees share a place.",
            todo="Leave out the rankings that tell that little.",
        )
    return found


def _connected(left: Bools) -> NDArray[np.int64]:
    """Which group each coffee is in: those compared, directly or by others, share one."""
    group = np.arange(left.shape[1])
    for row in left:
        group[np.isin(group, group[row])] = group[row].min()
    return group


def _has_no_end(stages: Stages) -> bool:
    """Whether some coffees lost to none of the others: no highest point then [Ford1957]."""
    beats = np.zeros((stages.left.shape[1],) * 2, dtype=bool)
    for left, picked in zip(stages.left, stages.picked, strict=True):
        beats[np.ix_(picked, left)] = True
    reach = beats | np.eye(len(beats), dtype=bool)
    for _ in range(int(np.ceil(np.log2(len(beats) + 1)))):
        reach = (reach.astype(np.int64) @ reach.astype(np.int64)) > 0
    return not bool(reach.all())


def fitted_choices(stages: Stages) -> ChoiceFit:
    """Where the likelihood is highest, or the penalised one where it has no end."""
    found = None if _has_no_end(stages) else _fitted(stages, penalised=False)
    if found is None or _is_far(found):
        found = _fitted(stages, penalised=True)
    return found


def _is_far(fit: ChoiceFit) -> bool:
    both = np.concatenate([fit.log_worths, fit.log_ties])
    errors = np.sqrt(np.maximum(np.diag(fit.covariance), 0))
    return bool((np.abs(both) > _FARTHEST).any() or not (errors < _FARTHEST).all())


def _fitted(stages: Stages, *, penalised: bool) -> ChoiceFit:
    coffees, ties = stages.left.shape[1], len(stages.tied)
    contrasts = np.vstack([np.eye(coffees - 1), -np.ones((1, coffees - 1))])
    to_all = np.zeros((coffees + ties, coffees - 1 + ties))
    to_all[:coffees, : coffees - 1], to_all[coffees:, coffees - 1 :] = contrasts, np.eye(ties)

    def minus(parameters: Floats) -> tuple[float, Floats]:
        both = to_all @ parameters
        if np.abs(both).max() > _BEYOND:
            return np.inf, np.zeros_like(parameters)
        value, gradient = _likelihood(stages, both[:coffees], both[coffees:])
        if penalised:
            value += float(np.sum(log_expit(both) + log_expit(-both))) / 2
            gradient = gradient + 0.5 - expit(both)
        return -value, -(to_all.T @ gradient)

    def bent(both: Floats) -> Floats:
        known = np.zeros((coffees + ties,) * 2)
        known[:coffees, :coffees] = _information(stages, both[:coffees])
        known[coffees:, coffees:] = np.eye(ties) * stages.count.sum() / 8
        if penalised:
            known += np.diag(expit(both) * expit(-both))
        return np.asarray(to_all.T @ known @ to_all)

    start = np.zeros(to_all.shape[1])
    at, _ = lowest(
        minus, start, np.asarray(np.linalg.pinv(bent(to_all @ start), hermitian=True), dtype=float)
    )
    information = hessian(minus, at) if ties else bent(to_all @ at)
    inverse = np.linalg.pinv(information, hermitian=True)
    # A last step of Newton's takes the estimates to the digits that the likelihood no longer shows.
    both = to_all @ (at - np.clip(inverse @ minus(at)[1], -1, 1))
    covariance = to_all @ inverse @ to_all.T
    alone, _ = _likelihood(stages, both[:coffees], both[coffees:])
    return ChoiceFit(both[:coffees], both[coffees:], covariance, alone, penalised)


def _likelihood(stages: Stages, log_worths: Floats, log_ties: Floats) -> tuple[float, Floats]:
    """Log-likelihood and its gradient by log worths and log ties."""
    sizes, left, picked, count = (1, *stages.tied), stages.left, stages.picked, stages.count
    taken = picked.sum(axis=1)
    logs = np.concatenate([[0.0], log_ties])
    # About the largest worth that is left, so that nothing overflows; it cancels in every share.
    top = np.where(left, log_worths, -np.inf).max(axis=1)
    weights, by_worth = [], []
    for size, log_tie in zip(sizes, logs, strict=True):
        worth = np.where(left, np.exp(np.minimum(log_worths - top[:, None], 0) / size), 0.0)
        # A weight is homogeneous of degree 1 in the worths, whatever the size of the tie.
        together, without = _symmetric(worth, size)
        weights.append(np.exp(log_tie) * together)
        by_worth.append(np.exp(log_tie) * worth * without / size)
    total = np.sum(weights, axis=0)
    chosen = np.searchsorted(np.array(sizes), taken)
    own = (picked * (log_worths - top[:, None])).sum(axis=1) / taken + logs[chosen]
    value = float(count @ (own - np.log(total)))
    gradient = count @ (picked / taken[:, None] - np.sum(by_worth, axis=0) / total[:, None])
    by_tie = [
        count @ ((taken == size) - weight / total)
        for size, weight in zip(sizes[1:], weights[1:], strict=True)
    ]
    return value, np.append(gradient, by_tie)


def _information(stages: Stages, log_worths: Floats) -> Floats:
    """Of log worths, as if nobody had shared a place: exact without ties, and with them a first idea."""
    worth = np.where(stages.left, np.exp(log_worths - log_worths.max()), 0.0)
    shares = worth / worth.sum(axis=1, keepdims=True)
    weighted = shares * stages.count[:, None]
    return np.asarray(np.diag(weighted.sum(axis=0)) - weighted.T @ shares)


def _symmetric(worth: Floats, size: int) -> tuple[Floats, Floats]:
    """e_size of each row, shape (n,), and e_(size - 1) without each of its own, shape (n, n_coffees)."""
    rows, coffees = worth.shape
    if size == 1:
        return worth.sum(axis=1), np.ones((rows, coffees))
    # Sums from the front and from the back: subtracting one coffee from the sum of all would lose digits.
    front, back = np.zeros((coffees + 1, size + 1, rows)), np.zeros((coffees + 1, size + 1, rows))
    front[:, 0] = back[:, 0] = 1.0
    for place in range(coffees):
        front[place + 1, 1:] = front[place, 1:] + front[place, :-1] * worth[:, place]
        other = coffees - 1 - place
        back[other, 1:] = back[other + 1, 1:] + back[other + 1, :-1] * worth[:, other]
    without = np.zeros((rows, coffees))
    for taken in range(size):
        without += (front[:-1, taken] * back[1:, size - 1 - taken]).T
    return front[-1, size], without
