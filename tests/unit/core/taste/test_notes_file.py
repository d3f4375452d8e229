"""Files of notes: what is refused, and how."""

import json
from typing import Any

import pytest

from cupwright.core.taste.notes_file import is_notes_file, parse_notes_file, read_notes_file
from cupwright.errors import BadFile, TooLarge

NOTE = {
    "id": "n1",
    "place": "274",
    "pass": "flavour",
    "field": "words",
    "value": "plum",
    "stamp": {"counter": 1, "device": "a"},
    "written_at": 5,
}
WHOLE = {
    "cupwright_notes": 1,
    "table": {"id": "t", "name": "Morning"},
    "seat": {"id": "s", "name": "Anna"},
    "notes": [NOTE],
}


def without(data: dict[str, Any], key: str) -> dict[str, Any]:
    return {name: value for name, value in data.items() if name != key}


def test_the_seat_of_the_file_is_the_seat_of_its_notes():
    read = parse_notes_file(json.dumps(WHOLE))

    assert [(note.id, note.seat, note.part) for note in read.notes] == [("n1", "s", "flavour")]


def test_a_file_without_notes_is_read():
    assert parse_notes_file(json.dumps(WHOLE | {"notes": []})).notes == ()


@pytest.mark.parametrize(
    "data", [[], 3, None, "notes", {}, WHOLE | {"cupwright_notes": 2}, without(WHOLE, "cupwright_notes")]
)
def test_other_json_is_no_file_of_notes(data: object):
    with pytest.raises(BadFile, match=r"anna\.json: This is not a file of notes saved by a phone"):
        parse_notes_file(json.dumps(data), file="anna.json")


@pytest.mark.parametrize("part", ["table", "seat"])
@pytest.mark.parametrize(
    "value",
    [
        None,
        {},
        {"id": 3, "name": "x"},
        "t",
        {"id": "a b", "name": "x"},
        {"id": "t", "name": "\ud800"},
        {"id": "t", "name": "x" * 2000},
    ],
)
def test_a_file_that_does_not_say_whose_notes_it_holds_is_refused(part: str, value: object):
    with pytest.raises(BadFile, match=f"which {part} its notes belong to"):
        parse_notes_file(json.dumps(WHOLE | {part: value}))


@pytest.mark.parametrize("notes", [None, {}, "n1", 3])
def test_a_file_without_a_list_of_notes_is_refused(notes: object):
    with pytest.raises(BadFile, match="no list of notes"):
        parse_notes_file(json.dumps(WHOLE | {"notes": notes}))


@pytest.mark.parametrize(
    "note",
    [
        None,
        "n2",
        *(without(NOTE, key) for key in NOTE),
        NOTE | {"id": 2},
        NOTE | {"written_at": "now"},
        NOTE | {"written_at": True},
        NOTE | {"stamp": {"counter": 1.5, "device": "a"}},
        NOTE | {"stamp": {"counter": 1}},
        NOTE | {"id": ""},
        NOTE | {"place": "\ud800"},
        NOTE | {"field": "words\n"},
        NOTE | {"stamp": {"counter": 1, "device": "x" * 65}},
    ],
)
def test_a_malformed_note_is_named_by_its_number(note: object):
    with pytest.raises(BadFile) as refusal:
        parse_notes_file(json.dumps(WHOLE | {"notes": [NOTE, note]}), file="anna.json")

    assert str(refusal.value).startswith("anna.json: Note 2 of the file is malformed.")


def test_a_file_that_was_cut_off_is_refused_at_the_place_of_the_cut():
    with pytest.raises(BadFile) as refusal:
        parse_notes_file('{"cupwright_notes":1,\n"table":', file="anna.json")

    assert str(refusal.value).startswith("anna.json, line 2, column 9: This is not valid JSON")


@pytest.mark.parametrize("text", ["[" * 100_000, '{"cupwright_notes": NaN}', "1" * 5000, ""])
def test_what_a_reader_of_json_chokes_on_is_refused_in_a_sentence(text: str):
    with pytest.raises(BadFile) as refusal:
        parse_notes_file(text)

    assert refusal.value.todo


def test_a_huge_file_is_refused_before_it_is_read():
    with pytest.raises(TooLarge):
        parse_notes_file(" " * 20_000_001)


def test_the_bytes_of_a_file_are_read_with_or_without_a_mark_at_their_beginning():
    text = json.dumps(WHOLE, ensure_ascii=False)

    for encoding in ("utf-8", "utf-8-sig"):
        data = text.encode(encoding)
        assert is_notes_file(data)
        assert read_notes_file(data) == parse_notes_file(text)


def test_a_line_in_another_encoding_is_named():
    with pytest.raises(BadFile, match=r"anna\.json, line 2: This line is not in UTF-8"):
        read_notes_file('{"cupwright_notes":1,\n"table":"Ånna"}'.encode("latin-1"), "anna.json")


@pytest.mark.parametrize("data", [b"", b"taster,coffee\n", b"PK\x03\x04", b"\xff\xfe{\x00", b"[1]"])
def test_rows_of_a_spreadsheet_are_no_file_of_notes(data: bytes):
    assert not is_notes_file(data)
