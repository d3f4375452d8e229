"""Points that phone and server add up alike; client/src/taste/points/points.test.ts runs the same cases."""

import json
from pathlib import Path

import pytest
from tests.unit.core.taste.test_points import OWN

from cupwright.core.taste.points import points
from cupwright.core.taste.sheet_file import builtin_sheet, parse_sheet
from cupwright.web.shown_sheets import sheet_shown

CASES = json.loads((Path(__file__).parent / "points_cases.json").read_text(encoding="utf-8"))


def _sheet(name: str):
    return parse_sheet(OWN) if name == "house" else builtin_sheet(name)


@pytest.mark.parametrize("name", CASES["sheets"])
def test_the_sheets_of_the_cases_are_those_that_a_phone_gets(name):
    assert CASES["sheets"][name] == sheet_shown(_sheet(name)).model_dump(mode="json", by_alias=True)


@pytest.mark.parametrize("case", CASES["cases"], ids=lambda case: case["name"])
def test_points_are_those_of_the_cases(case):
    answers = {tuple(question.split("/")): value for question, value in case["answers"].items()}

    made = points(_sheet(case["sheet"]), answers, cups=case["cups"], place=case["place"])

    assert ("" if made.total is None else str(made.total)) == case["total"]
    assert (str(made.low), str(made.high)) == (case["low"], case["high"])
    assert list(made.lines) == case["lines"]
    assert list(made.complaints) == case["complaints"]
