"""`cupwright points` and `cupwright sheets`, as they are typed."""

import json
import time
from pathlib import Path

import pytest

HEADINGS = "Aroma,Flavor,Aftertaste,Acidity,Body,Balance,Uniformity,Clean.Cup,Sweetness,Overall,Total"
FULL = "7.75,8,7.75,8,7.75,7.75,10,10,10,8,85"
MAPPED = ("--map", "fragrance_aroma=Aroma", "--map", "flavour=Flavor", "--given", "Total")


@pytest.fixture
def lots(tmp_path: Path) -> str:
    file = tmp_path / "lots.csv"
    file.write_text(
        "\n".join([HEADINGS, FULL, FULL.replace("85", "86"), FULL.replace("7.75,8,", ",8,", 1)]) + "\n"
    )
    return str(file)


def test_rows_are_added_up_and_those_that_do_not_add_up_are_named(cli, lots):
    answer = cli("points", "hundred-point", lots, *MAPPED)

    assert answer.code == 0
    assert "row 2: 85.00 (in the file 85, difference +0.00)" in answer.out
    assert "    ! It adds up to 85.00, 1 less than the 86 in the file." in answer.out
    assert "row 4: 83.25 to 87.25 (in the file 85)" in answer.out
    assert answer.out.count("The trade calls this excellent.") == 2
    assert (
        "3 rows, 2 with something to mend. 1 agree with the file to within 0; rows that do not add up: 3."
        in answer.out
    )
    assert "No column holds defects: taken as none in every row." in answer.out


def test_data_have_a_row_each_with_numbers_that_print_exactly(cli, lots):
    answer = cli("points", "hundred-point", lots, *MAPPED, "--json")

    rows = json.loads(answer.out)["rows"]
    assert [(row["row"], row["total"], row["given"], row["difference"]) for row in rows] == [
        (2, 85.0, 85.0, 0.0),
        (3, 85.0, 86.0, -1.0),
        (4, None, 85.0, None),
    ]
    assert rows[0]["lines"][-1] == "Total: 85.00"
    assert [row["band"] for row in rows] == ["excellent", "excellent", ""]
    assert [len(row["complaints"]) for row in rows] == [0, 1, 1]


def test_a_sheet_file_of_ones_own_can_be_added_up_by(cli, lots, tmp_path):
    sheet = tmp_path / "own.toml"
    sheet.write_text(
        'name = "own"\nversion = 1\ntitle = "Own"\n[points]\nadd = ["body"]\n'
        '[[passes]]\nid = "a"\ntitle = "A"\nask = "?"\nmoment = "hot"\n'
        'fields = [{ id = "body", kind = "points", label = "Body", high = 10, step = 0.25 }]\n'
    )

    assert "row 2: 7.75" in cli("points", str(sheet), lots).out
    assert cli("sheets", "--keep", str(sheet)).code == 0
    assert "row 2: 7.75" in cli("points", "own", lots).out


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("descriptive",), "The sheet 'descriptive' makes no points."),
        (("nonsense",), "There is no sheet called 'nonsense'."),
        (("hundred-point", "--given", "Sum"), "There is no column 'Sum'"),
        (("hundred-point", "--map", "flavor=Flavor"), "count no field 'flavor'."),
        (("hundred-point", "--cups", "0"), "A sample has 0 cups."),
    ],
)
def test_what_cannot_be_added_up_is_refused_in_a_sentence(cli, lots, arguments, said):
    answer = cli("points", arguments[0], lots, *arguments[1:])

    assert answer.code == 1
    assert said in answer.err
    assert answer.err.count("\n") == 1


def test_a_mapping_without_a_sign_is_wrong_use(cli, lots):
    assert cli("points", "hundred-point", lots, "--map", "flavour").code == 2


def test_thousands_of_rows_take_about_a_second(cli, tmp_path):
    file = tmp_path / "many.csv"
    file.write_text("\n".join([HEADINGS, *[FULL] * 3000]) + "\n")
    start = time.perf_counter()

    answer = cli("points", "hundred-point", str(file), *MAPPED)

    assert answer.code == 0
    # Some six times what it takes, so that a busy machine does not fail it.
    assert time.perf_counter() - start < 8


