"""The temperature of a cup at a moment: what was tasted how hot.

Times are those of the server's clock. A phone writes the moment of a note as its own clock has it, set by
the server's as well as the phone knew that (docs/methods/cooling.md), so a phone whose clock is wrong but
that had reached the server when the note was written is within a second or two; one that had not is off by
its own fault.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from cupwright.core.plan.protocol import Brewed, Protocol
from cupwright.core.plan.table import Plan, Table
from cupwright.core.pour.cooling_fit import LONGEST_S, Cooling, Estimate, expected, fitted
from cupwright.core.pour.run_sheet import CueKind, run_sheet
from cupwright.core.taste.note import Note

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
        cues = run_sheet(len(self.table.bowls), self.table.clock, self.table.protocol.timing)
        return {cue.bowl: cue.due for cue in cues if cue.kind is CueKind.POUR}

    def of_bowl(self, bowl: int, at: int) -> Estimate | None:
        """The temperature of one bowl (index in pouring order); None before its pour and after six hours."""
        if bowl not in self.poured:
            return None
        seconds = (at - self.poured[bowl]) / 1000
        if not -_SLACK_MS / 1000 <= seconds <= LONGEST_S:
            return None
        return self.cooling.at(max(0.0, seconds))

    def of_place(self, place: str, at: int) -> Estimate | None:
        """The temperature of a place: over all of its bowls, since nobody knows which was tasted."""
        bowls = [bowl for bowl, (where, _) in enumerate(self.table.bowls) if where == place]
        found = [one for one in (self.of_bowl(bowl, at) for bowl in bowls) if one]
        if not found:
            return None
        return Estimate(
            float(np.mean([one.celsius for one in found])),
            min(one.low for one in found),
            max(one.high for one in found),
        )

    def of_notes(self, notes: Iterable[Note]) -> dict[str, Estimate]:
        """Note id -> the temperature of its cup when it was written, for notes of wet cups."""
        found = ((note.id, self.of_place(note.place, note.written_at)) for note in notes)
        return {note_id: estimate for note_id, estimate in found if estimate}

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

    Notes ----- Error: the interval's; from the plan alone about ± 9 K, with two readings about ± 3 K. It
    says how warm the *bowl* is: a spoonful has cooled by some kelvin when it reaches the mouth.
    """
    return CupTemperatures(table).of_place(place, at)


def expected_of_plan(plan: Plan, protocol: Protocol) -> Cooling:
    """The cooling to expect before any reading."""
    crust = protocol.crust.at_s if protocol.crust else 0
    return expected(plan, crust_until_s=crust, on_grounds=protocol.brewed is Brewed.BOWL)
