"""A file of scores as people have them: long and wide, blanks, repeats, doubled lines, text among numbers."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.analyse.score_file import ScoreFile, score_file
from cupwright.core.analyse.text_columns import coded
from cupwright.errors import BadFile, Refused

LONG = "taster,coffee,attribute,value"


def read(text: str, *, wide: bool = False, **named: str) -> ScoreFile:
    first, *rest = [line.split(";" if ";" in line else ",") for line in text.strip().splitlines()]
    return score_file(coded("s.csv", first, list(enumerate(rest, start=2))), named=named, wide=wide)


def refused(text: str, *, wide: bool = False, **named: str) -> BadFile:
    with pytest.raises(BadFile) as caught:
        read(text, wide=wide, **named)
    return caught.value


def test_each_attribute_gets_its_scores_with_names_in_the_order_of_the_file():
    found = read(f"{LONG}\nBen,C2,body,5\nAda,C1,body,6.5\nBen,C1,acidity,7\n")

    body = found.attributes["body"]
    assert (body.tasters, body.coffees) == (("Ben", "Ada"), ("C2", "C1"))
    assert body.value.tolist() == [5, 6.5]
    assert body.taster.tolist() == [0, 1]
    assert found.attributes["acidity"].tasters == ("Ben",)
    assert body.position is None
    assert body.temperature is None
    assert body.table is None
    assert found.remarks == ()


def test_headings_are_found_without_regard_to_case_blanks_and_the_fields_own_words():
    found = read(" Assessor ,SAMPLE,Attribute,Score,Replicate\nAda,C1,body,6,2\nAda,C1,body,5,1\n")

    assert found.attributes["body"].repeat.tolist() == [1, 0]


def test_a_heading_can_be_named_and_then_counts_more_than_the_usual_one():
    found = read("who,taster,coffee,marks\nAda,x,C1,6\n", taster="who", value="marks")

    assert found.attributes["marks"].tasters == ("Ada",)
    assert found.remarks == ("Not used: the column 'taster'.",)


def test_names_stay_text_even_if_they_look_like_numbers():
    found = read(f"{LONG}\n01,1,body,5\n1,1.0,body,6\n")

    assert found.attributes["body"].tasters == ("01", "1")
    assert found.attributes["body"].coffees == ("1", "1.0")


def test_blanks_and_na_are_no_scores_and_are_counted():
    found = read(f"{LONG}\nAda,C1,body,\nAda,C2,body,NA\nAda,C3,body,5\nAda,C1,acidity, \n")

    assert found.missing == {"body": 2, "acidity": 1}
    assert found.empty == ("acidity",)
    assert found.attributes["body"].coffees == ("C3",)
    assert found.remarks == ("3 blank scores are left out (body 2, acidity 1).",)


def test_numbers_below_zero_decimal_commas_and_powers_are_read():
    found = read("taster;coffee;value\nA;1;-3,5\nA;2;\N{MINUS SIGN}2\nA;3;,5\nA;4;1e-2\n")

    assert found.attributes["value"].value.tolist() == [-3.5, -2, 0.5, 0.01]


def test_two_ways_to_write_decimals_are_refused_since_one_of_them_could_mean_thousands():
    said = refused("taster;coffee;value\nA;1;3.5\nA;2;1,234\n")

    assert "two ways: 3.5 and 1,234" in said.message
    assert (said.where.line, said.where.column) == (3, "value")


@pytest.mark.parametrize("text", ["six", "5 of 9", "1,234.5", "inf", "1e400", "1e-300", "0x5", "5%", "٣"])
def test_text_in_a_column_of_numbers_is_refused_with_line_and_column(text):
    said = refused(f"taster;coffee;attribute;value\nAda;C1;body;5\nAda;C2;body;{text}\n")

    assert f"'{text}' is not a number." in said.message
    assert (said.where.file, said.where.line, said.where.column) == ("s.csv", 3, "value")


@pytest.mark.parametrize(
    ("line", "column"), [(",C1,body,5", "taster"), ("A,,body,5", "coffee"), ("A,C1,,5", "attribute")]
)
def test_a_score_of_nobody_or_nothing_is_refused(line, column):
    said = refused(f"{LONG}\nA,C2,body,4\n{line}\n")

    assert (said.where.line, said.where.column) == (3, column)


def test_a_line_without_a_score_may_lack_its_names_too():
    assert read(f"{LONG}\nA,C2,body,4\n,,,\n").attributes["body"].value.tolist() == [4]


def test_further_scores_without_a_number_are_repeats_and_it_is_said():
    found = read(f"{LONG}\nA,C1,body,4\nA,C2,body,5\nA,C1,body,4\n")

    assert found.attributes["body"].repeat.tolist() == [0, 0, 1]
    assert found.remarks == (
        "No column numbers the repeats: 1 score is taken for repeats, because the same taster had scored "
        "the same coffee before.",
    )


@pytest.mark.parametrize(("value", "held"), [("4", "the same score 4"), ("6", "4 and 6")])
def test_one_numbered_repeat_on_two_lines_is_refused_with_both_lines(value, held):
    said = refused(f"{LONG},repeat\nA,C1,body,4,1\nA,C1,body,5,2\nA,C1,body,{value},1\n")

    assert "Lines 2 and 4 are one repeat (taster A, coffee C1, repeat 1) of 'body'" in said.message
    assert held in said.message


def test_one_numbered_repeat_at_two_tables_or_positions_is_two_scores():
    found = read(
        f"{LONG},repeat,table,position\nA,C1,body,4,1,Mon,2\nA,C1,body,5,1,Tue,2\nA,C1,body,6,1,Tue,3\n"
    )

    body = found.attributes["body"]
    assert body.repeat.tolist() == [0, 1, 2]
    assert (body.tables, body.table.tolist()) == (("Mon", "Tue"), [0, 1, 1])


def test_repeats_count_by_their_numbers_not_by_their_spelling():
    found = read(f"{LONG},repeat\nA,C1,body,4,10\nA,C1,body,5,9\n")

    assert found.attributes["body"].repeat.tolist() == [1, 0]


def test_position_and_temperature_are_numbers_and_nan_where_blank():
    found = read(f"{LONG},position,temperature\nA,C1,body,4,1,\nA,C2,body,5,,\n")

    body = found.attributes["body"]
    assert body.position[0] == 1
    assert np.isnan(body.position[1])
    assert body.temperature is None


def test_wide_every_other_column_is_an_attribute():
    found = read("taster,coffee,repeat,acidity,body\nA,C1,1,4,5\nA,C2,1,,6\n", wide=True)

    assert found.attributes["acidity"].value.tolist() == [4]
    assert found.attributes["body"].coffees == ("C1", "C2")
    assert found.missing == {"acidity": 1, "body": 0}


def test_a_column_that_is_not_there_is_named_with_those_that_are():
    said = refused("who,coffee,value\nA,C1,5\n")

    assert "no column 'taster'; the columns are who, coffee, value." in said.message
    assert "--map taster=HEADING" in said.todo


def test_a_role_that_no_column_has_is_refused():
    with pytest.raises(Refused, match="No column of scores is called 'cup'"):
        read(f"{LONG}\nA,C1,body,5\n", cup="value")


def test_headings_without_lines_are_refused():
    assert "no line under the headings" in refused(LONG).message


def test_names_that_only_letter_case_tells_apart_are_pointed_out():
    assert "The tasters 'Ada' and 'ada' count as two." in read(f"{LONG}\nAda,C1,x,5\nada,C1,x,5\n").remarks


cells = st.tuples(st.sampled_from("AB"), st.sampled_from("XYZ"), st.integers(0, 9))


@given(st.lists(cells, min_size=1, max_size=30), st.randoms())
def test_the_order_of_the_lines_changes_no_cell(rows, chance):
    shuffled = list(rows)
    chance.shuffle(shuffled)

    def cell_values(lines):
        scores = read("taster,coffee,value\n" + "\n".join(f"{t},{c},{v}" for t, c, v in lines)).attributes[
            "value"
        ]
        found = {}
        for t, c, v in zip(scores.taster, scores.coffee, scores.value, strict=True):
            found.setdefault((scores.tasters[t], scores.coffees[c]), []).append(v)
        return {cell: sorted(values) for cell, values in found.items()}

    assert cell_values(shuffled) == cell_values(rows)
