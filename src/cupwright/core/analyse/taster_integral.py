"""The likelihood of ordinal answers when each taster has a level of their own, integrated over that level.

A taster's level is σu, u standard normal. The integral over u is adaptive Gauss-Hermite quadrature: nodes
around the mode of each taster, spread by the curvature there [PinheiroBates1995]; one node is Laplace's
approximation. The gradient is exact, with what moves the mode and the spread included. Parameters are
φ = (θ, β, log σ).
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.cumulative_link import Cells, Penalty
from cupwright.core.analyse.gauss_hermite import gauss_hermite
from cupwright.core.analyse.latent_link import Link, slopes

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_ROOT2 = float(np.sqrt(2.0))


@dataclass(slots=True)
class TasterIntegral:
    """`taster` numbers, for each row of the cells, whose answer it is, in rising order and without gaps."""

    cells: Cells
    taster: Ints
    link: Link
    nodes: int
    penalty: Penalty | None = None
    spread_scale: float | None = None  # of a half-normal density of σ, where a penalty is needed
    modes: Floats = field(init=False)
    curvatures: Floats = field(init=False)
    _starts: Ints = field(init=False)
    _parts: tuple[Floats, Floats, Floats, Floats] = field(init=False)

    def __post_init__(self) -> None:
        self._starts = np.flatnonzero(np.diff(self.taster, prepend=-1))
        self._parts = self.cells.thresholds()
        self.modes = np.zeros(len(self._starts))
        self.curvatures = np.ones(len(self._starts))

    def __call__(self, parameters: Floats) -> tuple[float, Floats]:
        """Minus the log-likelihood, and its gradient; the penalties, if any, are in both."""
        value, gradient = self.plain(parameters)
        if self.penalty is not None:
            value -= self.penalty.value(parameters[:-1])
            gradient[:-1] -= self.penalty.gradient(parameters[:-1])
        if self.spread_scale is not None:
            squared = float(np.exp(2 * parameters[-1])) / self.spread_scale**2
            value += squared / 2
            gradient[-1] += squared
        return value, gradient

    def plain(self, parameters: Floats) -> tuple[float, Floats]:
        """The same without penalties."""
        cuts = self.cells.cuts
        if (np.diff(parameters[:cuts]) <= 0).any() or not -12 < parameters[-1] < 6:
            return np.inf, np.zeros_like(parameters)
        a_rows, b_rows, a0, b0 = self._parts
        fixed, sigma = parameters[:-1], float(np.exp(parameters[-1]))
        a, b = a0 + a_rows @ fixed, b0 + b_rows @ fixed
        self._find_modes(a, b, sigma)
        return self._integrated(a, b, sigma)

    def _sum(self, rows: Floats) -> Floats:
        """Over the rows of each taster, each counted as often as its cell says."""
        weights = self.cells.count if rows.ndim == 1 else self.cells.count[:, None]
        return np.asarray(np.add.reduceat(rows * weights, self._starts, axis=0))

    def _find_modes(self, a: Floats, b: Floats, sigma: float) -> None:
        """Newton for all tasters at once, kept between bounds: each slope falls with u, by 1 at least."""
        u, last = self.modes, np.full(len(self.modes), np.inf)
        low, high = np.full(len(u), -np.inf), np.full(len(u), np.inf)
        for _ in range(100):
            shift = sigma * u[self.taster]
            s = slopes(self.link, a - shift, b - shift)
            slope = sigma * self._sum(s.c) - u
            low, high = np.where(slope > 0, u, low), np.where(slope < 0, u, high)
            step = np.clip(slope / (1 - sigma**2 * self._sum(s.cc)), -2, 2)
            # Where the curve is flat on one side and steep on the other, Newton alone would swing for ever.
            bounded = np.isfinite(low) & np.isfinite(high)
            ends = np.where(bounded, low, u), np.where(bounded, high, u)
            middle = (ends[0] + ends[1]) / 2 - u
            halve = bounded & ((u + step <= low) | (u + step >= high) | (np.abs(step) > np.abs(last) / 2))
            halve &= slope != 0
            last = np.where(halve, middle, step)
            u = u + last
            if np.abs(last).max() < 1e-7:
                break
        self.modes = u

    def _integrated(self, a: Floats, b: Floats, sigma: float) -> tuple[float, Floats]:
        z, logs = gauss_hermite(self.nodes)
        a_rows, b_rows, *_ = self._parts
        t, u = self.taster, self.modes
        at_mode = slopes(self.link, a - sigma * u[t], b - sigma * u[t])
        # The curvature belongs to this u, not to the one a Newton step before it.
        self.curvatures = 1 - sigma**2 * self._sum(at_mode.cc)
        spread = self.curvatures**-0.5
        levels = u[:, None] + _ROOT2 * spread[:, None] * z
        shift = sigma * levels[t]
        s = slopes(self.link, a[:, None] - shift, b[:, None] - shift)
        logged = self._sum(s.g) - levels**2 / 2 + logs
        top = logged.max(axis=1, keepdims=True)
        parts = np.exp(logged - top)
        sums = parts.sum(axis=1)
        value = float(np.sum(np.log(sums) + top[:, 0] + np.log(spread))) - len(u) * np.log(np.pi) / 2
        shares = parts / sums[:, None]

        # By the parameters with the nodes held, then by what they move: the mode and the spread.
        n, per_row = self.cells.count, shares[t]
        gradient = a_rows.T @ (n * (per_row * s.a).sum(axis=1)) + b_rows.T @ (n * (per_row * s.b).sum(axis=1))
        by_shift = self._sum(s.c)
        by_level = shares * (sigma * by_shift - levels)
        by_mode, by_spread = by_level.sum(axis=1), _ROOT2 * (by_level * z).sum(axis=1) + 1 / spread
        # d spread = spread³/2 (what moves the curvature directly + h''' d mode); d mode = spread² d h'.
        cube = by_spread * spread**3 / 2
        by_mode = (by_mode + cube * sigma**3 * self._sum(at_mode.ccc)) * spread**2
        rows_a = by_mode[t] * -sigma * -at_mode.ca + cube[t] * sigma**2 * at_mode.cca
        rows_b = by_mode[t] * -sigma * -at_mode.cb + cube[t] * sigma**2 * at_mode.ccb
        gradient = gradient + a_rows.T @ (n * rows_a) + b_rows.T @ (n * rows_b)
        first, second, third = self._sum(at_mode.c), self._sum(at_mode.cc), self._sum(at_mode.ccc)
        by_sigma = (shares * by_shift * levels).sum() + by_mode @ (first + sigma * u * second)
        by_sigma += cube @ (2 * sigma * second + sigma**2 * u * third)
        return -float(value), -np.append(gradient, sigma * by_sigma)
