"""The wire, outward: a schedule. Seconds count from the first pour."""

from cupwright.core.pour.timing import CueKind
from cupwright.web.shape import Shown


class ActShown(Shown):
    """One person's act on one bowl, both from 0."""

    kind: CueKind
    bowl: int
    person: int
    start_s: int
    end_s: int


class FlightShown(Shown):
    """Bowls `first` up to, not including, `after`."""

    first: int
    after: int
    start_s: int
    end_s: int


class TimingShown(Shown):
    """When the protocol wants acts: seconds after a bowl's own pour; the first taste `put_off_s` later."""

    break_at_s: int
    break_earliest_s: int
    break_latest_s: int
    skim_at_s: int
    taste_from_s: int
    taste_to_s: int
    put_off_s: int
    acts: list[CueKind]


class ScheduleShown(Shown):
    """Who does what when. `people` have something to do; steeps of the bowls in pouring order.

    `least`: proven that none spread less, or as little and nearer to the usual steep.
    """

    acts: list[ActShown]
    flights: list[FlightShown]
    people: int
    spread_s: int
    least: bool
    steep_s: list[int]
    timing: TimingShown
