"""An estimate with its interval: the one result type of this room."""

from dataclasses import dataclass

from cupwright.core.analyse.tabular import Tabular


@dataclass(frozen=True, slots=True)
class Estimate(Tabular):
    """A number and the interval that goes with it, in the unit of the number.

    `level` is the coverage of the interval, in (0, 1).
    """

    estimate: float
    low: float
    high: float
    level: float

    @property
    def differs_from_zero(self) -> bool:
        """Whether the interval leaves out 0."""
        return self.low > 0 or self.high < 0
