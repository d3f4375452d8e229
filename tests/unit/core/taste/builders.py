"""Tables and notes for tests: sensible values, each of which a test can replace."""

from dataclasses import replace
from datetime import UTC, datetime

from cupwright.core.flow import Step
from cupwright.core.plan.table import Blinding, Plan, Seat, Table
from cupwright.core.taste.note import Note, Value
from cupwright.core.taste.sheet import Sheet
from cupwright.core.taste.sheet_file import builtin_sheet
from cupwright.core.taste.stamp import Stamp

CODES = ("274", "591", "836")


def a_table(
    *,
    step: Step = Step.TASTE,
    blinding: Blinding = Blinding.CODES,
    codes: tuple[str, ...] = CODES,
    bowls: int = 1,
    sheet: Sheet | None = None,
    seats: tuple[str, ...] = ("seat-1", "seat-2"),
) -> Table:
    plan = Plan("Morning", ("coffee-a", "coffee-b", "coffee-c"), bowls_per_sample=bowls, blinding=blinding)
    table = Table(
        "table-1", plan, sheet or builtin_sheet("open"), datetime(2026, 1, 2, tzinfo=UTC), step, codes
    )
    order = table.places
    return replace(table, seats=tuple(Seat(seat, f"Taster {seat[-1]}", order) for seat in seats))


def a_note(value: Value = "plum", **changes: object) -> Note:
    """A note on the flavour of place 274; `counter` and `device` make its stamp."""
    stamp = Stamp(int(str(changes.pop("counter", 1))), str(changes.pop("device", "phone-1")))
    note = Note("note-1", "seat-1", "274", "flavour", "words", value, stamp, 1_700_000_000_000)
    return replace(note, **changes)  # type: ignore[arg-type]  # the tests name the fields of Note
