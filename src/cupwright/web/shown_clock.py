"""The wire, outward, about the clock: schedule and run sheet."""

from cupwright.core.plan.table import Table
from cupwright.core.pour.table_sheet import cues_of, lateness, schedule_of
from cupwright.web.shape import Shown
from cupwright.web.shown import CueShown, cues_shown
from cupwright.web.shown_schedule import ScheduleShown


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
