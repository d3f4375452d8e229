"""A file of notes: the sheet its columns make, its answers, and everything that can be wrong with it."""

import pytest

from cupwright.core.rows import Row, Rows
from cupwright.core.taste.note_rows import (
    MOST_COFFEES,
    MOST_FIELDS,
    MOST_TASTERS,
    NotesColumns,
    NotesFile,
    notes_file,
)
from cupwright.core.taste.sheet import Field, Kind
from cupwright.core.taste.sheet_file import sheet_as_data, sheet_from_data
from cupwright.errors import BadFile, TooLarge


def read(headings: str, *lines: str | tuple[str, ...], columns: NotesColumns | None = None) -> NotesFile:
    cells = [line.split(",") if isinstance(line, str) else line for line in lines]
    rows = tuple(Row(number, tuple(line)) for number, line in enumerate(cells, start=2))
    return notes_file(Rows("home.csv", tuple(headings.split(",")), rows), columns or NotesColumns())


def field(file: NotesFile, field_id: str) -> Field:
    found = file.sheet.field("imported", field_id)
    assert found is not None
    return found


def test_columns_become_fields_and_cells_answers() -> None:
    file = read(
        "taster,coffee,acidity,preference,note",
        "Ada,A,4,5, cherry ",
        "Ada,B,,1,",
        "Ben,A,2,,cocoa",
    )

    assert (file.tasters, file.coffees) == (("Ada", "Ben"), ("A", "B"))
    assert [line.answers for line in file.lines] == [
        (("note", " cherry "), ("acidity", 4.0), ("preference", 5.0)),
        (("preference", 1.0),),
        (("note", "cocoa"), ("acidity", 2.0)),
    ]
    assert field(file, "note").kind is Kind.WORDS
    assert file.sheet.liking == ("imported", "preference")


def test_the_sheet_it_makes_is_one_that_can_be_kept_and_read_again() -> None:
    file = read("taster,coffee,Säure (1-5),2nd score,___,note", "Ada,A,4,5,0.25,cherry")

    assert sheet_from_data(sheet_as_data(file.sheet)) == file.sheet
    assert [f.id for f in file.sheet.passes[0].fields] == ["note", "s_ure_1_5", "column_2nd_score", "column"]


def test_the_ends_of_a_scale_are_the_least_and_the_greatest_number() -> None:
    file = read("taster,coffee,a,b,c,note", "Ada,A,1,0.5,7,x", "Ada,B,5,-1.5,7,y")

    assert (field(file, "a").low, field(file, "a").high, field(file, "a").step) == (1, 5, 1)
    assert (field(file, "b").low, field(file, "b").high, field(file, "b").step) == (-1.5, 0.5, 0.5)
    assert (field(file, "c").low, field(file, "c").high) == (7, 8)


@pytest.mark.parametrize(
    ("cells", "step"),
    [(["7.25", "8", "7.5"], 0.25), (["1", "5"], 1), (["0", "250"], 1), (["0.12345", "9"], 0.0887655)],
)
def test_the_step_of_a_scale_is_what_its_numbers_keep_but_no_finer_than_a_hundredth(
    cells: list[str], step: float
) -> None:
    file = read("taster,coffee,note,a", *(f"{n},North,x,{cell}" for n, cell in enumerate(cells)))

    assert field(file, "a").step == pytest.approx(step)


def test_numbers_may_have_a_comma_before_their_decimals() -> None:
    file = read("taster,coffee,a,note", ("Ada", "A", "4,5", "x"), ("Ada", "B", "3.25", "y"))

    assert [dict(line.answers)["a"] for line in file.lines] == [4.5, 3.25]


def test_a_column_that_is_mostly_words_is_kept_as_text() -> None:
    file = read("taster,coffee,method,note", "Ada,A,filter,x", "Ada,B,2,y", "Ben,A,press,z")

    assert field(file, "method").kind is Kind.TEXT
    assert dict(file.lines[1].answers)["method"] == "2"


