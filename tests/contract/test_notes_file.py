"""A file of notes as the client writes it, read by the server. The client is held to the same bytes."""

from pathlib import Path

from cupwright.core.taste.note import Note
from cupwright.core.taste.notes_file import SavedNotes, parse_notes_file
from cupwright.core.taste.stamp import Stamp

FILE = Path(__file__).with_name("notes_file.json")


def test_the_file_that_the_client_writes_is_read_to_the_last_note():
    read = parse_notes_file(FILE.read_text(encoding="utf-8"))

    colour = {"l": 0.5, "a": -0.1, "b": 0.25}
    assert read == SavedNotes(
        "table-1",
        'Morning "blind"',
        "seat-1",
        "Ånna",
        (
            Note(
                "n1", "seat-1", "274", "flavour", "words", "plum, 🍑\nripe", Stamp(1, "a1"), 1_767_340_800_000
            ),
            Note("n2", "seat-1", "274", "touch", "weight", 33.25, Stamp(2, "a1"), 0),
            Note("n3", "seat-1", "591", "colour", "colour", colour, Stamp(3, "a1"), 2**53 - 1),
            Note("n4", "seat-1", "591", "flavour", "words", None, Stamp(4, "a1"), 5),
        ),
    )
