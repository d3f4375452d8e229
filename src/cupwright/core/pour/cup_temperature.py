"""The temperature of a cup at a moment: what was tasted how hot.

Times are those of the server's clock. A phone writes the moment of a note as its own clock has it, set by
the server's as well as the phone knew that (docs/methods/cooling.md), so a phone whose clock is wrong but
that had reached the server when the note was written is within a second or two; one that had not is off by
its own fault.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from cupwright.core.plan.protocol import Brewed, Protocol
from cupwright.core.plan.table import Plan, Table
from cupwright.core.pour.cooling import Floats
from cupwright.core.pour.cooling_fit import LONGEST_S, Cooling, Estimate, expected, fitted
from cupwright.core.pour.table_sheet import cues_of
from cupwright.core.pour.timing import CueKind

# A hand that marks a pour is a little late or early; a note at that moment is of a hot cup, not of a dry one.
_SLACK_MS = 1_000


@dataclass(frozen=True)
class CupTemperatures:
    """The temperatures of a table's cups, for many moments: fitted to its readings once."""

    table: Table

    @cached_property
    def cooling(self) -> Cooling:
        """How the bowls of this table cool, by its readings."""
        before = expected_of_plan(self.table.plan, self.table.protocol)
        return fitted(before, self._seen) if self._seen else before

    @cached_property
    def poured(self) -> Mapping[int, int]:
        """Bowl -> moment of its pour, ms since 1970; empty while the clock is not started."""
        return {cue.bowl: cue.due for cue in cues_of(self.table) if cue.kind is CueKind.POUR}

    def at(self, moments: Sequence[tuple[str, int | None]]) -> tuple[Estimate | None, ...]:
        """The temperature of a place (code or position) at a moment (ms), for many at once.

        Over all bowls of the place, since nobody knows which was tasted; None where none was poured yet, or
        all were more than six hours ago, or nobody knows the moment.
        """
        asked = [
            (row, (at - self.poured[bowl]) / 1000)
            for row, (place, at) in enumerate(moments)
            if at is not None
            for bowl in self._bowls.get(place, ())
            if -_SLACK_MS <= at - self.poured[bowl] <= LONGEST_S * 1000
        ]
        if not asked:
            return (None,) * len(moments)
        rows = np.array([row for row, _ in asked])
        curves = self.cooling.band(np.maximum([seconds for _, seconds in asked], 0.0))
        return tuple(_over_bowls(*(curve[rows == row] for curve in curves)) for row in range(len(moments)))

    @cached_property
    def _bowls(self) -> Mapping[str, list[int]]:
        """Place -> its bowls that are or will be poured."""
        found: dict[str, list[int]] = {}
        for bowl, (place, _) in enumerate(self.table.bowls):
            if bowl in self.poured:
                found.setdefault(place, []).append(bowl)
        return found

    @property
    def _seen(self) -> list[tuple[float, float]]:
        return [
            ((at - self.poured[bowl]) / 1000, celsius)
            for bowl, at, celsius in self.table.clock.readings
            if bowl in self.poured and at >= self.poured[bowl]
        ]


def cup_temperature(table: Table, place: str, at: int) -> Estimate | None:
    """The temperature of the cup at a place.

    Parameters
    ----------
    place : str
        A code, or a position after a shuffle.
    at : int
        Milliseconds of the server's clock since 1970.

    Returns
    -------
    Estimate or None
        None before the pour, more than six hours after it, and for a table whose clock was never started.

    Notes
    -----
    Error: the interval's; from the plan alone about ± 9 K, with two readings about ± 3 K. It says how warm
    the *bowl* is: a spoonful has cooled by some kelvin when it reaches the mouth.
    """
    return CupTemperatures(table).at([(place, at)])[0]


def _over_bowls(middle: Floats, low: Floats, high: Floats) -> Estimate | None:
    if middle.size == 0:
        return None
    return Estimate(float(middle.mean()), float(low.min()), float(high.max()))


def expected_of_plan(plan: Plan, protocol: Protocol) -> Cooling:
    """The cooling to expect before any reading."""
    crust = protocol.crust.at_s if protocol.crust else 0
    return expected(plan, crust_until_s=crust, on_grounds=protocol.brewed is Brewed.BOWL)
