"""Files of rows as people have them: encodings, delimiters, workbooks, and everything that can be wrong."""

import io
import time
import zipfile
from datetime import date, datetime

import pytest
from openpyxl import Workbook

from cupwright.core.rows import Row, Rows
from cupwright.errors import BadFile, TooLarge
from cupwright.store.spreadsheet import MOST_COLUMNS, MOST_LINES, MOST_LONG_LINES, FileRows

TEXT = "name,note\nMorning Lot,“crème brûlée” – très doux\nEvening Lot,plum\n"
ROWS = (Row(2, ("Morning Lot", "“crème brûlée” – très doux")), Row(3, ("Evening Lot", "plum")))


def read(data: bytes, file: str = "notes.csv") -> Rows:
    return FileRows().read(data, file)


def workbook(*rows: tuple[object, ...]) -> bytes:
    book = Workbook()
    for row in rows:
        book.active.append(row)
    kept = io.BytesIO()
    book.save(kept)
    return kept.getvalue()


@pytest.mark.parametrize(
    "data",
    [
        TEXT.encode("utf-8"),
        TEXT.encode("utf-8-sig"),
        TEXT.encode("utf-16"),
        b"\xfe\xff" + TEXT.encode("utf-16-be"),
        TEXT.encode("utf-16-le"),
        TEXT.encode("utf-16-be"),
        TEXT.encode("cp1252"),
        TEXT.replace("\n", "\r\n").encode(),
        TEXT.replace("\n", "\r").encode(),
        TEXT.removesuffix("\n").encode(),
        TEXT.replace(",", ";").encode(),
        TEXT.replace(",", "\t").encode(),
    ],
    ids=[
        "utf-8",
        "utf-8 with mark",
        "utf-16 with mark",
        "utf-16 big-endian with mark",
        "utf-16 little-endian",
        "utf-16 big-endian",
        "windows-1252",
        "crlf",
        "cr",
        "no last line end",
        "semicolons",
        "tabs",
    ],
)
def test_the_same_rows_come_out_of_every_encoding_and_delimiter(data: bytes) -> None:
    assert read(data) == Rows("notes.csv", ("name", "note"), ROWS)


def test_quoted_cells_may_hold_delimiters_line_ends_and_quotes() -> None:
    rows = read(b'name;note\nA;"plum; ""ripe"",\nthen cocoa"\nB;late\n').rows

    assert rows == (Row(2, ("A", 'plum; "ripe",\nthen cocoa')), Row(4, ("B", "late")))


def test_empty_lines_are_left_out_and_line_numbers_still_those_of_the_file() -> None:
    rows = read(b"\n\nname,note\n\n,\nA,plum\n").rows

    assert rows == (Row(6, ("A", "plum")),)


def test_short_lines_are_filled_up_and_empty_cells_at_the_end_dropped() -> None:
    rows = read(b"name,roaster,note,,\nA\nB,,plum,,,,\n")

    assert rows.headings == ("name", "roaster", "note")
    assert rows.rows == (Row(2, ("A", "", "")), Row(3, ("B", "", "plum")))


def test_a_column_without_heading_gets_its_number() -> None:
    assert read(b"name,,note\nA,x,plum\n").headings == ("name", "column 2", "note")


def test_a_file_of_one_column_can_be_read() -> None:
    assert read(b"name\nA\nB\n").rows == (Row(2, ("A",)), Row(3, ("B",)))


def test_a_heading_line_longer_than_the_reader_takes_as_one_cell_is_still_cut_rightly() -> None:
    assert read(b"name" + b"," * 200_000 + b"\nA\n").headings == ("name",)


@pytest.mark.parametrize("data", [b"", b"\n\n", b",,,\n", b"\xef\xbb\xbf", b"   \n"])
def test_a_file_with_nothing_in_it_is_refused(data: bytes) -> None:
    with pytest.raises(BadFile, match="nothing in it"):
        read(data)


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"name,note\nA,plum\nB,1,2\n", "notes.csv, line 3: The line has 3 cells under 2 headings"),
        (b'name,note\nA,"plum\nB,cocoa\n', "notes.csv, line 2: The quotes of the row"),
        (b'name,note\nA,plum\nB,"cocoa"x\n', "notes.csv, line 3: The quotes of the row"),
        (b"name\nA\n" + b"x" * 200_000, "notes.csv, line 3: A cell of the row that begins here is longer"),
        (b"name,Note,NOTE\n", "notes.csv, line 1: Columns 2 and 3 have the same heading"),
        (b"name,note\nA,pl\x00um\n", "notes.csv, line 2: There are bytes here"),
        ("name,note\nA,crème\nB,brûl".encode() + b"\xc3,x\n", "notes.csv, line 3: There are bytes here"),
        (b"name,note\nA,\x81\n", "notes.csv, line 2: There are bytes here"),
        (b"\xff\xfea\x00,\x00b", "notes.csv, line 1: There are bytes here"),
        (b"PK\x03\x04 not a zip", "notes.csv: This XLSX file is damaged"),
        (bytes.fromhex("d0cf11e0a1b11ae1") + b"old", "notes.csv: This is a spreadsheet in an old"),
    ],
)
def test_a_broken_file_is_refused_and_the_sentence_says_where(data: bytes, says: str) -> None:
    with pytest.raises(BadFile) as refusal:
        read(data)

    assert refusal.value.sentence().startswith(says)
    assert "\n" not in refusal.value.sentence()


def test_too_many_lines_columns_or_bytes_are_refused() -> None:
    with pytest.raises(TooLarge, match="lines"):
        read(b"name\n" + b"A\n" * MOST_LINES)
    with pytest.raises(TooLarge, match="columns"):
        read(",".join(f"c{n}" for n in range(MOST_COLUMNS + 1)).encode())
    with pytest.raises(TooLarge, match="MB"):
        read(b"name\n" + b"A" * 50_000_000)


