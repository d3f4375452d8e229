"""The lowest point of a smooth function from its gradient, by Broyden, Fletcher, Goldfarb and Shanno."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Valued = Callable[[Floats], tuple[float, Floats]]

_STEPS = 200
_ENOUGH = 1e-12  # half of what another step would gain
_LONGEST = 4.0


def lowest(function: Valued, start: Floats, inverse: Floats) -> tuple[Floats, float]:
    """Where `function` (value and gradient) is lowest, and how low.

    `inverse` is a first idea of the inverse Hessian, positive definite. A value of +inf turns a step back.

    Source: [NocedalWright2006], algorithm 6.1, with halving in place of its line search.
    """
    at, inverse = start, inverse.copy()
    value, gradient = function(at)
    for _ in range(_STEPS):
        step = -inverse @ gradient
        fall = float(gradient @ step)
        if -fall < _ENOUGH:
            break
        step *= min(1.0, _LONGEST / float(np.abs(step).max()))
        new, new_value, new_gradient = _halved(function, at, value, step, float(gradient @ step))
        if new_value >= value:
            break
        inverse = _updated(inverse, new - at, new_gradient - gradient)
        at, value, gradient = new, new_value, new_gradient
    return at, value


def hessian(function: Valued, at: Floats, size: float = 1e-4) -> Floats:
    """Second derivatives, by central differences of the gradient."""
    rows = []
    for step in np.eye(len(at)) * size:
        rows.append((function(at + step)[1] - function(at - step)[1]) / (2 * size))
    found = np.array(rows).reshape(len(at), len(at))
    return (found + found.T) / 2


def _halved(
    function: Valued, at: Floats, value: float, step: Floats, fall: float
) -> tuple[Floats, float, Floats]:
    size = 1.0
    while True:
        new = at + size * step
        new_value, gradient = function(new)
        if new_value <= value + 1e-4 * size * fall or size < 1e-6:
            return new, new_value, gradient
        size /= 2


def _updated(inverse: Floats, moved: Floats, turned: Floats) -> Floats:
    along = float(moved @ turned)
    if along <= 1e-14:
        return inverse
    left = np.eye(len(moved)) - np.outer(moved, turned) / along
    return np.asarray(left @ inverse @ left.T + np.outer(moved, moved) / along)
