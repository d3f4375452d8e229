"""The wire, outward: how the bowls of a table cool."""

from math import isfinite
from typing import TYPE_CHECKING, Annotated, Any

from pydantic import Field

from cupwright.core.taste.note import Value
from cupwright.web.shape import Shown

if TYPE_CHECKING:
    from cupwright.core.pour.cooling_fit import Minute
    from cupwright.core.pour.cooling_report import CoolingReport


class MinuteShown(Shown):
    """Minutes after a bowl's pour; null where it is not reached within six hours."""

    minutes: float | None
    low: float | None
    high: float | None


class WindowShown(Shown):
    """One round of the protocol: between which temperatures, and when."""

    title: str
    from_c: float
    to_c: float | None
    starts: MinuteShown
    ends: MinuteShown | None


class ReadShown(Shown):
    """A reading of a thermometer; `minutes` after the bowl's own pour, `at` in ms since 1970."""

    bowl: int
    place: str
    number: int
    minutes: float
    celsius: float
    at: int


class CoolingShown(Shown):
    """The curve of a bowl with its band at `level`, the rounds, and the readings it was fitted to."""

    vessel: str
    basis: str
    start_c: float
    room_c: float
    level: float
    minutes: list[float]
    celsius: list[float]
    low: list[float]
    high: list[float]
    windows: list[WindowShown]
    readings: list[ReadShown]
    caution: str
    doubt: str


class CupTemperatureShown(Shown):
    """How warm a cup was, in °C, and the interval that holds it."""

    celsius: float
    low: float
    high: float


class AnswerRowShown(Shown):
    """One answer, and how warm the cup was: null for a dry one, the whole table, and what came from paper."""

    taster: str
    place: str
    coffee: str
    part: Annotated[str, Field(serialization_alias="pass")]
    field: str
    value: Value
    written_at: int
    cup_c: float | None
    cup_low_c: float | None
    cup_high_c: float | None


def cooling_shown(report: "CoolingReport") -> CoolingShown:
    """The report for the desk."""
    whole: dict[str, Any] = {name: getattr(report, name) for name in CoolingShown.model_fields}
    whole["windows"] = [
        WindowShown(
            title=window.title,
            from_c=window.from_c,
            to_c=window.to_c,
            starts=_minute(window.starts),
            ends=None if window.ends is None else _minute(window.ends),
        )
        for window in report.windows
    ]
    return CoolingShown.model_validate(whole)


def _minute(moment: "Minute") -> MinuteShown:
    return MinuteShown(minutes=_finite(moment.minutes), low=_finite(moment.low), high=_finite(moment.high))


def _finite(number: float) -> float | None:
    return number if isfinite(number) else None
