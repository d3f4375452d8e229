"""The clock over the wire: schedule, marks, and a start taken back."""

import pytest
from tests.unit.steps.laying import tasting


@pytest.fixture
def path(tools) -> str:
    return f"/api/tables/{tasting(tools).id}"


def test_the_run_sheet_comes_with_its_schedule_and_persons(browser, path):
    sheet = browser.get(f"{path}/run-sheet").json()

    assert [act["kind"] for act in sheet["schedule"]["acts"]] == ["pour"] * 3 + ["break"] * 3 + ["skim"] * 3
    assert {cue["person"] for cue in sheet["cues"]} == {0, None}
    assert sheet["late"] == []


def test_marks_are_taken_and_taken_back(browser, path):
    marked = browser.post(f"{path}/marks", json={"kind": "break", "bowl": 1}).json()
    assert [(cue["kind"], cue["bowl"]) for cue in marked["cues"] if cue["done"]] == [("break", 1)]

    back = browser.delete(f"{path}/marks/break/1").json()
    assert not any(cue["done"] for cue in back["cues"])
    assert browser.delete(f"{path}/marks/break/1").status_code == 404
    assert browser.post(f"{path}/marks", json={"kind": "stir", "bowl": 1}).status_code == 422


def test_a_start_is_taken_back_while_nothing_else_is_marked(browser, path):
    browser.post(f"{path}/marks", json={"kind": "pour", "bowl": 0})
    assert browser.delete(f"{path}/clock").status_code == 409

    browser.delete(f"{path}/marks/pour/0")
    table = browser.delete(f"{path}/clock").json()

    assert (table["step"], table["clock"]["started_at"]) == ("pour", None)


def test_a_schedule_is_laid_for_any_hands_or_refused_in_a_sentence(browser):
    asked = {"flights": [8, 8], "people": 2, "pour_s": 20}

    laid = browser.post("/api/schedule", json=asked).json()
    refused = browser.post("/api/schedule", json={"flights": [20]})

    assert [flight["after"] for flight in laid["schedule"]["flights"]] == [8, 16]
    assert laid["largest"] == 21
    assert refused.status_code == 422
    assert "One person can keep 12 bowls" in refused.json()["detail"]
