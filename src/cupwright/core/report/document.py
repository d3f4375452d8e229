"""The document: headings, paragraphs, tables, figures and caveats; the same for screen, paper and data.

A document knows nothing of HTML, PDF or charts. Numbers stay numbers (a cell keeps its full value);
how many digits are shown is said by the column.
"""

from dataclasses import dataclass, field
from enum import StrEnum

Cell = str | float | int | None


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading; `level` 1 is a section, 2 a part of one."""

    text: str
    level: int = 1


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Plain prose, one paragraph; `lead` is what it is about, set off before the text."""

    text: str
    lead: str = ""


@dataclass(frozen=True, slots=True)
class Caveat:
    """What the reader must know before trusting the numbers, or a caution about safety."""

    text: str


@dataclass(frozen=True, slots=True)
class Column:
    """A table's column. `digits` is how many decimals a number is shown with (None: as it is)."""

    title: str
    digits: int | None = None
    align: str = "left"  # left | right


@dataclass(frozen=True, slots=True)
class TableBlock:
    """A table; every row has one cell per column."""

    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    caption: str = ""
    name: str = ""  # how the data export calls it: letters, digits and hyphens


class FigureKind(StrEnum):
    """The pictures we draw. No wheels, no radar charts."""

    INTERVALS = "intervals"  # estimate, low, high per label
    DOTS = "dots"  # counts or shares per label, optionally by group
    SWATCHES = "swatches"  # the colours tasters picked, per coffee
    MAP = "map"  # named points in two dimensions, with regions
    LINES = "lines"  # how something moves with a number: a line with its band, one panel a group


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture as data. `alt` is the text equivalent, always present.

    `name` is its address: letters, digits and hyphens. `domain` are the ends of the x axis, if fixed.
    `rows` are flat records with these keys:
    INTERVALS  label, estimate, low, high (None without an interval), group (optional: one panel a group)
    DOTS       label, value, and low, high (a share and its interval) or of (of few: one round each)
    SWATCHES   group, label, colour (#rrggbb)
    MAP        label, x, y, role ("coffee", "word", "taster": a shape each), optional text_x, text_y (centre
               of the name), and for a region of the label
               the rows that draw it: label, ring (1, 2, .. along the edge), x, y, role "region"
    LINES      group, label (the line), x, estimate, low, high (None without a band)
    """

    kind: FigureKind
    rows: tuple[dict[str, Cell], ...]
    alt: str
    caption: str = ""
    x_title: str = ""
    y_title: str = ""
    name: str = ""
    domain: tuple[float, float] | None = None


Block = Heading | Paragraph | Caveat | TableBlock | Figure


@dataclass(frozen=True, slots=True)
class Document:
    """A whole report. `facts` are (label, value) lines under the title: date, table, seal."""

    title: str
    subtitle: str = ""
    facts: tuple[tuple[str, str], ...] = ()
    blocks: tuple[Block, ...] = field(default_factory=tuple)
