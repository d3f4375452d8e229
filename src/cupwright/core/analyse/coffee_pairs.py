"""Coffee pairs: all differences between coffees, with intervals that hold together."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cupwright.core.analyse.scores import Floats
from cupwright.core.analyse.tabular import Tabular


@dataclass(frozen=True, slots=True)
class PairComparison(Tabular):
    """Coffee a less coffee b, in points; the intervals of all pairs hold together.

    `p_a_better` is the probability that a's true value is the higher one.
    """

    a: str
    b: str
    difference: float
    low: float
    high: float
    p_a_better: float

    @property
    def apart(self) -> bool:
        """Whether the interval leaves out 0: the two can be told apart."""
        return self.low > 0 or self.high < 0


def compared_pairs(
    names: Sequence[str], estimates: Floats, draws: Floats, level: float
) -> tuple[PairComparison, ...]:
    """Every pair of coffees once, from draws of their true values, shape (n_coffees, n_draws).

    Each pair's own interval is stretched by one factor for all, so far that `level` of the draws lie in all
    intervals at once [BesagGreen1995].
    """
    first, second = np.triu_indices(len(names), 1)
    # Six digits are plenty for quantiles of draws, and half the time.
    single = (draws - draws.mean()).astype(np.float32)
    apart = single[first] - single[second]
    tail = (1 - level) / 2
    low, middle, high = np.quantile(apart, [tail, 0.5, 1 - tail], axis=1)
    about = apart - middle[:, None]
    up, down = np.maximum(high - middle, 1e-30), np.maximum(middle - low, 1e-30)
    reach = np.maximum((about / up[:, None]).max(axis=0), (about / -down[:, None]).max(axis=0))
    stretch = float(np.quantile(reach, level))
    differences = estimates[first] - estimates[second]
    lows = np.minimum(middle - stretch * down, differences)
    highs = np.maximum(middle + stretch * up, differences)
    better = (apart > 0).mean(axis=1)
    return tuple(
        PairComparison(names[a], names[b], *numbers)
        for a, b, *numbers in zip(
            first.tolist(),
            second.tolist(),
            differences.tolist(),
            lows.tolist(),
            highs.tolist(),
            better.tolist(),
            strict=True,
        )
    )
