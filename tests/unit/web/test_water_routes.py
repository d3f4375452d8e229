"""Water over the API."""

import pytest

TAP = {
    "name": "tap water",
    "analysis": {"hardness": {"value": 12, "unit": "dH"}, "alkalinity": {"value": 8, "unit": "dKH"}},
}
EPSOM = {"name": "A", "grams_per_litre": {"Epsom salt": 10}}
TARGET = {
    "hardness": {"value": 68, "unit": "mg/L CaCO3"},
    "alkalinity": {"value": 40, "unit": "mg/L CaCO3"},
}
WISH = {"sources": [TAP], "concentrates": [EPSOM], "target": TARGET, "litres": 4}


def test_a_form_learns_units_salts_and_ranges(browser):
    known = browser.get("/api/water/known").json()

    units = {one["parameter"]: one["units"] for one in known["parameters"]}
    assert units["hardness"][:2] == ["mg/L CaCO3", "°dH"]
    assert units["ph"] == [""]
    assert {"name": "Epsom salt", "formula": "MgSO4·7H2O", "soluble_g": 700.0} in known["salts"]
    assert [one["key"] for one in known["ranges"]] == ["2009", "newer"]


def test_an_amount_in_every_unit(browser):
    assert browser.get("/api/water/units", params={"amount": "12 dH"}).json()["gpg"] == pytest.approx(
        12.51, abs=0.01
    )


def test_an_amount_without_a_unit_is_refused(browser):
    answer = browser.get("/api/water/units", params={"amount": "12"})

    assert answer.status_code == 422
    assert answer.json()["detail"].startswith("The hardness has no unit.")


def test_a_mix_is_the_one_of_the_command_line(browser):
    answer = browser.post("/api/water/mix", json=WISH)

    assert answer.status_code == 200
    mix = answer.json()["mix"]
    assert mix["sentence"] == (
        "For 4 L: 1.121 L of tap water, 2.872 L of deionised water and 7.9 g of concentrate A."
    )
    assert mix["feasible"] is True
    assert {one["parameter"] for one in mix["mix"]["ranges"]["2009"]} >= {"tds", "calcium", "ph"}


def test_without_target_and_range_the_sources_are_judged(browser):
    answer = browser.post("/api/water/mix", json={"sources": [TAP]}).json()

    assert answer["mix"] is None
    assert answer["sources"][0]["ranges"]["newer"][0]["verdict"] == "above"


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"litres": 0}, "A mix cannot be 0 L."),
        ({"litres": -2}, "A mix cannot be -2 L."),
        ({"range": "2010", "target": None}, "There is no published range '2010'."),
        ({"target": {"hardness": {"value": 68}}}, "The hardness has no unit."),
        ({"target": {"hardness": {"value": -1, "unit": "dH"}}}, "cannot be -1"),
        ({"concentrates": [{"name": "A", "grams_per_litre": {}}]}, "holds no salt"),
        ({"concentrates": [{"name": " ", "grams_per_litre": {"gypsum": 1}}]}, "has no name"),
        ({"sources": [TAP, TAP]}, "Two ingredients are called tap water."),
    ],
)
def test_a_wish_that_cannot_be_is_refused_in_one_sentence(browser, changed, sentence):
    answer = browser.post("/api/water/mix", json=WISH | changed)

    assert answer.status_code == 422
    assert sentence in answer.json()["detail"]


def test_one_parameter_under_two_names_is_refused(browser):
    amounts = {"Ca": {"value": 40, "unit": "mg/L Ca"}, "calcium": {"value": 40, "unit": "mg/L Ca"}}

    answer = browser.post("/api/water/mix", json={"sources": [{"name": "tap", "analysis": amounts}]})

    assert "'calcium' is given twice" in answer.json()["detail"]
