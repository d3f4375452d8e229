"""Reveal: open the key and lay everybody's words side by side."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from cupwright.core.flow import Step, move
from cupwright.core.plan.table import Table
from cupwright.core.reveal.assignment import identities
from cupwright.core.reveal.comparison import Comparison, compare
from cupwright.core.reveal.diary import KEY_OPENED
from cupwright.core.reveal.seal import Key, verify
from cupwright.core.reveal.sight import Role, Thing, require_sight
from cupwright.core.taste.late import TAKEN_LATE
from cupwright.steps.plan import coffees_of
from cupwright.steps.ports import Tools, Work
from cupwright.steps.words import corrections_at, lexicon_of


@dataclass(frozen=True, slots=True)
class Opened:
    """A key that is open, and what was promised of it before the first sip."""

    key: Key
    commitment: str


def open_key(tools: Tools, table_id: str, placings: Mapping[str, str] | None = None) -> Table:
    """Check the key against its commitment and close the table for good.

    `placings` (place -> code found under the bowl there) are needed after a shuffle.
    Raises SealBroken, Refused for placings that do not add up, WrongStep.
    """
    with tools.store.work() as work:
        before = work.tables.get(table_id)
        step = move(before.step, Step.REVEAL)
        key = work.keys.get(table_id)
        verify(key, before.commitment)
        identities(before, key, placings or {})
        table = replace(before, step=step, placings=tuple(sorted((placings or {}).items())))
        work.tables.save(table)
        work.events.append(table_id, KEY_OPENED, tools.now(), {"placings": dict(table.placings)})
    tools.announce(table_id, "reveal")
    return table


def comparison(tools: Tools, table_id: str, seat_id: str | None = None) -> Comparison:
    """Per coffee the published words and each taster's, a seat's own first if one asks. Raises WrongStep."""
    with tools.store.reading() as work:
        table = work.tables.get(table_id)
        require_sight(_role(seat_id), table.step, Thing.OTHERS_NOTES, Thing.PUBLISHED_NOTES)
        notes = [numbered.note for numbered in work.notes.of(table_id)]
        places, coffees = open_identities(work, table, seat_id), coffees_of(work, table)
        late, lexicon = late_notes(work, table_id), lexicon_of(work)
        own = corrections_at(work, table)
    return compare(table, notes, places, coffees, lexicon, first=seat_id, late=late, corrections=own)


def opened(tools: Tools, table_id: str, seat_id: str | None = None) -> Opened:
    """The open key, so that anybody can check the seal, for the desk or a seat. Raises WrongStep."""
    with tools.store.reading() as work:
        table = work.tables.get(table_id)
        require_sight(_role(seat_id), table.step, Thing.KEY, Thing.COMMITMENT)
        return Opened(work.keys.get(table_id), table.commitment)


def open_identities(work: Work, table: Table, seat_id: str | None = None) -> dict[str, str]:
    """Place -> coffee id of a table whose key is open, for the desk or a seat. Raises WrongStep."""
    require_sight(_role(seat_id), table.step, Thing.IDENTITIES, Thing.PLACINGS)
    return identities(table, work.keys.get(table.id), dict(table.placings))


def late_notes(work: Work, table_id: str) -> frozenset[str]:
    """Ids of the notes that were taken in after the key was opened, as the diary has them."""
    taken = [event.detail["notes"] for event in work.events.of(table_id) if event.kind == TAKEN_LATE]
    return frozenset(note_id for ids in taken for note_id in ids)


def _role(seat_id: str | None) -> Role:
    return Role.DESK if seat_id is None else Role.TASTER
