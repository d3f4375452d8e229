"""`cupwright analyse SCORES.csv`, as it is typed."""

import json
from pathlib import Path

import pytest

# [ShroutFleiss1979]: 6 coffees, 4 tasters.
PRINTED = ((9, 2, 5, 8), (6, 1, 3, 2), (8, 4, 6, 8), (7, 1, 2, 6), (10, 5, 6, 9), (6, 2, 4, 7))


@pytest.fixture
def scores(tmp_path: Path):
    """A file of scores with those lines under the usual headings."""

    def write(*lines: str, headings: str = "taster,coffee,attribute,value", name: str = "scores.csv") -> str:
        file = tmp_path / name
        file.write_text("\n".join([headings, *lines]) + "\n", encoding="utf-8")
        return str(file)

    return write


@pytest.fixture
def printed(scores) -> str:
    return scores(
        *(
            f"T{taster},C{coffee},body,{value}"
            for coffee, row in enumerate(PRINTED, 1)
            for taster, value in enumerate(row, 1)
        )
    )


def test_the_data_hold_every_statistic_under_its_attribute(cli, printed):
    answer = cli("analyse", printed, "--json")

    assert answer.code == 0
    body = json.loads(answer.out)["attributes"]["body"]
    assert body["agreement"]["icc3"]["estimate"] == pytest.approx(0.7148, abs=5e-5)
    assert body["agreement"]["icc2"]["low"] == pytest.approx(0.0188, abs=5e-5)
    assert set(body["components"]) == {"coffee", "taster", "coffee_taster", "residual"}
    assert body["components"]["coffee_taster"] is None


def test_the_same_file_gives_the_same_data_and_a_seed_other_draws(cli, printed):
    first, again, seeded = (
        cli("analyse", printed, "--json", *more).out for more in ((), (), ("--seed", "7"))
    )

    assert first == again
    assert first != seeded


def test_only_the_attribute_that_was_named_is_analysed(cli, scores):
    file = scores(*(f"T{n % 3},C{n % 4},{name},{n % 5}" for n in range(12) for name in ("body", "acidity")))

    assert list(json.loads(cli("analyse", file, "--json", "--attribute", "body").out)["attributes"]) == [
        "body"
    ]


@pytest.mark.parametrize("form", ["pdf", "html", "json"])
def test_a_report_is_written_whole(cli, printed, tmp_path, form):
    to = tmp_path / f"report.{form}"

    answer = cli("analyse", printed, "--report", str(to))

    assert (answer.code, answer.out) == (0, f"Wrote {to}.\n")
    begins = {"pdf": b"%PDF-", "html": b"<!doctype html>", "json": b"{"}[form]
    assert to.read_bytes().lower().startswith(begins.lower())


def test_in_words_the_file_is_called_by_its_name_and_what_was_taken_so_is_said(cli, scores):
    answer = cli("analyse", scores("A,C1,body,5", "A,C2,body,", "B,C1,body,6", "B,C2,body,7", "B,C2,body,8"))

    assert answer.out.startswith("scores.csv\nScores: 4\n")
    assert "1 blank score is left out (body 1)." in answer.out
    assert "No column numbers the repeats: 1 score is taken for repeats" in answer.out


# what is wrong -> (lines, what stands in the "silent" of the attribute)
THIN = {
    "one taster": (["A,C1,body,5", "A,C2,body,6", "A,C3,body,7"], "2 tasters"),
    "one coffee": (["A,C1,body,5", "B,C1,body,6", "C,C1,body,7"], "2 coffees"),
    "constant scores": ([f"{t},C{c},body,5" for t in "ABC" for c in range(3)], "same"),
    "all missing": (["A,C1,body,", "B,C2,body,NA"], "not a single score"),
}


@pytest.mark.parametrize("case", THIN)
def test_thin_data_get_a_sentence_for_every_number_that_is_not_there(cli, scores, case):
    lines, said = THIN[case]

    answer = cli("analyse", scores(*lines), "--json")

    assert answer.code == 0
    body = json.loads(answer.out)["attributes"]["body"]
    assert body["components"] is None
    assert body["agreement"]["icc2"] is None
    assert said in body["silent"]["icc"]
    assert body["silent"]["components"]


def test_a_taster_who_saw_half_leaves_numbers_for_the_others(cli, scores):
    lines = [f"{t},C{c},body,{(3 * c + ord(t)) % 7 + c}" for t in "ABC" for c in range(4)]
    lines += ["D,C0,body,2", "D,C1,body,3"]

    body = json.loads(cli("analyse", scores(*lines), "--json").out)["attributes"]["body"]

    assert body["agreement"]["icc2"] is not None
    assert body["components"]["coffee"] >= 0


def test_an_attribute_that_is_not_there_is_refused_with_those_that_are(cli, printed):
    answer = cli("analyse", printed, "--attribute", "Body")

    assert answer.code == 1
    assert "The file has no attribute 'Body'; it has body." in answer.err


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--level", "95"), "--level is a share"),
        (("--draws", "5"), "--draws is a number from 100"),
        (("--map", "taster"), "--map takes COLUMN=HEADING, not 'taster'"),
        (("--report", "x.doc"), "a report ends in .pdf, .html or .json"),
        (("--answers",), "--answers is for a table"),
    ],
)
def test_wrong_use_is_said_at_once(cli, printed, arguments, said):
    answer = cli("analyse", printed, *arguments)

    assert answer.code == 2
    assert said in answer.err


def test_options_of_a_file_are_refused_for_a_table(cli):
    answer = cli("analyse", "Thursday", "--wide")

    assert answer.code == 2
    assert "--wide is for a file of scores" in answer.err


def test_a_name_that_ends_like_a_file_is_a_file_even_if_it_is_not_there(cli):
    answer = cli("analyse", "gone.csv")

    assert answer.code == 1
    assert "gone.csv cannot be read: No such file" in answer.err
