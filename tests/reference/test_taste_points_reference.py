"""Points against worked examples of the public forms' arithmetic, by hand and from what was read."""

import itertools
from decimal import Decimal
from typing import Any

import pytest
from tests.unit.core.taste.points_sheets import CLEAN, SEVEN, THREE, eight, of, seven

from cupwright.core.rows import Row, Rows
from cupwright.core.taste.checking import check_value
from cupwright.core.taste.points import band
from cupwright.core.taste.points_columns import Columns
from cupwright.core.taste.points_rows import file_points
from cupwright.core.taste.sheet import Kind
from cupwright.core.taste.sheet_file import builtin_sheet
from cupwright.errors import Refused

CLEAN_FAULTS = {"1": 0, "2": 0, "3": 0, "4": 0, "5": 0}


def test_example_a_seven_lines_and_clean_cups():
    """SCAA cupping form (2004 type), rules read in form copies; 55.00 + 30 = 85.00 by hand."""
    assert (
        of("hundred-point", **seven("7.75", "8.00", "7.75", "8.00", "7.75", "7.75", "8.00"), **CLEAN).total
        == 85
    )


def test_example_b_cups_that_fall_out_and_a_taint():
    """SCAA cupping form: 2 a good cup, a taint 2 a cup; 50.75 + 8 + 8 + 10 - 2 = 74.75 by hand."""
    marks: dict[str, Any] = {
        "uniformity": [2],
        "clean_cup": [2],
        "sweetness": [],
        "defects": CLEAN_FAULTS | {"2": 2},
    }

    assert of("hundred-point", **seven("7.25"), **marks).total == Decimal("74.75")


def test_example_c_two_cups_with_a_fault():
    """SCAA cupping form: a fault 4 a cup; 52.50 + 6 + 6 + 6 - 8 = 62.50 by hand."""
    marks = {key: [1, 4] for key in THREE}

    total = of("hundred-point", **seven("7.50"), **marks, defects=CLEAN_FAULTS | {"1": 4, "4": 4}).total

    assert total == Decimal("62.50")


@pytest.mark.parametrize(
    ("score", "cups", "total"),
    [("10", "10", "100.00"), ("6", "10", "72.00"), ("0", "0", "0.00")],
)
def test_example_d_bounds(score: str, cups: str, total: str):
    """SCAA cupping form: ten lines of ten; seven sixes with clean cups 42 + 30; nothing at all. By hand."""
    assert of("hundred-point", **seven(score), **dict.fromkeys(THREE, cups)).total == Decimal(total)


@pytest.mark.parametrize(("last", "reaches"), [("6.75", False), ("7.00", True)])
def test_example_d_eighty_needs_fifty_from_the_seven(last: str, reaches: bool):
    """SCAA cupping form: with clean cups 80 takes 50.00 in the seven lines (mean 7.143). By hand."""
    six = ("7.25", "7.25", "7.25", "7.25", "7.00", "7.00")

    total = of("hundred-point", **seven(*six, last), **CLEAN).total

    assert total is not None
    assert (total >= 80) == reaches


@pytest.mark.parametrize("bad", range(6))
def test_cups_count_two_points_each(bad: int):
    """SCAA cupping form: uniformity, clean cup and sweetness give 2 points a good cup of five."""
    marks: dict[str, Any] = CLEAN | {"sweetness": list(range(1, bad + 1))}

    assert of("hundred-point", **seven("7"), **marks).total == Decimal(49 + 20 + 10 - 2 * bad)


def test_the_scale_has_the_printed_steps():
    """SCAA cupping form: quarter points from 6.00; "16 levels 6.00-9.75" and ten, anchors at 6, 7, 8, 9."""
    sheet = builtin_sheet("hundred-point")
    fields = [f for part in sheet.passes for f in part.fields if f.id in SEVEN]

    assert {(f.low, f.high, f.step) for f in fields} == {(6, 10, 0.25)}
    for text in [f"{6 + quarter / 4:.2f}" for quarter in range(17)]:
        check_value(text, fields[0], cups=5)
    with pytest.raises(Refused):
        check_value("7.30", fields[0], cups=5)


@pytest.mark.parametrize(
    ("cells", "total", "published"),
    [
        ("8.67 8.83 8.67 8.75 8.50 8.42 10 10 10 8.75", "90.59", "90.58"),
        # The cells of rows 3 and 4 are from memory; their sums are those that were read (89.76, 89.01).
        ("8.42 8.50 8.42 8.42 8.33 8.42 10 10 10 9.25", "89.76", "89.75"),
        ("8.17 8.58 8.42 8.42 8.50 8.25 10 10 10 8.67", "89.01", "89.00"),
    ],
    ids=["row 1", "row 3", "row 4"],
)
def test_example_e_rows_of_the_public_table_add_up_to_its_rounding(cells: str, total: str, published: str):
    """Public table of lab scores (tidytuesday 2020-07-07, coffee_ratings), rows 1, 3, 4: within 0.05."""
    order = (*SEVEN[:6], *THREE, "overall")
    rows = Rows("t.csv", (*order, "total"), (Row(2, (*cells.split(), published)),))

    (row,) = file_points(rows, builtin_sheet("hundred-point"), Columns(given="total"), averages=True).rows

    assert row.points.total == Decimal(total)
    assert row.difference == Decimal("0.01")
    assert row.complaints == ()