def test_an_empty_column_is_left_out() -> None:
    file = read("taster,coffee,a,note", "Ada,A,,x")

    assert [f.id for f in file.sheet.passes[0].fields] == ["note"]


def test_columns_with_one_slug_get_ids_of_their_own() -> None:
    file = read("taster,coffee,a b,a-b,note", "Ada,A,1,2,x")

    assert [f.id for f in file.sheet.passes[0].fields] == ["note", "a_b", "a_b_2"]


def test_other_headings_can_be_named() -> None:
    file = read(
        "who,which,words,joy,preference",
        "Ada,A,cherry,9,1",
        columns=NotesColumns("Who", "WHICH", "words", "joy"),
    )

    assert file.tasters == ("Ada",)
    assert file.sheet.liking == ("imported", "joy")


def test_liking_goes_before_preference_and_neither_is_needed() -> None:
    assert read("taster,coffee,preference,liking,note", "Ada,A,1,2,x").sheet.liking == ("imported", "liking")
    assert read("taster,coffee,liking,note", "Ada,A,much,x").sheet.liking is None
    assert read("taster,coffee,note", "Ada,A,x").sheet.liking is None


def test_tasters_are_told_apart_letter_by_letter_and_coffees_are_not() -> None:
    file = read("taster,coffee,note", "aB,Lot 1,x", "ab,LOT 1,y")

    assert file.tasters == ("aB", "ab")
    assert file.coffees == ("Lot 1",)
    assert {line.coffee for line in file.lines} == {"Lot 1"}


@pytest.mark.parametrize(
    ("headings", "lines", "says"),
    [
        ("taster,note", ["Ada,x"], "home.csv, line 1: There is no column 'coffee'"),
        ("coffee,note", ["A,x"], "home.csv, line 1: There is no column 'taster'"),
        ("taster,coffee", ["Ada,A"], "home.csv, line 1: There is no column 'note'"),
        ("taster,coffee,note", [], "home.csv: There is no note under the headings."),
        (
            "taster,coffee,note",
            ["Ada,A,x", ",A,x"],
            "home.csv, line 3, column taster: The taster has no name",
        ),
        ("taster,coffee,note", ["Ada, ,x"], "home.csv, line 2, column coffee: The coffee has no name"),
        (
            "taster,coffee,a,note",
            ["Ada,A,1,x", "Ada,B,2,x", "Ben,A,much,x"],
            "home.csv, line 4, column a: 'much' is no number",
        ),
        (
            "taster,coffee,a,note",
            ["Ada,A,1,x", "Ada,B,nan,x"],
            "home.csv, line 3, column a: 'nan' is no number",
        ),
        (
            "taster,coffee,note",
            ["Ada,A,x", "Ben,A,x", "Ada,a,y"],
            "home.csv, line 4: Lines 2 and 4 are both by Ada on A.",
        ),
        ("taster,coffee,note", ["Ada,A," + "x" * 4001], "home.csv, line 2, column note: The text is 4001"),
    ],
)
def test_what_is_wrong_is_said_with_line_and_column(headings: str, lines: list[str], says: str) -> None:
    with pytest.raises(BadFile) as refusal:
        read(headings, *lines)

    assert refusal.value.sentence().startswith(says)


def test_a_liking_column_without_numbers_is_refused() -> None:
    with pytest.raises(BadFile, match="no numbers"):
        read("taster,coffee,note,joy", "Ada,A,x,much", columns=NotesColumns(liking="joy"))


def test_more_than_a_table_takes_is_refused() -> None:
    headings = ",".join(f"c{n}" for n in range(MOST_FIELDS))
    with pytest.raises(TooLarge, match="columns"):
        read(f"taster,coffee,note,{headings}", "Ada,A,x," + ",".join("1" * MOST_FIELDS))
    with pytest.raises(TooLarge, match="coffees"):
        read("taster,coffee,note", *(f"Ada,{n},x" for n in range(MOST_COFFEES + 1)))
    with pytest.raises(TooLarge, match="tasters"):
        read("taster,coffee,note", *(f"{n},A,x" for n in range(MOST_TASTERS + 1)))
