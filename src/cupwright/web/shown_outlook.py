"""The wire, outward: how a plan would run, and what one more would change. For the desk."""

from cupwright.web.shape import Shown
from cupwright.web.shown_schedule import ScheduleShown


class OneMoreShown(Shown):
    """What one more of `what` ("bowl" or "taster") would change, in whole sentences."""

    what: str
    sentences: list[str]


class OutlookShown(Shown):
    """The schedule, with as many people as it takes (null: nobody can keep it); `warnings` say what fails."""

    schedule: ScheduleShown | None
    warnings: list[str]
    one_more: list[OneMoreShown]
