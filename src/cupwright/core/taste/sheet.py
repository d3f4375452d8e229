"""A sheet: what is asked of a taster, as versioned data.

Passes come in order; each goes over all places before the next begins; a pass holds fields. A pass over the
table compares the places and asks once: its notes stand at the place `WHOLE_TABLE`.
A new form is a new TOML file (see core/taste/sheets/open.toml).
"""

from dataclasses import dataclass
from enum import StrEnum

# The sheet that the columns of a file of notes make (note_rows.py).
IMPORTED = "imported"

# Where the notes of a pass over the whole table stand; never a place: those are numbers.
WHOLE_TABLE = "table"


class Kind(StrEnum):
    """The kinds of answer a field can take."""

    WORDS = "words"  # free text that is read into concepts beside it
    TEXT = "text"  # free text that is only kept
    COLOUR = "colour"
    LINE = "line"  # a line scale between two ends
    POINTS = "points"  # stepped points
    CHOICE = "choice"
    TICKS = "ticks"  # which cups of the sample
    CUPS = "cups"  # which cups of the sample are not good; the good ones count
    FAULTS = "faults"  # which cups have a taint or a fault, and which were found clean
    TAGS = "tags"  # all that apply of a list
    RANK = "rank"  # the order of the places of the table
    ODD = "odd"  # the place that differs from all others


class Moment(StrEnum):
    """When in the life of a cup a pass is due."""

    DRY = "dry"
    BREAK = "break"
    HOT = "hot"
    WARM = "warm"
    COOL = "cool"


class Over(StrEnum):
    """What a pass goes over: asked at each place, or once for the whole table."""

    PLACES = "places"
    TABLE = "table"


# Kinds that compare places: they can only be asked once for the whole table.
COMPARING = (Kind.RANK, Kind.ODD)
# Kinds that are about the cups of one place.
CUP_KINDS = (Kind.TICKS, Kind.CUPS, Kind.FAULTS)


@dataclass(frozen=True, slots=True)
class Field:
    """One question.

    `low`, `high` and `step` are for line and points; `high` alone for cups: what a sample of good cups gets.
    `choices` are for choice and tags, `most` for tags (at most so many; 0: any number), `ties` for rank
    (whether places may share one), `try_all` for ticks (whether one marked cup asks what all others are;
    `low_label` and `high_label` then call a cup that is not marked and one that is).
    """

    id: str
    kind: Kind
    label: str
    hint: str = ""
    low: float = 0.0
    high: float = 100.0
    step: float = 1.0
    low_label: str = ""
    high_label: str = ""
    choices: tuple[str, ...] = ()
    most: int = 0
    ties: bool = False
    try_all: bool = False


@dataclass(frozen=True, slots=True)
class Pass:
    """One round over all places, or one question to the whole table. `after` is the pass it has to follow."""

    id: str
    title: str
    ask: str
    moment: Moment
    fields: tuple[Field, ...]
    caution: str = ""
    over: Over = Over.PLACES
    after: str = ""


@dataclass(frozen=True, slots=True)
class Term:
    """A field that counts towards the points, `times` (a decimal text) what it is worth."""

    part: str
    field: str
    times: str = "1"


@dataclass(frozen=True, slots=True)
class PointsRule:
    """How a sheet's points are made: `start` and what is added, without what is subtracted.

    Numbers are decimal texts. `step`: the sum is rounded to it, a half upwards ("": it is not rounded).
    `least`: scores down to it are counted although a field's own scale begins higher ("": they are not).
    `cups`: the number of cups of a sample the rule was written for. `both`: (field, field) such that a cup
    marked in the first has to be marked in the second. What is subtracted and was not written down is none.
    `bands`: (least total, what the trade calls it), from the highest down.
    """

    start: str = "0"
    add: tuple[Term, ...] = ()
    subtract: tuple[Term, ...] = ()
    step: str = ""
    least: str = ""
    cups: int = 5
    both: tuple[tuple[str, str], ...] = ()
    bands: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Sheet:
    """A versioned form. `liking` names the (pass, field) that holds overall liking, if any."""

    name: str
    version: int
    title: str
    passes: tuple[Pass, ...]
    liking: tuple[str, str] | None = None
    points: PointsRule | None = None

    def part(self, part: str) -> Pass | None:
        """The pass `part`, or None."""
        return next((p for p in self.passes if p.id == part), None)

    def field(self, part: str, field: str) -> Field | None:
        """The field `field` of the pass `part`, or None."""
        return next((f for p in self.passes if p.id == part for f in p.fields if f.id == field), None)

    def ends(self, field: Field) -> tuple[float, float] | None:
        """Ends of a scale; None if it is only known how far its answers reach, not how far they could."""
        return None if self.name == IMPORTED else (field.low, field.high)
