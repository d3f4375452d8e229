"""A coffee: one roasted lot, as its bag describes it."""

from dataclasses import dataclass
from datetime import date

LONGEST_NAME = 200
LONGEST_TEXT = 4000


@dataclass(frozen=True, slots=True)
class Coffee:
    """One roasted lot. `published_notes` are the roaster's own words, kept as printed."""

    id: str
    name: str
    roaster: str = ""
    origin: str = ""
    process: str = ""
    variety: str = ""
    roast_date: date | None = None
    published_notes: str = ""
    grams_left: float | None = None
