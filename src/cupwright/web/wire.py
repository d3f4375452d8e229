"""The wire, inward: what a request may carry. Shapes and sizes only; the core checks what a value means.

Unknown fields are refused, so a misspelt one is not silently dropped. Numbers are numbers: pydantic would
take `false` for 0 and "3" for 3.
"""

import re
from datetime import date
from typing import Annotated, Literal

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    StringConstraints,
    ValidationError,
    ValidatorFunctionWrapHandler,
    WrapValidator,
)

from cupwright.core.plan.coffee import LONGEST_NAME, LONGEST_TEXT, Coffee
from cupwright.core.plan.table import Blinding, Plan
from cupwright.core.taste.correction import Correction
from cupwright.core.taste.note import Note, Value
from cupwright.core.taste.stamp import Stamp

# Far above what the core takes, so that its sentence is heard; only floods stop here.
MANY = 1000
MOST_NOTES = 2000
FAR_AHEAD_MS = 2**53 - 1  # the last whole number that JavaScript counts to exactly


def _a_number(value: object) -> object:
    if isinstance(value, bool | str):
        raise ValueError("must be a number")
    return value


def _a_day(value: object) -> object:
    # pydantic would take 0 and "86400" for days of 1970.
    if isinstance(value, str) and re.fullmatch(r"\d{4}-\d\d-\d\d", value, re.ASCII):
        return value
    raise ValueError("must be a date such as 2026-03-01")


# Written last in an Annotated: written first it drops the bounds from the OpenAPI schema.
Num = BeforeValidator(_a_number)

Id = Annotated[str, StringConstraints(min_length=1, max_length=64, pattern=r"^[0-9A-Za-z._:-]+$")]
Name = Annotated[str, StringConstraints(max_length=10 * LONGEST_NAME)]
Text = Annotated[str, StringConstraints(max_length=10 * LONGEST_TEXT)]
Amount = Annotated[float, Field(allow_inf_nan=False), Num]
Whole = Annotated[int, Field(ge=-FAR_AHEAD_MS, le=FAR_AHEAD_MS), Num]
Day = Annotated[date, BeforeValidator(_a_day)]
Millis = Annotated[int, Field(ge=0, le=FAR_AHEAD_MS), Num]


class Wire(BaseModel):
    """Base of all that comes in."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class CoffeeIn(Wire):
    """A coffee as typed at the desk."""

    name: Name
    roaster: Name = ""
    origin: Name = ""
    process: Name = ""
    variety: Name = ""
    roast_date: Day | None = None
    published_notes: Text = ""
    grams_left: Amount | None = None

    def coffee(self, coffee_id: str = "") -> Coffee:
        """The core's value; the id of a new one is given by the step."""
        return Coffee(id=coffee_id, **self.model_dump())


class PastedIn(Wire):
    """Coffees pasted as text: CSV with a heading line."""

    text: Annotated[str, StringConstraints(max_length=2_000_000)]


class PlanIn(Wire):
    """What the host asks for; names and defaults as in the core."""

    name: Name
    coffees: Annotated[list[Id], Field(max_length=MANY)]
    tasters: Annotated[list[Name], Field(max_length=MANY)] = ["Taster 1"]
    bowls_per_sample: Whole = 1
    bowl_ml: Amount = 200.0
    grams_per_litre: Amount = 55.0
    scale_step_g: Amount = 0.1
    kettle_c: Amount = 95.0
    spare_bowl: bool = False
    purge_g: Amount = 5.0
    blinding: Blinding = Blinding.CODES
    sheet: Name = "open"
    seed: Whole = 0
    protocol: Name = "cupping"
    duplicates: Annotated[list[Id], Field(max_length=MANY)] = []
    flight: Whole = 8
    samples_each: Whole = 0
    pourers: Whole = 1
    pour_s: Amount = 15.0
    break_s: Amount = 10.0
    skim_s: Amount = 15.0
    vessel: Name = "bowl"
    altitude_m: Amount = 0.0
    room_c: Amount = 22.0
    taste_from_c: Amount = 71.0
    swallowed: Amount = 0.15

    def plan(self) -> Plan:
        """The core's value."""
        lists = {key: tuple(getattr(self, key)) for key in ("coffees", "tasters", "duplicates")}
        return Plan(**(self.model_dump() | lists))


