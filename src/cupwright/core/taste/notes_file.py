"""A file of notes, as a phone saves it that cannot reach its table: JSON, notes as on the wire.

    {"cupwright_notes": 1, "table": {"id", "name"}, "seat": {"id", "name"}, "notes": [...]}

Only the form is read here; whether a note can stand at a table is for checking.py to say. A phone may save
the same notes many times: they merge by id, so reading a file twice adds nothing.
"""

import codecs
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, NoReturn

from cupwright.core.plan.coffee import LONGEST_NAME
from cupwright.core.plan.names import is_writable
from cupwright.core.taste.note import Note
from cupwright.core.taste.stamp import Stamp
from cupwright.errors import BadFile, Place, TooLarge

FORM = 1
# Ids, places and names of questions: what the program makes is shorter, and all of it can be printed.
_PLAIN = re.compile(r"[0-9A-Za-z._:-]{1,64}")
LARGEST_FILE = 20_000_000


@dataclass(frozen=True, slots=True)
class SavedNotes:
    """Whose notes, from which table. The names are for people; the ids decide."""

    table_id: str
    table_name: str
    seat_id: str
    seat_name: str
    notes: tuple[Note, ...]


def is_notes_file(data: bytes) -> bool:
    """Whether a file can only be one of these: JSON begins with a brace, rows of a spreadsheet never do."""
    return data.removeprefix(codecs.BOM_UTF8).lstrip()[:1] == b"{"


def read_notes_file(data: bytes, file: str = "notes") -> SavedNotes:
    """The same as `parse_notes_file` from the bytes of the file. Raises BadFile, TooLarge."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        line = data.count(b"\n", 0, fault.start) + 1
        raise BadFile(
            "This line is not in UTF-8.", todo="Save the file on the phone again.", where=Place(file, line)
        ) from None
    return parse_notes_file(text, file=file)


def parse_notes_file(text: str, *, file: str = "notes") -> SavedNotes:
    """Read a saved file of notes.

    Raises
    ------
    TooLarge
        If it has more than 20 million characters.
    BadFile
        If it is no such file, with the line where its JSON breaks, or the note that is malformed.
    """
    if len(text) > LARGEST_FILE:
        raise TooLarge(
            f"This file has {len(text)} characters.",
            todo=f"A file of notes has at most {LARGEST_FILE}.",
            where=Place(file),
        )
    data = _json(text, file)
    if not isinstance(data, Mapping) or data.get("cupwright_notes") != FORM:
        raise BadFile(
            "This is not a file of notes saved by a phone.",
            todo='Such a file begins with {"cupwright_notes":1.',
            where=Place(file),
        )
    table, seat = _part(data, "table", file), _part(data, "seat", file)
    rows = data.get("notes")
    if not isinstance(rows, list):
        raise BadFile("The file has no list of notes.", todo="Save it on the phone again.", where=Place(file))
    notes = tuple(_note(row, number, seat["id"], file) for number, row in enumerate(rows, start=1))
    return SavedNotes(table["id"], table["name"], seat["id"], seat["name"], notes)


def _json(text: str, file: str) -> Any:
    def no_number(word: str) -> NoReturn:
        raise BadFile(f"'{word}' is no number in JSON.", todo="Save the file again.", where=Place(file))

    try:
        return json.loads(text, parse_constant=no_number)
    except json.JSONDecodeError as error:
        raise BadFile(
            f"This is not valid JSON: {error.msg[:1].lower()}{error.msg[1:]}.",
            todo="Save the file on the phone again; it may have been cut off on its way.",
            where=Place(file, error.lineno, error.colno),
        ) from error
    except (RecursionError, ValueError) as error:
        # Brackets nested without end, or a whole number of thousands of digits.
        raise BadFile(
            "This is not a file of notes.", todo="Save it on the phone again.", where=Place(file)
        ) from error


def _part(data: Mapping[str, Any], name: str, file: str) -> dict[str, str]:
    part = data.get(name)
    if not isinstance(part, dict) or not _is_plain(part.get("id")) or not _is_name(part.get("name")):
        raise BadFile(
            f"The file does not say which {name} its notes belong to.",
            todo="Save it on the phone again.",
            where=Place(file),
        )
    return part


def _note(row: Any, number: int, seat: str, file: str) -> Note:
    stamp = row.get("stamp") if isinstance(row, dict) else None
    texts = ("id", "place", "pass", "field")
    if (
        not isinstance(stamp, dict)
        or not all(_is_plain(row.get(key)) for key in texts)
        or not all(_is_whole(count) for count in (stamp.get("counter"), row.get("written_at")))
        or not _is_plain(stamp.get("device"))
        or "value" not in row
    ):
        raise BadFile(
            f"Note {number} of the file is malformed.",
            todo="A note has id, place, pass, field, value, stamp (counter, device) and written_at.",
            where=Place(file),
        )
    texts_of = (row["id"], seat, row["place"], row["pass"], row["field"])
    return Note(*texts_of, row["value"], Stamp(stamp["counter"], stamp["device"]), row["written_at"])


def _is_plain(value: object) -> bool:
    return isinstance(value, str) and _PLAIN.fullmatch(value) is not None


def _is_name(value: object) -> bool:
    return isinstance(value, str) and len(value) <= 2 * LONGEST_NAME and is_writable(value)


def _is_whole(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool)
