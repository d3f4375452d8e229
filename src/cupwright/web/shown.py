"""The wire, outward, to the desk: every field an answer carries is listed, so a new one is hidden at first.

What tasters get is listed in seat_view.py.
"""

from datetime import date, datetime
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field

from cupwright.core.flow import Step
from cupwright.core.plan.balance import table_balance
from cupwright.core.plan.table import Blinding, Seat, Table
from cupwright.core.pour.run_sheet import Cue
from cupwright.core.pour.timing import CueKind
from cupwright.web.shape import Shown
from cupwright.web.shown_balance import BalanceInShort, BalanceShown
from cupwright.web.shown_protocols import CautionShown, DeviationShown
from cupwright.web.shown_recipe import RecipeShown
from cupwright.web.shown_sheets import SheetShown, sheet_shown


class CoffeeFace(Shown):
    """A coffee as its bag describes it."""

    id: str
    name: str
    roaster: str
    origin: str
    process: str
    variety: str
    roast_date: date | None
    published_notes: str


class CoffeeShown(CoffeeFace):
    """A coffee on the shelf; what is left of it stays at the desk."""

    grams_left: float | None


class RefusedLineShown(Shown):
    """A line of a file that was not taken."""

    line: int
    column: str
    message: str


class ImportShown(Shown):
    """What came of a file of coffees."""

    added: list[CoffeeShown]
    refused: list[RefusedLineShown]
    unused: list[str]


class PlanShown(Shown):
    """What the host asked for."""

    name: str
    coffees: list[str]
    tasters: list[str]
    bowls_per_sample: int
    bowl_ml: float
    grams_per_litre: float
    scale_step_g: float
    kettle_c: float
    spare_bowl: bool
    purge_g: float
    blinding: Blinding
    sheet: str
    seed: int
    protocol: str
    duplicates: list[str]
    flight: int
    samples_each: int
    pourers: int
    pour_s: float
    break_s: float
    skim_s: float
    vessel: str
    altitude_m: float
    room_c: float
    taste_from_c: float
    swallowed: float


class TaskShown(Shown):
    """One thing to do."""

    title: str
    detail: str
    caution: str


class NeedShown(Shown):
    """How much of one coffee a table takes."""

    coffee_id: str
    name: str
    grams: float
    grams_left: float | None
    runs_short: bool


class BriefShown(Shown):
    """What to have ready, and in which order."""

    recipe: RecipeShown
    tasks: list[TaskShown]
    coffees: list[NeedShown]
    warnings: list[str]
    balance: BalanceShown
    deviations: list[DeviationShown]
    limits: list[CautionShown]


class BowlShown(Shown):
    """One vessel in pouring order; `number` counts within the place from 1."""

    place: str
    number: int


class ClockShown(Shown):
    """The table's clock: when it was started, (bowl, time) poured, (kind, bowl, time) done otherwise."""

    started_at: int | None
    pours: list[tuple[int, int]]
    done: list[tuple[str, int, int]]


class DeskSeatShown(Shown):
    """A seat as the desk sees it; `taken` if somebody sits there."""

    id: str
    name: str
    order: list[str]
    taken: bool


class TableLine(Shown):
    """A table in the list of tables."""

    id: str
    name: str
    step: Step
    created: datetime
    blinding: Blinding
    samples: int
    bowls: int
    tasters: int


class TableShown(Shown):
    """A table as the desk sees it. No codes beside coffees: that is the pour list's."""

    id: str
    name: str
    step: Step
    created: datetime
    plan: PlanShown
    sheet: SheetShown
    blinding: Blinding
    places: list[str]
    codes: list[str]
    bowls: list[BowlShown]
    seats: list[DeskSeatShown]
    commitment: str
    join_code: str
    clock: ClockShown
    placings: dict[str, str]
    balance: BalanceInShort


class CueShown(Shown):
    """What is due with a bowl, for which person from 0 (None: for all); ms since 1970."""

    kind: CueKind
    bowl: int
    place: str
    number: int
    due: int
    earliest: int
    latest: int
    ends: int
    person: int | None
    done: bool


class JoinShown(Shown):
    """How tasters come in."""

    code: str
    url: str
    qr_svg: str
    addresses: list[str]


class PassProgressShown(BaseModel):
    """How far a seat is in one pass."""

    model_config = ConfigDict(populate_by_name=True)

    part: Annotated[str, Field(serialization_alias="pass")]
    done: int
    all: int


class ProgressShown(Shown):
    """How far a seat is."""

    seat: str
    name: str
    passes: list[PassProgressShown]
    last_seen: int | None


class RefusedNoteShown(Shown):
    """A note of a phone's file that cannot stand at the table; numbered from 1."""

    number: int
    message: str


class TakenInShown(Shown):
    """What came of a phone's file."""

    seat_name: str
    kept: int
    new: int
    late: bool
    refused: list[RefusedNoteShown]


class HealthShown(Shown):
    """How the server is; `build` names the client it serves."""

    version: str
    build: str
    now_ms: int
    lan: bool
    desk: str


class EventShown(Shown):
    """A line of the table's diary."""

    sequence: int
    kind: str
    at: datetime
    detail: dict[str, Any]
    digest: str


class PourLineShown(Shown):
    """For the pourer: which coffee goes under which code, and in which flight (from 1)."""

    code: str
    coffee: CoffeeShown
    bowls: int
    flight: int


def table_line(table: Table) -> TableLine:
    """A table in few words."""
    return TableLine(
        id=table.id,
        name=table.plan.name,
        step=table.step,
        created=table.created,
        blinding=table.plan.blinding,
        samples=len(table.plan.samples),
        bowls=len(table.bowls),
        tasters=len(table.seats),
    )


def table_shown(table: Table, taken: frozenset[str]) -> TableShown:
    """A table for the desk."""
    return TableShown(
        id=table.id,
        name=table.plan.name,
        step=table.step,
        created=table.created,
        plan=PlanShown.model_validate(table.plan),
        sheet=sheet_shown(table.sheet),
        blinding=table.plan.blinding,
        places=list(table.places),
        codes=list(table.codes),
        bowls=bowls_shown(table),
        seats=[_desk_seat(seat, taken) for seat in table.seats],
        commitment=table.commitment,
        join_code=table.join_code,
        clock=ClockShown.model_validate(table.clock),
        placings=dict(table.placings),
        balance=BalanceInShort.model_validate(table_balance(table)),
    )


def cues_shown(table: Table, cues: tuple[Cue, ...]) -> list[CueShown]:
    """Cues with the place and number of their bowl."""
    bowls = table.bowls
    return [
        CueShown(
            kind=cue.kind,
            bowl=cue.bowl,
            place=bowls[cue.bowl][0],
            number=bowls[cue.bowl][1],
            due=cue.due,
            earliest=cue.earliest,
            latest=cue.latest,
            ends=cue.ends,
            person=cue.person,
            done=cue.done,
        )
        for cue in cues
    ]


def bowls_shown(table: Table) -> list[BowlShown]:
    """Every vessel in pouring order."""
    return [BowlShown(place=place, number=number) for place, number in table.bowls]


def _desk_seat(seat: Seat, taken: frozenset[str]) -> DeskSeatShown:
    return DeskSeatShown(id=seat.id, name=seat.name, order=list(seat.order), taken=seat.id in taken)