def test_a_workbook_is_read_as_a_person_would_have_typed_it() -> None:
    data = workbook(
        ("name", "roast_date", "grams", "at", "ready"),
        ("Lot 1", date(2026, 11, 25), 250.0, datetime(2026, 11, 25, 9, 30), True),  # noqa: DTZ001 - a cell has no zone
        (None, None, None, None, None),
        ("Lot 2", None, 0.25, None, False),
    )

    rows = read(data, "coffees.xlsx")

    assert rows.rows == (
        Row(2, ("Lot 1", "2026-11-25", "250", "2026-11-25T09:30:00", "yes")),
        Row(4, ("Lot 2", "", "0.25", "", "no")),
    )


def test_an_empty_workbook_is_refused() -> None:
    with pytest.raises(BadFile, match="nothing in it"):
        read(workbook(), "empty.xlsx")


def test_a_workbook_with_too_many_cells_in_a_line_is_refused_by_its_line() -> None:
    with pytest.raises(BadFile) as refusal:
        read(workbook(("a", "b"), (1, 2), (1, 2, 3)), "wide.xlsx")

    assert refusal.value.sentence().startswith("wide.xlsx, line 3: The line has 3 cells")


@pytest.mark.parametrize("keep", [0.2, 0.5, 0.9, 0.99])
def test_a_cut_off_workbook_is_refused(keep: float) -> None:
    data = workbook(("name",), *((f"Lot {n}",) for n in range(100)))

    with pytest.raises(BadFile, match="damaged"):
        read(data[: int(len(data) * keep)], "cut.xlsx")


def test_a_zip_that_is_no_workbook_is_refused() -> None:
    with pytest.raises(BadFile, match="no workbook"):
        read(zipped({"hello.txt": b"hello"}), "hello.xlsx")


def zipped(parts: dict[str, bytes]) -> bytes:
    kept = io.BytesIO()
    with zipfile.ZipFile(kept, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in parts.items():
            archive.writestr(name, data)
    return kept.getvalue()


def replaced(data: bytes, name: str, part: bytes) -> bytes:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        parts = {member: archive.read(member) for member in archive.namelist()}
    return zipped({**parts, name: part})


SHEET = "xl/worksheets/sheet1.xml"
SHEET_HEAD = b'<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>'
SHEET_END = b"</sheetData></worksheet>"
LAUGHS = b"".join(b'<!ENTITY l%d "%s">' % (n, b"&l%d;" % (n - 1) * 10) for n in range(1, 9))

BOMBS = {
    "zeros": zipped({"xl/workbook.xml": b"0" * 60_000_000}),
    "ratio": zipped({"xl/workbook.xml": b"0" * 10_000_000}),
    "members": zipped({f"part{n}": b"x" for n in range(1001)}),
    "far row": replaced(
        workbook(("a",)),
        SHEET,
        SHEET_HEAD + b'<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>' + SHEET_END,
    ),
    "wide rows": replaced(
        workbook(("a",)),
        SHEET,
        SHEET_HEAD
        + b"".join(b'<row r="%d"><c r="GR%d"><v>%d</v></c></row>' % (n, n, n) for n in range(1, 60_000))
        + SHEET_END,
    ),
    "entities": replaced(
        workbook(("a",)),
        SHEET,
        b'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY l0 "ha">' + LAUGHS + b"]>"
        + SHEET_HEAD + b'<row r="1"><c r="A1" t="inlineStr"><is><t>&l8;</t></is></c></row>' + SHEET_END,
    ),
    "outside entity": replaced(
        workbook(("a",)),
        SHEET,
        b'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/hostname">]>'
        + SHEET_HEAD + b'<row r="1"><c r="A1" t="inlineStr"><is><t>&e;</t></is></c></row>' + SHEET_END,
    ),
}  # fmt: skip


@pytest.mark.parametrize("bomb", BOMBS)
def test_a_workbook_made_to_burst_is_refused_at_once(bomb: str) -> None:
    read(workbook(("name",), ("A",)), "warm.xlsx")  # so that the reader is loaded
    # Of the processor, not of the wall: a busy machine is no fault of the reader.
    begun = time.process_time()

    with pytest.raises((BadFile, TooLarge)) as refusal:
        read(BOMBS[bomb], "bomb.xlsx")

    took = time.process_time() - begun
    assert refusal.value.sentence().startswith("bomb.xlsx")
    # About a second each; ruled out here are the minutes that unpacking it all would take.
    assert took < 10


def test_column_by_column_a_file_holds_the_same_cells_and_lines():
    columns = FileRows().columns(b"taster,coffee\n\n Ada ,C1\nBen\nAda,C1\n", "s.csv")

    taster, coffee = columns.columns
    assert columns.lines.tolist() == [3, 4, 5]
    assert [taster.texts[code] for code in taster.codes] == ["Ada", "Ben", "Ada"]
    assert [coffee.texts[code] for code in coffee.codes] == ["C1", "", "C1"]


def test_column_by_column_more_lines_are_read_but_not_without_end():
    more = b"v\n" + b"1\n" * (MOST_LINES + 5)

    assert len(FileRows().columns(more, "s.csv").lines) == MOST_LINES + 5
    with pytest.raises(TooLarge, match=f"more than the {MOST_LONG_LINES} lines"):
        FileRows().columns(b"v\n" + b"1\n" * MOST_LONG_LINES, "s.csv")


def test_column_by_column_a_line_that_is_too_long_is_named():
    with pytest.raises(BadFile, match=r"line 3: The line has 3 cells under 2 headings"):
        FileRows().columns(b"a,b\n1,2\n1,2,3\n", "s.csv")
