"""Points: exact sums that explain themselves, ranges, and complaints that repair nothing."""

from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.unit.core.taste.points_sheets import CLEAN, SEVEN, THREE, of, seven

from cupwright.core.taste.sheet_file import builtin_sheet, parse_sheet
from cupwright.errors import Refused

FULL = {**seven("7.75"), **CLEAN}
TRIED = {"1": 0, "2": 0, "3": 0, "4": 0, "5": 0}


def test_every_line_of_a_total_says_what_was_counted():
    made = of("hundred-point", **seven("7.75"), **(CLEAN | {"uniformity": [3]}), defects=TRIED)

    assert made.lines == (
        "Fragrance and aroma: 7.75",
        "Flavour: 7.75",
        "Aftertaste: 7.75",
        "Acidity: 7.75",
        "Body: 7.75",
        "Balance: 7.75",
        "Uniformity: 4 of 5 cups alike, cup 3 is not: 4 x 2 = 8",
        "Clean cup: 5 of 5 cups clean: 5 x 2 = 10",
        "Sweetness: 5 of 5 cups sweet: 5 x 2 = 10",
        "Overall: 7.75",
        "Taints and faults: none in any cup",
        "Total: 82.25",
    )
    assert made.total == made.low == made.high == Decimal("82.25")


def test_a_half_filled_sheet_gives_the_range_that_is_still_possible():
    made = of("hundred-point", **{**FULL, "body": None, "sweetness": None})

    assert made.total is None
    assert (made.low, made.high) == (Decimal("72.50"), Decimal("86.50"))
    assert made.complaints == ("Body is missing.", "Sweetness is missing.")
    assert "Body: nothing written; 6 to 10 possible" in made.lines
    assert made.lines[-1] == "Total: from 72.50 to 86.50 still possible"


def test_an_empty_sheet_still_has_its_whole_range():
    made = of("hundred-point")

    assert (made.total, made.low, made.high) == (None, Decimal("42.00"), Decimal("100.00"))


def test_faults_that_were_not_written_down_are_taken_as_none_and_it_says_so():
    made = of("hundred-point", **FULL)

    assert made.total == Decimal("84.25")
    assert "Taints and faults: nothing written, taken as none" in made.lines


def test_a_fault_in_one_cup_asks_for_the_other_cups_before_it_counts_for_the_sample():
    made = of("hundred-point", place="421", **(FULL | {"clean_cup": [3]}), defects={"3": 4})

    assert made.complaints == (
        "Cup 3 of 421 has a fault: smell and taste the other four before you write it down for the sample.",
    )
    assert made.total is None
    # 82.25 - 4 at best; each of the four others may hold a fault too.
    assert (made.low, made.high) == (Decimal("62.25"), Decimal("78.25"))


def test_with_all_cups_tried_a_fault_counts_and_nothing_else_is_asked():
    made = of("hundred-point", **(FULL | {"clean_cup": [3]}), defects=TRIED | {"3": 4})

    assert made.total == Decimal("78.25")
    assert made.complaints == ()


@pytest.mark.parametrize(
    ("answers", "complaint"),
    [
        ({"flavour": "7.30"}, "Flavour is 7.3, between the steps of 0.25."),
        ({"flavour": "10.25"}, "Flavour is 10.25; 0 to 10 can be given."),
        ({"flavour": "-1"}, "Flavour is -1; 0 to 10 can be given."),
        ({"flavour": "nan"}, "Flavour is 'nan', which is no number."),
        ({"flavour": "7.5 pts"}, "Flavour is '7.5 pts', which is no number."),
        ({"sweetness": "9"}, "Sweetness is 9, between the steps of 2."),
        ({"sweetness": "12"}, "Sweetness is 12; 0 to 10 can be given."),
        ({"sweetness": [6]}, "Sweetness marks a cup that is not there, or one twice; there are 5."),
        ({"defects": "3"}, "Taints and faults is 3, between the steps of 2."),
        ({"defects": "-2"}, "Taints and faults is -2; 0 to 20 can be given."),
        (
            {"defects": TRIED | {"2": 2}},
            "Cup 2 is marked under Taints and faults, but counts as good under Clean cup.",
        ),
    ],
)
def test_what_does_not_fit_is_complained_about_in_one_sentence(answers: dict[str, Any], complaint: str):
    assert of("hundred-point", **(FULL | answers)).complaints == (complaint,)


@pytest.mark.parametrize("value", ["11", "abc"])
def test_what_does_not_fit_is_neither_counted_nor_mended(value: str):
    made = of("hundred-point", **(FULL | {"flavour": value}))

    assert made.total is None
    assert "Flavour: not counted" in made.lines


def test_points_between_the_steps_are_added_as_they_stand():
    assert of("hundred-point", **(FULL | {"flavour": "7.30"})).total == Decimal("83.80")
    assert of("hundred-point", averages=True, **(FULL | {"flavour": "7.30"})).complaints == ()


