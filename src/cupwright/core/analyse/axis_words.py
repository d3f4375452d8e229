"""An axis of a map in words: what lies at its two ends, or nothing where it carries no more than chance."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

MOST_WORDS = 2
# Half of a column's spread lies along the axis then; where to stop is our choice.
LEAST_CORRELATION = 0.7
CHANCE = 0.05


@dataclass(frozen=True, slots=True)
class AxisWords:
    """What an axis runs from and to, the strongest first; both empty where it stays silent.

    `p_value` that chance alone makes so long an axis; None where nobody looked.
    """

    low: tuple[str, ...]
    high: tuple[str, ...]
    p_value: float | None

    @property
    def text(self) -> str:
        """ "from floral to heavy, cocoa"; empty where there is nothing to say."""
        if self.low and self.high:
            return f"from {', '.join(self.low)} to {', '.join(self.high)}"
        if self.high:
            return f"to more {', '.join(self.high)}"
        return f"to less {', '.join(self.low)}" if self.low else ""


def axis_words(
    correlations: Floats, named: Sequence[str], *, p_value: float | None = None, most: int = MOST_WORDS
) -> AxisWords:
    """What an axis is about.

    Parameters
    ----------
    correlations : float array, shape (n_columns,)
        Of each attribute or word with the axis.
    named : sequence of str
        What they are called.
    p_value : float, optional
        Of the axis, from `axes_beyond_chance`; above .05 the axis stays silent.
    most : int
        Words at each end.

    Returns
    -------
    AxisWords
        Only of columns that share half their spread with the axis (|r| at least .7).
    """
    if p_value is not None and p_value > CHANCE:
        return AxisWords((), (), p_value)
    order = sorted(range(len(named)), key=lambda one: (-abs(correlations[one]), named[one]))
    strong = [one for one in order if abs(correlations[one]) >= LEAST_CORRELATION]
    low = tuple(named[one] for one in strong if correlations[one] < 0)[:most]
    high = tuple(named[one] for one in strong if correlations[one] > 0)[:most]
    return AxisWords(low, high, p_value)
