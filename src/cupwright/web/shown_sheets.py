"""The wire, outward: sheets, with the rule by which a device adds up their points itself, and totals."""

from datetime import datetime
from typing import TYPE_CHECKING, Annotated

from pydantic import Field

from cupwright.core.taste.sheet import Kind, Moment, Over, Sheet
from cupwright.web.shape import Shown

if TYPE_CHECKING:
    from cupwright.core.analyse.totals import Total
    from cupwright.steps.ports import Form


class FieldShown(Shown):
    """One question of a sheet."""

    id: str
    kind: Kind
    label: str
    hint: str
    low: float
    high: float
    step: float
    low_label: str
    high_label: str
    choices: list[str]
    most: int
    ties: bool
    try_all: bool


class PassShown(Shown):
    """One round of a sheet."""

    id: str
    title: str
    ask: str
    moment: Moment
    caution: str
    over: Over
    fields: list[FieldShown]


class TermShown(Shown):
    """A field that counts, and what it is worth as a decimal text."""

    part: Annotated[str, Field(serialization_alias="pass")]
    field: str
    times: str


class PointsRuleShown(Shown):
    """How a sheet's points are made; numbers are decimal texts."""

    start: str
    add: list[TermShown]
    subtract: list[TermShown]
    step: str
    least: str
    cups: int
    both: list[tuple[str, str]]


class SheetShown(Shown):
    """A sheet."""

    name: str
    version: int
    title: str
    passes: list[PassShown]
    liking: list[str] | None
    points: PointsRuleShown | None


class OwnSheetShown(Shown):
    """A user's own sheet as it was written."""

    name: str
    version: int
    text: str
    kept: datetime


class TotalShown(Shown):
    """What one taster's answers on one sample add up to; `total` is null while something is open."""

    seat: str
    name: str
    place: str
    coffee: str
    total: float | None
    low: float
    high: float
    lines: list[str]
    complaints: list[str]


def sheet_shown(sheet: Sheet) -> SheetShown:
    """A sheet as it is asked."""
    return SheetShown.model_validate(sheet)


def own_sheet_shown(form: "Form") -> OwnSheetShown:
    """An own sheet for the desk."""
    return OwnSheetShown.model_validate(form)


def total_shown(total: "Total") -> TotalShown:
    """Totals as numbers: up to 15 digits they are written exactly as they were computed."""
    made = total.points
    return TotalShown(
        seat=total.seat,
        name=total.name,
        place=total.place,
        coffee=total.coffee,
        total=None if made.total is None else float(made.total),
        low=float(made.low),
        high=float(made.high),
        lines=list(made.lines),
        complaints=list(made.complaints),
    )
