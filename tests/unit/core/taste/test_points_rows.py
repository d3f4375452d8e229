"""Files of filled-in sheets: rows in, totals out, and the rows that do not add up by name."""

import random
from decimal import Decimal

import pytest
from tests.unit.core.taste.points_sheets import SEVEN, THREE

from cupwright.core.rows import Row, Rows
from cupwright.core.taste.points_columns import Columns
from cupwright.core.taste.points_rows import FilePoints, file_points
from cupwright.core.taste.sheet_file import builtin_sheet
from cupwright.errors import BadFile, Refused

HEADINGS = (*SEVEN[:6], *THREE, "overall", "defects", "total")
FULL = "7.75,8,7.75,8,7.75,7.75,10,10,10,8,0,85"


def _file(*lines: str, headings: tuple[str, ...] = HEADINGS) -> Rows:
    return Rows(
        "f.csv", headings, tuple(Row(n, tuple(line.split(","))) for n, line in enumerate(lines, start=2))
    )


def _points(rows: Rows, given: str = "total", averages: bool = False, **named: str) -> FilePoints:
    return file_points(rows, builtin_sheet("hundred-point"), Columns(named, given), averages=averages)


def test_a_row_that_adds_up_has_nothing_to_mend_and_is_called_by_its_line():
    (row,) = _points(_file(FULL)).rows

    assert (row.row, row.points.total, row.given, row.difference) == ("2", Decimal("85.00"), 85, 0)
    assert row.complaints == ()


def test_a_row_that_does_not_add_up_is_named_with_the_difference():
    row = _points(_file(FULL, FULL.replace("85", "86"))).rows[1]

    assert row.difference == -1
    assert row.complaints == ("It adds up to 85.00, 1 less than the 86 in the file.",)


def test_exact_scores_must_add_up_to_the_cent():
    (row,) = _points(_file(FULL.replace("85", "85.25"))).rows

    assert row.complaints == ("It adds up to 85.00, 0.25 less than the 85.25 in the file.",)


AVERAGED = (
    "8.67,8.83,8.67,8.75,8.50,8.42,10.00,10.00,10.00,8.75,0,90.58",
    "8.17,8.33,8.17,8.08,8.00,8.25,9.33,10.00,10.00,8.42,0,86.71",
)


def test_averages_are_added_as_they_stand_which_is_said_once():
    found = _points(_file(*AVERAGED))

    assert [row.points.total for row in found.rows] == [Decimal("90.59"), Decimal("86.75")]
    assert [row.complaints for row in found.rows] == [(), ()]
    assert len([one for one in found.remarks if "averages" in one]) == 1


def test_averages_may_differ_from_their_total_by_their_rounding_and_no_more():
    found = _points(_file(*AVERAGED, AVERAGED[0].replace("90.58", "90.65")))

    # Ten columns and the total, each rounded to 0.01.
    assert found.tolerance == Decimal("0.055")
    assert [bool(row.complaints) for row in found.rows] == [False, False, True]


def test_one_score_between_the_steps_is_a_slip_not_an_average():
    found = _points(_file(FULL, FULL, FULL.replace("7.75,8,", "7.80,8,", 1)), given="")

    assert not found.averages
    assert found.rows[2].complaints == ("Fragrance and aroma is 7.8, between the steps of 0.25.",)
    assert found.rows[2].points.total == Decimal("85.05")


def test_headings_are_known_as_people_write_them_and_others_are_mapped():
    headings = ("Fragrance/Aroma", "Flavor", *HEADINGS[2:7], "Clean Cup", *HEADINGS[8:])

    (row,) = _points(_file(FULL, headings=headings), flavour="flavor").rows

    assert row.complaints == ()


@pytest.mark.parametrize("cell", ["", "NA", "n/a", "-"])
def test_missing_defects_are_none_and_a_missing_attribute_leaves_a_range(cell: str):
    found = _points(
        _file(FULL.replace("10,8,0,85", f"10,8,{cell},85"), FULL.replace("7.75,8,", f"{cell},8,", 1))
    )

    assert found.rows[0].points.total == 85
    assert (found.rows[1].points.low, found.rows[1].points.high) == (Decimal("83.25"), Decimal("87.25"))
    assert found.rows[1].complaints == ("Fragrance and aroma is missing.",)


def test_a_total_outside_the_range_that_is_left_is_complained_about():
    (row,) = _points(_file(FULL.replace("7.75,8,", ",8,", 1).replace("85", "88"))).rows

    assert row.complaints[-1] == "The 88 in the file cannot be reached: 83.25 to 87.25 can."


def test_a_file_without_defects_says_so_once():
    rows = _file(FULL.replace(",0,85", ",85"), headings=(*HEADINGS[:-2], "total"))

    found = _points(rows)

    assert found.remarks == ("No column holds defects: taken as none in every row.",)
    assert found.rows[0].complaints == ()


