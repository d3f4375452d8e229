"""Hands: how many people pour, break and skim, and how long each act keeps one of them busy."""

from dataclasses import dataclass
from math import ceil, isfinite

from cupwright.core.pour.timing import CueKind, Timing
from cupwright.errors import Refused

MOST_SECONDS = 600.0


@dataclass(frozen=True, slots=True)
class Hands:
    """`people` pairs of hands, and seconds of one pair for each act, with the way to the next bowl."""

    people: int = 1
    pour_s: float = 15.0
    break_s: float = 10.0
    skim_s: float = 15.0


def seconds_of(hands: Hands, timing: Timing) -> dict[CueKind, int]:
    """Whole seconds of hands for each act there is, rounded up: a sheet is kept by the second, not closer.

    Raises
    ------
    Refused
        If there is nobody, or an act takes no time or more than ten minutes.
    """
    if hands.people < 1:
        raise Refused("Nobody is there to pour.", todo="Say how many people pour, break and skim.")
    asked = {CueKind.POUR: hands.pour_s, CueKind.BREAK: hands.break_s, CueKind.SKIM: hands.skim_s}
    for kind, seconds in asked.items():
        if not (isfinite(seconds) and 0 < seconds <= MOST_SECONDS):
            raise Refused(
                f"Seconds to {kind} a bowl are more than 0 and at most {MOST_SECONDS:g}, not {seconds:g}.",
                todo="Measure it with a few bowls.",
            )
    return {kind: ceil(seconds) for kind, seconds in asked.items() if kind in timing.acts}