LAB = (
    "total_cup_points,farm_name,aroma,flavor,aftertaste,acidity,body,balance,uniformity,clean_cup,sweetness,"
    "cupper_points,category_one_defects,altitude"
)
LAB_ROWS = (
    ('90.58,"El ""Lago"", S.A.",8.67,8.83,8.67,8.75,8.5,8.42,10,10,10,8.75,3,"1,950 m"', []),
    ('83.25,"two\nlines",7.5,7.58,7.42,7.67,7.5,7.58,10,9.33,10,8.67,0,NA', []),
    ("0,São João,0,0,0,0,0,0,0,0,0,0,0,NA", []),
    ("82,農園,7.5,7.58,7.42,7.67,7.5,7.58,10,10,10,7.25,NA,", ["It adds up to 82.50, 0.5 more than the 82"]),
    ("82.5,NA,7.5,7.58,NA,7.67,7.5,7.58,10,10,10,7.25,0,NA", ["Aftertaste is missing."]),
    ("82.5,NA,7.5,7.58,,7.67,7.5,7.58,10,10,10,7.25,0,NA", ["Aftertaste is missing."]),
    ("NA,NA,7.5,7.58,7.42,7.67,7.5,7.58,10,10,10,7.25,0,NA", []),
)


def test_a_table_of_lab_scores_has_only_those_rows_named_that_do_not_add_up(cli, tmp_path):
    file = tmp_path / "lab.csv"
    file.write_text("\n".join([LAB, *(row for row, _ in LAB_ROWS)]) + "\n", encoding="utf-8")
    mapped = ("fragrance_aroma=aroma", "flavour=flavor", "overall=cupper_points")
    maps = [part for one in mapped for part in ("--map", one)]

    answer = cli("points", "hundred-point", str(file), *maps, "--given", "total_cup_points", "--json")

    # Rows that do not add up are what was asked for: no failure.
    assert answer.code == 0
    found = json.loads(answer.out)
    # A cell of two lines moves the rows below it down by one, as an editor shows them.
    assert [row["row"] for row in found["rows"]] == [2, 3, 5, 6, 7, 8, 9]
    assert [len(row["complaints"]) for row in found["rows"]] == [len(said) for _, said in LAB_ROWS]
    for row, (_, said) in zip(found["rows"], LAB_ROWS, strict=True):
        assert all(one.startswith(start) for one, start in zip(row["complaints"], said, strict=True))
    apart = [row["difference"] for row in found["rows"] if row["difference"] is not None]
    assert [abs(one) <= 0.05 for one in apart] == [True, True, True, False]
    assert (found["rows"][2]["total"], found["rows"][-1]["given"]) == (0.0, None)


SHEET = 'name = "house"\nversion = 1\ntitle = "House"\n[[passes]]\nid = "a"\ntitle = "A"\nask = "?"\n'
SHEET += 'moment = "hot"\n'
SHEET += 'fields = [{ id = "w", kind = "words", label = "W" }]\n'


def test_a_sheet_is_kept_listed_printed_and_put_away(cli, tmp_path):
    file = tmp_path / "house.toml"
    file.write_text(SHEET)

    assert cli("sheets", "--keep", str(file)).out.startswith("house, version 1: House")
    assert "house, version 1" in cli("sheets").out
    assert cli("sheets", "--text", "house").out == SHEET
    assert cli("sheets", "--remove", "house").code == 0
    assert "house" not in cli("sheets").out
    assert cli("sheets", "--remove", "house").code == 1


def test_a_sheet_that_loops_is_refused_with_the_names_in_the_loop(cli, tmp_path):
    file = tmp_path / "loop.toml"
    file.write_text(SHEET.replace('moment = "hot"', 'moment = "hot"\nafter = "a"'))

    answer = cli("sheets", "--check", str(file))

    assert answer.code == 1
    assert answer.err == "loop.toml, line 9: The passes loop: 'a' after 'a'. Remove one 'after'.\n"


def test_sheets_as_data_say_how_they_make_points(cli):
    sheets = {sheet["name"]: sheet for sheet in json.loads(cli("sheets", "--json").out)}

    assert sheets["affective"]["points"]["start"] == "52.75"
    assert sheets["ranking"]["points"] is None
