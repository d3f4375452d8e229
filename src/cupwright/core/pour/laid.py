"""A schedule as it was laid: acts, who does them, and when, in seconds since the first pour."""

from dataclasses import dataclass

from cupwright.core.pour.timing import CueKind, Timing

RANK = {kind: rank for rank, kind in enumerate(CueKind)}
PAUSE_S = 300


@dataclass(frozen=True, slots=True)
class Act:
    """One person's act on one bowl (indices from 0, bowls in pouring order); seconds since the first pour."""

    kind: CueKind
    bowl: int
    person: int
    start_s: int
    end_s: int


@dataclass(frozen=True, slots=True)
class Flight:
    """Bowls `first` up to, not including, `after`, poured from `start_s` on; work ends by `end_s`."""

    first: int
    after: int
    start_s: int
    end_s: int


@dataclass(frozen=True, slots=True)
class Schedule:
    """Acts in order of time. `people` have something to do; `spread_s` is the greatest of any flight.

    `least`: whether it is proven that no steeps on steps of 5 s spread less, or as little and nearer to the
    protocol's own.
    """

    acts: tuple[Act, ...]
    flights: tuple[Flight, ...]
    people: int
    spread_s: int
    steep_s: tuple[int, ...]
    timing: Timing
    least: bool = True