def test_a_column_that_is_missing_makes_ranges_and_the_remark_says_how_to_name_it():
    rows = _file("8,8", headings=("flavour", "flav"))

    found = _points(rows, given="", aftertaste="flav")

    assert (
        "No column holds body: every total is a range. --map body=HEADING says which does." in found.remarks
    )
    assert "Aftertaste: 8" in found.rows[0].points.lines


def test_taints_and_faults_may_be_counted_in_columns_of_their_own():
    headings = (*HEADINGS[:-2], "defects.taint", "Faulty", "total")
    rows = _file(FULL.replace(",0,85", ",1,2,75"), headings=headings)

    (row,) = _points(rows, **{"defects.fault": "Faulty"}).rows

    assert row.points.total == 75
    assert row.complaints == ()


def test_cups_can_be_marked_by_number():
    (row,) = _points(_file(FULL.replace("10,10,10", "not 3 5,10,10"))).rows

    assert row.points.total == 81
    assert "Uniformity: 3 of 5 cups alike, cups 3 and 5 are not: 3 x 2 = 6" in row.points.lines


def test_a_long_file_has_a_line_a_field_and_its_own_names_of_rows():
    cells = zip(HEADINGS, FULL.split(","), strict=True)
    lines = [f"lot 7,{heading},{cell}" for heading, cell in cells] + ["lot 8,Flavour,8", "lot 8,moisture,0.1"]

    found = _points(_file(*lines, headings=("Row", "Field", "Value")))

    assert [(row.row, row.points.total) for row in found.rows] == [
        ("lot 7", Decimal("85.00")),
        ("lot 8", None),
    ]
    assert found.rows[0].given == 85


def test_a_field_that_a_long_file_has_twice_is_refused():
    with pytest.raises(BadFile, match="The row '1' has the field 'body' twice") as refusal:
        _points(_file("1,body,8", "1,Body,7", headings=("row", "field", "value")), given="")

    assert refusal.value.where is not None
    assert refusal.value.where.line == 3


@pytest.mark.parametrize(
    ("given", "named", "said"),
    [
        ("sum", {}, "There is no column 'sum'"),
        ("total", {"flavor": "flavour"}, "count no field 'flavor'. Its fields are fragrance_aroma, flavour"),
        ("total", {"flavour": "Flavor"}, "There is no column 'Flavor'"),
    ],
)
def test_columns_that_are_not_there_are_refused(given: str, named: dict[str, str], said: str):
    with pytest.raises((BadFile, Refused), match=said):
        _points(_file(FULL), given, **named)


def test_a_file_with_nothing_of_the_sheet_is_refused():
    with pytest.raises(BadFile, match="No column holds a field of the sheet 'hundred-point'"):
        _points(_file("1,2", headings=("a", "b")), given="")


def test_a_total_that_is_no_number_is_complained_about():
    (row,) = _points(_file(FULL.replace(",85", ",n. a. yet"))).rows

    assert row.complaints == ("The total in the file is 'n. a. yet', which is no number.",)


def test_rows_of_averages_in_the_shape_of_public_tables_all_add_up_but_those_that_were_spoilt():
    """Invented lots: the averages of three tasters' exact sheets, rounded as a table of lab scores is."""
    rng = random.Random(20261125)
    lines, spoilt = [], set(rng.sample(range(600), 12))
    for lot in range(600):
        sheets = [
            [rng.randrange(24, 40) / 4 for _ in range(6)]
            + [2 * rng.choices((5, 4, 3), (20, 2, 1))[0] for _ in range(3)]
            + [rng.randrange(24, 40) / 4]
            for _ in range(3)
        ]
        total = sum(map(sum, sheets)) / 3 + (rng.choice((-0.5, 0.5, 2)) if lot in spoilt else 0)
        lines.append(
            ",".join(f"{sum(column) / 3:.2f}" for column in zip(*sheets, strict=True)) + f",0,{total:.2f}"
        )

    found = _points(_file(*lines))

    assert {n for n, row in enumerate(found.rows) if row.complaints} == spoilt


def test_a_column_headed_as_the_sheet_itself_labels_a_field_holds_that_field():
    labels = ("Fragrance", "Aroma", "Flavour", "Aftertaste", "Acidity", "Sweetness", "Mouthfeel", "Overall")
    rows = _file("9,9,9,9,9,9,9,9,not 3,", headings=(*labels, "Cups not like the others", "Defective cups"))

    (row,) = file_points(rows, builtin_sheet("affective"), Columns()).rows

    assert (row.points.total, row.complaints) == (Decimal("98.00"), ())


def test_a_column_headed_by_a_fields_own_name_wins_over_its_label():
    headings = ("Fragrance and aroma", *HEADINGS)
    labelled = _points(_file(f"6,{FULL}", headings=headings)).rows[0]

    assert (labelled.points.total, labelled.complaints) == (Decimal("85.00"), ())