def test_scores_under_the_screens_scale_are_counted():
    assert of("hundred-point", **(FULL | {"flavour": "4.5"})).total == Decimal("81.00")


@pytest.mark.parametrize(("cups", "total"), [(1, "74.25"), (2, "79.25"), (4, "81.75"), (10, "83.25")])
def test_samples_of_other_sizes_share_ten_points_among_their_cups(cups: int, total: str):
    assert of("hundred-point", cups, **(FULL | {"sweetness": [1]})).total == Decimal(total)


def test_a_third_of_ten_is_exact_until_the_end():
    one_of_three = of("hundred-point", 3, **(FULL | {key: [1] for key in THREE}))
    two_lines = of("hundred-point", 3, **(FULL | {key: [1] for key in THREE[:2]}))

    assert one_of_three.total == Decimal("74.25")  # three times 20/3
    assert two_lines.total == Decimal("77.58")
    assert two_lines.lines[-1] == "Total: 77.58, rounded to 0.01"


def test_faults_of_a_small_sample_go_by_its_cups_and_it_says_so():
    made = of("hundred-point", 3, **(FULL | {"clean_cup": [2]}), defects={"1": 0, "2": 2, "3": 0})

    assert made.total == Decimal("78.92")
    assert "The rule was made for 5 cups; this sample has 3." in " ".join(made.lines)


OWN = """\
name = "house"
version = 1
title = "House"

[points]
start = "10"
add = [{ field = "a.worth", times = "0.1" }, "b.worth"]
subtract = [{ field = "bad", times = "1.5" }]
step = "0.1"
cups = 2

[[passes]]
id = "a"
title = "A"
ask = "A?"
moment = "hot"

[[passes.fields]]
id = "worth"
kind = "line"
label = "A"
high = 10

[[passes]]
id = "b"
title = "B"
ask = "B?"
moment = "cool"

[[passes.fields]]
id = "worth"
kind = "points"
label = "B"
high = 5
step = 0.5

[[passes.fields]]
id = "bad"
kind = "ticks"
label = "Bad"
"""


def test_a_users_own_rule_is_added_up_exactly():
    from cupwright.core.taste.points import points

    sheet = parse_sheet(OWN)

    made = points(sheet, {("a", "worth"): 3.3, ("b", "worth"): "2.5", ("b", "bad"): [2]}, cups=2)

    assert made.lines == (
        "Start: 10",
        "A: 3.3 x 0.1 = 0.33",
        "B: 2.5",
        "Bad: 1 of 2 cups (cup 2) x 1.5 = 1.5, taken away",
        "Total: 11.33, to the nearest 0.1 (a half upwards): 11.30",
    )
    assert made.total == Decimal("11.30")


def test_a_sheet_without_a_rule_makes_no_points():
    with pytest.raises(Refused, match="'open' makes no points"):
        of("open")


SCORES = st.integers(0, 40).map(lambda quarters: f"{quarters / 4:g}")
MARKS = st.sets(st.integers(1, 5)).map(sorted)


@given(
    st.lists(SCORES, min_size=7, max_size=7),
    st.lists(MARKS, min_size=3, max_size=3),
    st.dictionaries(st.integers(1, 5).map(str), st.sampled_from([0, 2, 4])),
)
def test_a_total_is_the_sum_and_always_lies_in_the_range_of_a_half_filled_sheet(
    scores: list[str], marks: list[list[int]], faults: dict[str, int]
):
    answers: dict[str, Any] = {
        **seven(*scores),
        **dict(zip(THREE, marks, strict=True)),
        "defects": TRIED | faults,
    }
    made = of("hundred-point", **answers)

    by_hand = sum(map(Fraction, scores)) + sum(2 * (5 - len(bad)) for bad in marks) - sum(faults.values())
    assert Fraction(str(made.total)) == by_hand
    # Left out, what the screen's scale can give (6 to 10) widens the range around the total.
    for field in (one for one in SEVEN if Fraction(answers[one]) >= 6):
        part = of("hundred-point", **{**answers, field: None})
        assert made.total is not None
        assert part.low <= made.total <= part.high
    untried = of("hundred-point", **{**answers, "defects": faults})
    assert made.total is not None
    assert untried.low <= made.total <= untried.high


@given(st.text(max_size=12), st.sampled_from([*SEVEN, *THREE, "defects"]), st.integers(1, 10))
def test_whatever_a_cell_holds_is_counted_or_complained_about(text: str, field: str, cups: int):
    made = of("hundred-point", cups, **(FULL | {field: text}))

    assert made.total is not None or made.complaints
    assert made.low <= made.high


def test_the_hundred_point_sheet_has_exactly_the_known_fields():
    sheet = builtin_sheet("hundred-point")
    assert sheet.points is not None
    counted = [term.field for term in (*sheet.points.add, *sheet.points.subtract)]

    assert counted == [*SEVEN[:6], *THREE, "overall", "defects"]
