"""Ties where two coffees are nearer than a threshold: three ordered answers to one comparison."""

import numpy as np
from numpy.typing import NDArray
from scipy.special import expit, log_expit

from cupwright.core.analyse.choice_stages import ChoiceFit
from cupwright.core.analyse.latent_link import BEYOND, Link, slopes
from cupwright.core.analyse.quasi_newton import hessian, lowest

Floats = NDArray[np.float64]


def rao_kupper(won: Floats, tied: Floats, *, penalised: bool) -> ChoiceFit:
    """Log worths and log θ, θ > 1, from counts of wins and ties, shape (n_coffees, n_coffees) each.

    i is picked over j with chance x_i / (x_i + θ x_j). In logits: the difference of log worths, moved by a
    logistic error, lies beyond log θ, between -log θ and log θ, or below.

    Source: [RaoKupper1967].
    """
    size = len(won)
    contrasts = np.vstack([np.eye(size - 1), -np.ones((1, size - 1))])
    first, second = np.nonzero(np.triu(won + won.T + tied))
    gap, pairs = contrasts[first] - contrasts[second], len(first)
    count = np.concatenate([won[second, first], tied[first, second], won[first, second]])
    a_rows, a0 = _ends(gap, [-1.0, 1.0, 0.0]), np.repeat([0.0, 0.0, BEYOND], pairs)
    b_rows, b0 = _ends(gap, [0.0, -1.0, 1.0]), np.repeat([-BEYOND, 0.0, 0.0], pairs)
    to_all = np.zeros((size + 1, size))
    to_all[:size, : size - 1], to_all[size, size - 1] = contrasts, 1

    def plain(parameters: Floats) -> tuple[float, Floats]:
        s = slopes(Link.LOGIT, a0 + a_rows @ parameters, b0 + b_rows @ parameters)
        return float(count @ s.g), a_rows.T @ (count * s.a) + b_rows.T @ (count * s.b)

    def minus(parameters: Floats) -> tuple[float, Floats]:
        if parameters[-1] <= 0:
            return np.inf, np.zeros_like(parameters)
        value, gradient = plain(parameters)
        if penalised:
            both = to_all @ parameters
            value += float(np.sum(log_expit(both) + log_expit(-both))) / 2
            gradient = gradient + to_all.T @ (0.5 - expit(both))
        return -value, -gradient

    at, _ = lowest(minus, np.append(np.zeros(size - 1), 0.5), np.eye(size) * size / max(1.0, count.sum()))
    inverse = np.linalg.pinv(hessian(minus, at), hermitian=True)
    at = at - inverse @ minus(at)[1]
    both = to_all @ at
    covariance = to_all @ inverse @ to_all.T
    return ChoiceFit(both[:size], both[size:], covariance, plain(at)[0], penalised)


def rao_kupper_shares(fit: ChoiceFit) -> tuple[Floats, Floats]:
    """The chances that i is picked over j, and that the two tie."""
    won = expit(fit.log_worths[:, None] - fit.log_worths - fit.log_ties[0])
    return won, 1 - won - won.T


def _ends(gap: Floats, ends: list[float]) -> Floats:
    """Rows of one end of lose, tie and win: log θ times that, less the gap; nothing where it is infinite."""
    return np.vstack([np.column_stack([-gap * abs(end), np.full(len(gap), end)]) for end in ends])