@pytest.mark.parametrize(
    ("total", "name"),
    [
        ("100", "outstanding"),
        ("90", "outstanding"),
        ("89.99", "excellent"),
        ("85", "excellent"),
        ("84.99", "very good"),
        ("80", "very good"),
        ("79.99", "below specialty"),
        ("0", "below specialty"),
    ],
)
def test_totals_are_called_by_the_trades_bands(total: str, name: str):
    """Two trade pages (drinknativa, roest): 90-100, 85-89.99, 80-84.99, below 80 is not specialty."""
    assert band(builtin_sheet("hundred-point"), Decimal(total)) == name


def test_the_descriptive_sheet_has_the_parts_of_the_published_one():
    """Trade descriptive form, beta V1.1 (Sept 2023): 7 lines 0-15, lists of 5, 5, 2, 2, 1 of 2 kinds."""
    fields = [f for part in builtin_sheet("descriptive").passes for f in part.fields]

    lines = [f for f in fields if f.kind is Kind.LINE]
    assert [f.id for f in lines] == [
        "fragrance",
        "aroma",
        "flavour",
        "aftertaste",
        "acidity",
        "sweetness",
        "mouthfeel",
    ]
    assert {(f.low, f.high) for f in lines} == {(0, 15)}
    assert {f.id: f.most for f in fields if f.kind is Kind.TAGS} == {
        "smells": 5,
        "flavours": 5,
        "tastes": 2,
        "mouthfeels": 2,
    }
    kind = next(f for f in fields if f.kind is Kind.CHOICE)
    assert len(kind.choices) == 2


def test_six_ticks_where_five_are_allowed_are_refused():
    """Trade descriptive form, beta V1.1: at most five; worked example 4."""
    smells = builtin_sheet("descriptive").field("smelled", "smells")
    assert smells is not None
    check_value(list(smells.choices[:5]), smells, cups=1)

    with pytest.raises(Refused, match="6 ticks; it takes at most 5"):
        check_value(list(smells.choices[:6]), smells, cups=1)


def test_the_descriptive_sheet_makes_no_points():
    """Trade descriptive form: it describes only and is never added into the hundred-point result."""
    with pytest.raises(Refused, match="makes no points"):
        of("descriptive")


def _affective(total_of_eight: int) -> Any:
    whole, rest = divmod(total_of_eight, 8)
    return of("affective", **eight(*([whole + 1] * rest + [whole] * (8 - rest))))


@pytest.mark.parametrize(
    ("steps", "total"),
    [(8, "58.00"), (40, "79.00"), (48, "84.25"), (56, "89.50"), (64, "94.75"), (72, "100.00")],
)
def test_the_affective_range(steps: int, total: str):
    """S = 0.65625 x sum + 52.75: from memory of the published affective standard; table computed by hand."""
    assert _affective(steps).total == Decimal(total)


@pytest.mark.parametrize(
    ("steps", "half_up"),
    [
        (12, "60.75"),
        (20, "66.00"),
        (28, "71.25"),
        (36, "76.50"),
        (44, "81.75"),
        (52, "87.00"),
        (60, "92.25"),
        (68, "97.50"),
    ],
)
def test_affective_ties_go_upwards(steps: int, half_up: str):
    """Exact ties lie at these sums (44 is 81.625): a half goes upwards here, a rule of ours. By hand."""
    assert _affective(steps).total == Decimal(half_up)
    assert (Decimal("0.65625") * steps + Decimal("52.75")) % Decimal("0.25") == Decimal("0.125")


@pytest.mark.parametrize(("steps", "total"), [(41, "79.75"), (42, "80.25"), (49, "85.00")])
def test_the_affective_score_crosses_eighty_between_41_and_42(steps: int, total: str):
    """79.65625 and 80.3125 before rounding; 84.90625 for 49. From memory of the formula, by hand."""
    assert _affective(steps).total == Decimal(total)


@pytest.mark.parametrize(
    ("impressions", "not_alike", "defective", "total"),
    [
        ((7, 7, 7, 6, 7, 6, 6, 7), [], [], "87.50"),
        ((6, 6, 5, 5, 6, 5, 5, 5), [], [], "81.00"),
        ((6, 6, 5, 5, 6, 5, 5, 5), [3], [3], "75.00"),
        ((6,), [2], [], "82.25"),
        ((7, 6, 6, 6, 6, 6, 6, 6), [], [], "85.00"),
        ((7,), [], [4], "85.50"),
    ],
)
def test_the_affective_worked_examples(
    impressions: tuple[int, ...], not_alike: list[int], defective: list[int], total: str
):
    """Worked examples 1 to 6 of S = 0.65625 x sum + 52.75 - 2u - 4d; formula from memory, sums by hand."""
    made = of("affective", **eight(*impressions), not_alike=not_alike, defective=defective)

    assert made.total == Decimal(total)
    assert made.complaints == ()


def test_one_step_in_all_eight_is_worth_five_and_a_quarter():
    """8 x 0.65625 = 5.25: a wrong factor or start fails here. From memory of the formula."""
    totals = [of("affective", **eight(step)).total for step in range(1, 10)]

    assert {after - before for before, after in itertools.pairwise(totals)} == {Decimal("5.25")}  # type: ignore[operator]
