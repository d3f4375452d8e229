"""Small true values for tests: a coffee, a table, a note."""

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Plan, Seat, Table
from cupwright.core.taste.correction import Correction
from cupwright.core.taste.note import Note
from cupwright.core.taste.sheet_file import builtin_sheet
from cupwright.core.taste.stamp import Stamp

NOON = datetime(2026, 11, 25, 12, 0, 0, 123456, tzinfo=UTC)


def a_coffee(number: int = 1, **changes: Any) -> Coffee:
    coffee = Coffee(id=f"coffee-{number}", name=f"Lot {number}", roaster="Example Roastery", grams_left=250.5)
    return replace(coffee, **changes)


def a_table(number: int = 1, **changes: Any) -> Table:
    """A draft with two coffees, codes 412 and 735, and the seats seat-N-1 (Ada) and seat-N-2 (Ben)."""
    plan = Plan(name=f"Table {number}", coffees=("coffee-1", "coffee-2"), tasters=("Ada", "Ben"))
    codes = ("412", "735")
    seats = (
        Seat(f"seat-{number}-1", "Ada", ("735", "412")),
        Seat(f"seat-{number}-2", "Ben", ("412", "735")),
    )
    table = Table(
        id=f"table-{number}",
        plan=plan,
        sheet=builtin_sheet("open"),
        created=NOON,
        codes=codes,
        seats=seats,
        join_code=f"AAAAA{number}",
    )
    return replace(table, **changes)


def a_note(number: int = 1, *, seat: str = "seat-1-1", **changes: Any) -> Note:
    note = Note(
        id=f"note-{number:04}",
        seat=seat,
        place="412",
        part="flavour",
        field="words",
        value="cherry, then cocoa",
        stamp=Stamp(number, "phone-a"),
        written_at=1_790_000_000_000 + number,
    )
    return replace(note, **changes)


def a_correction(number: int = 1, **changes: Any) -> Correction:
    correction = Correction(
        id=f"correction-{number:04}",
        taster="ada",
        surface="grippy",
        concept="drying",
        stamp=Stamp(number, "phone-a"),
        written_at=1_790_000_000_000 + number,
    )
    return replace(correction, **changes)