class StampIn(Wire):
    """The Lamport stamp of a note."""

    counter: Millis
    device: Id


class NoteIn(Wire):
    """One note as a phone keeps it. The seat is not said: it follows from who asks."""

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True)

    id: Id
    place: Id
    part: Annotated[Id, Field(alias="pass")]
    field: Id
    value: "ValueIn" = None
    stamp: StampIn
    written_at: Millis

    def note(self, seat_id: str) -> Note:
        """The core's value."""
        stamp = Stamp(self.stamp.counter, self.stamp.device)
        return Note(
            self.id, seat_id, self.place, self.part, self.field, _value(self.value), stamp, self.written_at
        )


def _an_answer(value: object, read: ValidatorFunctionWrapHandler) -> object:
    # pydantic would complain once for every kind of answer, in its own words for them.
    try:
        return read(value)
    except ValidationError:
        raise ValueError(
            f"must be text of at most {10 * LONGEST_TEXT} characters, a number, a list of numbers or texts, "
            "a colour with l, a and b, numbers by cup or place, or null"
        ) from None


ValueIn = Annotated[
    Text
    | Amount
    | Annotated[list[Amount], Field(max_length=MANY)]
    | Annotated[list[Name], Field(max_length=MANY)]
    | Annotated[dict[Id, Amount], Field(max_length=MANY)]
    | None,
    WrapValidator(_an_answer),
]


def _value(value: object) -> Value:
    """Whole numbers in a list are cup numbers; JSON does not tell 2 from 2.0."""
    if isinstance(value, list) and all(isinstance(one, float) and one.is_integer() for one in value):
        return [int(number) for number in value]
    return value  # type: ignore[return-value]  # pydantic has narrowed it to the members of Value


class NotesIn(Wire):
    """A phone's unsent notes."""

    notes: Annotated[list[NoteIn], Field(max_length=MOST_NOTES)]


class CorrectionIn(Wire):
    """What some words mean, as a phone keeps it. Whose words they are follows from who asks."""

    id: Id
    surface: Name
    concept: Id | None
    stamp: StampIn
    written_at: Millis

    def correction(self) -> Correction:
        """The core's value; whose it is, the step says."""
        stamp = Stamp(self.stamp.counter, self.stamp.device)
        return Correction(self.id, "", self.surface, self.concept, stamp, self.written_at)


class CorrectionsIn(Wire):
    """A phone's unsent corrections."""

    corrections: Annotated[list[CorrectionIn], Field(max_length=MOST_NOTES)]


class OwnWordIn(Wire):
    """An own word: a new concept by its label or, without one, a form of the concept that is named."""

    label: Name = ""
    parents: Annotated[list[Id], Field(max_length=MANY)] = []
    forms: Annotated[list[Name], Field(max_length=MANY)] = []
    concept: Id | Literal[""] = ""


class ReadIn(Wire):
    """Texts to read, and what was asked for in them: a family of the lexicon, or nothing."""

    notes: Annotated[list[Text], Field(max_length=MANY)]
    field: Name = ""


class TextsIn(Wire):
    """Two texts to lay side by side."""

    mine: Text
    theirs: Text


class JoinIn(Wire):
    """A join code and who comes. No bounds that would tell a wrong code from an impossible one."""

    code: Name
    name: Name


class SeatIn(Wire):
    """Who takes a seat at the desk's own machine."""

    name: Name


class EnterIn(Wire):
    """The desk's passphrase; with the one-time word of the terminal it is set for the first time."""

    passphrase: Name
    word: Name = ""


class PourIn(Wire):
    """One bowl was poured; without `at`, now."""

    bowl: Millis
    at: Millis | None = None


class ReadingIn(Wire):
    """A thermometer in one bowl; without `at`, now."""

    bowl: Millis
    celsius: Amount
    at: Millis | None = None


class RevealIn(Wire):
    """Opening the key. After a shuffle: place -> code read under the bowl."""

    placings: Annotated[dict[Id, Id], Field(max_length=MANY)] | None = None


NoteIn.model_rebuild()
