"""Diary: what happened at a table, and whether somebody tampered with it."""

from cupwright.core.reveal.diary import BEGINNING, digest
from cupwright.errors import SealBroken
from cupwright.steps.ports import Event, Tools


def diary(tools: Tools, table_id: str) -> tuple[Event, ...]:
    """What happened, in order. Raises SealBroken if a line does not fit the one before it."""
    with tools.store.reading() as work:
        work.tables.get(table_id)
        events = work.events.of(table_id)
    before = BEGINNING
    for number, event in enumerate(events, start=1):
        if event.digest != digest(before, event.table_id, event.kind, event.at, event.detail):
            raise SealBroken(
                f"Line {number} of the table's diary was changed after it was written.",
                todo="Compare with a backup before trusting this table.",
            )
        before = event.digest
    return events
