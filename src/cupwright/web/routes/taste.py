"""Taste: a taster joins, writes, and reads back; the desk sees who has got how far."""

from typing import Annotated

from fastapi import APIRouter, Query
from fastapi.concurrency import run_in_threadpool

from cupwright.core.taste.joining import Seated
from cupwright.errors import NotFound
from cupwright.steps import taste as steps
from cupwright.steps.desk import new_token, token_hash
from cupwright.steps.pour import now_ms
from cupwright.steps.words import words_of_seat
from cupwright.steps.words import write_corrections as keep_corrections
from cupwright.web.here import HereNow, ToolsNow
from cupwright.web.seat_view import (
    KeptCorrectionsShown,
    KeptShown,
    SeatShown,
    SeatView,
    TakenShown,
    note_shown,
    seat_table,
    seat_words_shown,
)
from cupwright.web.shown import PassProgressShown, ProgressShown, TakenInShown
from cupwright.web.upload import UPLOAD_SCHEMA, UploadNow
from cupwright.web.who import DeskOnly, Sitting
from cupwright.web.wire import FAR_AHEAD_MS, CorrectionsIn, Id, JoinIn, NotesIn, SeatIn

# Everything in an address is text, so numbers are read from text here and nowhere else.
Sequence = Annotated[int, Query(ge=0, le=FAR_AHEAD_MS)]

desk = APIRouter(prefix="/api/tables/{table_id}", tags=["taste"], dependencies=[DeskOnly])
taster = APIRouter(prefix="/api", tags=["seat"])


@desk.get("/progress")
def progress_of(here: HereNow, table_id: Id) -> list[ProgressShown]:
    """Per seat and pass, how many places have an answer; never what it says."""
    return [
        ProgressShown(
            seat=seat.seat,
            name=seat.name,
            passes=[PassProgressShown(part=one.part, done=one.done, all=one.all) for one in seat.passes],
            last_seen=here.seen.get(seat.seat),
        )
        for seat in steps.progress_of(here.tools, table_id)
    ]


@desk.post("/seats", status_code=201)
def take_seat_at_desk(tools: ToolsNow, table_id: Id, body: SeatIn) -> TakenShown:
    """Take a seat on the desk's own machine."""
    token = new_token(tools)
    return _taken(steps.take_seat_at_desk(tools, table_id, body.name, token_hash(token)), token)


@desk.post("/notes-file", openapi_extra=UPLOAD_SCHEMA)
async def take_notes_file(tools: ToolsNow, table_id: Id, upload: UploadNow) -> TakenInShown:
    """Keep the notes of a file that a phone of this table saved; after the reveal they do not count."""
    taken = await run_in_threadpool(steps.take_notes_file, tools, upload.data, upload.file, table_id)
    return TakenInShown.model_validate(taken)


@desk.delete("/seats/{seat_id}/token", status_code=204)
def free_seat(tools: ToolsNow, table_id: Id, seat_id: Id) -> None:
    """Let somebody else take the seat; its notes stay."""
    steps.free_seat(tools, table_id, seat_id)


@taster.post("/join", status_code=201)
def join(here: HereNow, body: JoinIn) -> TakenShown:
    """Take a seat with the table's code. The token in the answer is shown this once."""
    token = new_token(here.tools)
    with here.join_tries.counted(NotFound):
        seated = steps.join(here.tools, body.code, body.name, token_hash(token))
    return _taken(seated, token)


@taster.get("/seat")
def my_seat(here: HereNow, sitting: Sitting, after: Sequence = 0) -> SeatView:
    """Everything a phone needs: its table, its seat, and its own notes with a sequence above `after`."""
    numbered = steps.notes_of_seat(here.tools, sitting.table.id, sitting.seat.id, after)
    return SeatView(
        now_ms=now_ms(here.tools),
        table=seat_table(sitting.table),
        seat=SeatShown.model_validate(sitting.seat),
        notes=[note_shown(one.note) for one in numbered],
        sequence=numbered[-1].sequence if numbered else after,
        # Asked for every few seconds: what seldom changes comes along only when everything is asked for.
        words=seat_words_shown(words_of_seat(here.tools, sitting)) if after == 0 else None,
    )


@taster.post("/seat/notes")
def write_notes(here: HereNow, sitting: Sitting, body: NotesIn) -> KeptShown:
    """Keep this seat's notes, all or none; sending them again does no harm."""
    notes = [note.note(sitting.seat.id) for note in body.notes]
    kept = steps.write_notes(here.tools, sitting.table.id, sitting.seat.id, notes)
    return KeptShown(kept=list(kept.ids), sequence=kept.sequence)


@taster.post("/seat/corrections")
def write_corrections(here: HereNow, sitting: Sitting, body: CorrectionsIn) -> KeptCorrectionsShown:
    """Keep what this taster says that words mean, all or none; sending it again does no harm."""
    corrections = [one.correction() for one in body.corrections]
    return KeptCorrectionsShown(kept=list(keep_corrections(here.tools, sitting, corrections)))


def _taken(seated: Seated, token: str) -> TakenShown:
    return TakenShown(token=token, seat=SeatShown.model_validate(seated.seat), table=seat_table(seated.table))
