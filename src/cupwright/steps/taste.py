"""Taste: take a seat, write notes, see who has got how far."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cupwright.core.flow import Step
from cupwright.core.plan.table import Table
from cupwright.core.reveal.sight import Role, Thing, require_sight
from cupwright.core.taste.checking import checked_note
from cupwright.core.taste.joining import Seated, seated
from cupwright.core.taste.late import TAKEN_LATE, RefusedNote, sifted
from cupwright.core.taste.note import Note
from cupwright.core.taste.notes_file import SavedNotes, read_notes_file
from cupwright.core.taste.progress import SeatProgress, progress
from cupwright.errors import NotAllowed, NotFound, NotKnown, Refused, TooLarge
from cupwright.steps.plan import table_of_join_code
from cupwright.steps.ports import Holder, Kept, Numbered, Tools, Work

MOST_NOTES_AT_ONCE = 1000


@dataclass(frozen=True, slots=True)
class TakenIn:
    """What came of a phone's file: `kept` notes are safe now, `new` of them were not before.

    `late` if they came after the key was opened: then the new ones are shown, marked, and not counted.
    """

    table: Table
    seat_name: str
    kept: int
    new: int
    late: bool
    refused: tuple[RefusedNote, ...]


def join(tools: Tools, join_code: str, name: str, token_hash: str) -> Seated:
    """Take a seat from a phone; whoever has the token whose hash this is holds it from now on."""
    with tools.store.work() as work:
        taken = _take_seat(tools, work, table_of_join_code(work, join_code), name, token_hash)
    tools.announce(taken.table.id, "seat")
    return taken


def take_seat_at_desk(tools: Tools, table_id: str, name: str, token_hash: str) -> Seated:
    """Take a seat on the desk's own machine."""
    with tools.store.work() as work:
        taken = _take_seat(tools, work, work.tables.get(table_id), name, token_hash)
    tools.announce(table_id, "seat")
    return taken


def free_seat(tools: Tools, table_id: str, seat_id: str) -> None:
    """Let somebody else (or the same taster on another device) take the seat; its notes stay."""
    with tools.store.work() as work:
        _seat(work.tables.get(table_id), seat_id)
        work.tokens.free(table_id, seat_id)
        work.events.append(table_id, "seat freed", tools.now(), {"seat": seat_id})
    tools.announce(table_id, "seat")


def who_sits(tools: Tools, token_hash: str) -> Seated:
    """The seat a token stands for. Raises NotKnown."""
    with tools.store.reading() as work:
        holder = work.tokens.find(token_hash)
        if holder is None:
            raise NotKnown("This device holds no seat.", todo="Join again with the table's code.")
        return _seat(work.tables.get(holder.table_id), holder.seat_id)


def taken_seats(tools: Tools, table_id: str) -> frozenset[str]:
    """Ids of the seats somebody sits on."""
    with tools.store.reading() as work:
        return work.tokens.taken(table_id)


def write_notes(tools: Tools, table_id: str, seat_id: str, notes: Sequence[Note]) -> Kept:
    """Keep a seat's notes, all or none; sending them again does no harm. Numbered as in `notes_of_seat`."""
    _require_own(notes, seat_id)
    with tools.store.work() as work:
        table = work.tables.get(table_id)
        _seat(table, seat_id)
        kept = work.notes.add(table_id, [checked_note(note, table) for note in notes], tools.now())
        count = len(work.notes.of(table_id, seat=seat_id))
    if kept.new:
        tools.announce(table_id, "notes")
    return replace(kept, sequence=count)


def take_notes_file(tools: Tools, data: bytes, file: str, table_id: str = "") -> TakenIn:
    """Keep the notes of a file that a phone saved, before the reveal or after it; twice does no harm.

    With a `table_id` only a file of that table is taken. Raises BadFile, TooLarge, NotFound, Refused, Clash.
    """
    saved = read_notes_file(data, file)
    with tools.store.work() as work:
        table = _table_of(work, saved, table_id)
        of_file = sifted(saved, table)
        new = _added(tools, work, table, saved.seat_id, of_file.notes)
        late = table.step is Step.REVEAL
        if new:
            kind = TAKEN_LATE if late else "notes file taken"
            work.events.append(table.id, kind, tools.now(), {"seat": saved.seat_id, "notes": new})
    if new:
        tools.announce(table.id, "notes")
    return TakenIn(table, saved.seat_name, len(of_file.notes), len(new), late, of_file.refused)


def notes_of_seat(tools: Tools, table_id: str, seat_id: str, after: int = 0) -> tuple[Numbered, ...]:
    """What a seat wrote, numbered from 1 within the seat, with a number above `after`.

    The store numbers all notes together: its numbers would tell a taster how much the others write.
    """
    with tools.store.reading() as work:
        table = work.tables.get(table_id)
        _seat(table, seat_id)
        require_sight(Role.TASTER, table.step, Thing.OWN_NOTES)
        own = work.notes.of(table_id, seat=seat_id)
    return tuple(Numbered(number, one.note) for number, one in enumerate(own, start=1))[after:]


def progress_of(tools: Tools, table_id: str) -> tuple[SeatProgress, ...]:
    """Per seat and pass, how many places have an answer. Raises WrongStep before the seal."""
    with tools.store.reading() as work:
        table = work.tables.get(table_id)
        require_sight(Role.DESK, table.step, Thing.PROGRESS)
        notes = work.notes.of(table_id)
    return progress(table, [numbered.note for numbered in notes])


def _take_seat(tools: Tools, work: Work, table: Table, name: str, token_hash: str) -> Seated:
    taken = seated(table, name, work.tokens.taken(table.id), seat_id=tools.new_id(), rng=tools.rng)
    if taken.table is not table:
        work.tables.save(taken.table)
    work.tokens.put(token_hash, Holder(table.id, taken.seat.id))
    work.events.append(table.id, "seat taken", tools.now(), {"seat": taken.seat.id})
    return taken


def _seat(table: Table, seat_id: str) -> Seated:
    seat = next((seat for seat in table.seats if seat.id == seat_id), None)
    if seat is None:
        raise NotFound("There is no such seat at this table.", todo="Join again with the table's code.")
    return Seated(table, seat)


def _added(tools: Tools, work: Work, table: Table, seat_id: str, notes: Sequence[Note]) -> list[str]:
    """Ids of those of a seat's notes that were not kept before."""
    before = {numbered.note.id for numbered in work.notes.of(table.id, seat=seat_id)}
    work.notes.add(table.id, notes, tools.now())
    return [note.id for note in notes if note.id not in before]


def _table_of(work: Work, saved: SavedNotes, table_id: str) -> Table:
    if table_id not in ("", saved.table_id):
        raise Refused(
            f"The file belongs to the table '{saved.table_name}', not to this one.", todo="Take it in there."
        )
    try:
        return work.tables.get(saved.table_id)
    except NotFound:
        raise NotFound(
            f"The file belongs to the table '{saved.table_name}', which is not here.",
            todo="Open the data in which it was planned.",
        ) from None


def _require_own(notes: Sequence[Note], seat_id: str) -> None:
    if len(notes) > MOST_NOTES_AT_ONCE:
        raise TooLarge(f"{len(notes)} notes came at once.", todo=f"Send {MOST_NOTES_AT_ONCE} at most.")
    if any(note.seat != seat_id for note in notes):
        raise NotAllowed("A seat can only write its own notes.")
