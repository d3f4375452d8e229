"""The wire, outward, about the clock: schedule and run sheet. Seconds count from the first pour."""

from cupwright.core.plan.table import Table
from cupwright.core.pour.table_sheet import cues_of, lateness, schedule_of
from cupwright.core.pour.timing import CueKind
from cupwright.web.shape import Shown
from cupwright.web.shown import CueShown, cues_shown


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
    """When the protocol wants the acts: seconds after a bowl's own pour."""

    pour_every_s: int
    break_at_s: int
    break_earliest_s: int
    break_latest_s: int
    skim_at_s: int
    taste_from_s: int
    taste_to_s: int
    acts: list[CueKind]


class ScheduleShown(Shown):
    """Who does what when. `people` have something to do; steeps of the bowls in pouring order."""

    acts: list[ActShown]
    flights: list[FlightShown]
    people: int
    spread_s: int
    steep_s: list[int]
    timing: TimingShown


class ScheduleAnswer(Shown):
    """A schedule, and the most bowls of one flight that the same hands can keep."""

    schedule: ScheduleShown
    largest: int


class RunSheetShown(Shown):
    """All cues, the server's clock to read them by, the schedule behind them, and what cannot be kept."""

    now_ms: int
    started_at: int | None
    cues: list[CueShown]
    schedule: ScheduleShown
    late: list[str]


def run_sheet_shown(table: Table, now_ms: int) -> RunSheetShown:
    """The run sheet of a table as it stands."""
    cues = cues_of(table)
    return RunSheetShown(
        now_ms=now_ms,
        started_at=table.clock.started_at,
        cues=cues_shown(table, cues),
        schedule=ScheduleShown.model_validate(schedule_of(table)),
        late=list(lateness(table, cues)),
    )
