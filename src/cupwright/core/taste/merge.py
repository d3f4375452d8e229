"""Merging: notes from many devices become one set, whatever the order, doubling or delay of messages.

Notes are a grow-only set keyed by id, so merging is set union [Shapiro2011]; which note holds for a
question is decided by stamp alone. No clock is read: `written_at` of a wrong clock changes nothing.
The same rules run on the phone (client/src/local/merge.ts); both are held to one file of cases.
"""

import json
from collections.abc import Iterable

from cupwright.core.taste.note import Note
from cupwright.core.taste.stamp import Stamp

Question = tuple[str, str, str, str]


def merge(a: Iterable[Note], b: Iterable[Note]) -> tuple[Note, ...]:
    """The union of two sets of notes by id, in the order of (stamp, id).

    Commutative, associative and idempotent, so every device that has seen the same notes agrees.
    """
    by_id: dict[str, Note] = {}
    for note in (*a, *b):
        twin = by_id.get(note.id)
        by_id[note.id] = note if twin is None else max(twin, note, key=_whole)
    return tuple(sorted(by_id.values(), key=_order))


def standing(notes: Iterable[Note]) -> dict[Question, Note]:
    """For each question the note that holds: the greatest stamp; of equal stamps the greater id."""
    held: dict[Question, Note] = {}
    for note in notes:
        rival = held.get(note.question)
        held[note.question] = note if rival is None else max(rival, note, key=_order)
    return held


def answers(notes: Iterable[Note]) -> dict[Question, Note]:
    """The standing notes without those that took an answer back."""
    return {question: note for question, note in standing(notes).items() if note.value is not None}


def _order(note: Note) -> tuple[Stamp, str]:
    return (note.stamp, note.id)


def _whole(note: Note) -> tuple[Stamp, int, str]:
    """An order of notes that share an id. Their bodies differ only by a fault of a device (the store
    refuses such a note), and even then all devices must settle on the same one."""
    body = [*note.question, note.value]
    return (note.stamp, note.written_at, json.dumps(body, sort_keys=True))
