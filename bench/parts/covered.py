"""Covered: what bench/coverage.py counts over simulated panels, family by family."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from cupwright.errors import Refused


@dataclass(frozen=True)
class Covered:
    """How often an interval held the truth, or how p-values fell, in `panels` panels of one size.

    `share` is of the intervals that were given; `silent` counts panels on which the statistic said nothing.
    For p-values `share` is of those at most 0.05, and `name` says so.
    """

    name: str
    size: str
    panels: int
    silent: int
    share: float
    goal: tuple[float, float] = (0.93, 0.97)

    @property
    def holds(self) -> bool:
        """Whether the share lies in the goal."""
        return self.goal[0] <= self.share <= self.goal[1]


def counted(
    name: str,
    size: str,
    panels: int,
    one: Callable[[np.random.Generator], bool | Iterator[bool]],
    *,
    seed: int = 20261125,
    goal: tuple[float, float] = (0.93, 0.97),
) -> Covered:
    """Simulate; `one` draws a panel and says whether the truth was held (once, or once an interval)."""
    rng = np.random.default_rng(seed)
    held: list[bool] = []
    silent = 0
    for _ in range(panels):
        try:
            found = one(rng)
            held += [found] if isinstance(found, bool | np.bool_) else list(found)
        except Refused:
            silent += 1
    return Covered(name, size, panels, silent, float(np.mean(held)) if held else float("nan"), goal)
