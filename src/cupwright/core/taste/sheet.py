"""A sheet: what is asked of a taster, as versioned data.

Passes come in order; each goes over all places before the next begins; a pass holds fields.
A new form is a new TOML file (see core/taste/sheets/open.toml).
"""

from dataclasses import dataclass
from enum import StrEnum

# The sheet that the columns of a file of notes make (note_rows.py).
IMPORTED = "imported"


class Kind(StrEnum):
    """The kinds of answer a field can take."""

    WORDS = "words"  # free text that is read into concepts beside it
    TEXT = "text"  # free text that is only kept
    COLOUR = "colour"
    LINE = "line"  # a line scale between two ends
    POINTS = "points"  # stepped points
    CHOICE = "choice"
    TICKS = "ticks"  # which cups of the sample


class Moment(StrEnum):
    """When in the life of a cup a pass is due."""

    DRY = "dry"
    BREAK = "break"
    HOT = "hot"
    WARM = "warm"
    COOL = "cool"


@dataclass(frozen=True, slots=True)
class Field:
    """One question. `low`, `high` and `step` are for line and points; `choices` for choice."""

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


@dataclass(frozen=True, slots=True)
class Pass:
    """One round over all places."""

    id: str
    title: str
    ask: str
    moment: Moment
    fields: tuple[Field, ...]
    caution: str = ""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A versioned form. `liking` names the (pass, field) that holds overall liking, if any."""

    name: str
    version: int
    title: str
    passes: tuple[Pass, ...]
    liking: tuple[str, str] | None = None

    def field(self, part: str, field: str) -> Field | None:
        """The field `field` of the pass `part`, or None."""
        return next((f for p in self.passes if p.id == part for f in p.fields if f.id == field), None)

    def ends(self, field: Field) -> tuple[float, float] | None:
        """Ends of a scale; None if it is only known how far its answers reach, not how far they could."""
        return None if self.name == IMPORTED else (field.low, field.high)
