"""Protocols over the API: listed, checked, kept, removed; a preview tells deviations and cautions."""

import pytest

from cupwright.core.plan.protocol_file import builtin_text

HOUSE = builtin_text("home").replace('name = "home"', 'name = "house"')


@pytest.fixture
def plan(browser):
    coffee = browser.post("/api/coffees", json={"name": "Lot 1", "roast_date": "2020-01-01"}).json()["id"]
    return {"name": "Thursday", "coffees": [coffee], "tasters": ["Ada"]}


def test_the_programs_protocols_are_listed_with_all_they_ask(browser):
    listed = {one["name"]: one for one in browser.get("/api/protocols").json()}

    assert list(listed) == ["brew", "cupping", "home"]
    assert listed["brew"]["acts"] == ["pour", "taste"]
    assert listed["cupping"]["suggested"]["grams_per_litre"] == 55
    assert {"what": "Ratio", "asks": "8.25 g for 150 mL, give or take 0.25 g: 55 g/L, 3 %"}.items() <= listed[
        "cupping"
    ]["asks"][0].items()


def test_an_own_protocol_is_checked_kept_planned_with_and_removed(browser, plan):
    assert browser.post("/api/protocols/check", json={"text": HOUSE}).json()["name"] == "house"
    assert len(browser.get("/api/protocols").json()) == 3

    kept = browser.post("/api/protocols", json={"text": HOUSE})
    assert (kept.status_code, kept.json()["own"]) == (201, True)
    assert browser.post("/api/tables", json=plan | {"protocol": "house"}).status_code == 201

    assert browser.delete("/api/protocols/house").status_code == 204
    refused = browser.post("/api/tables", json=plan | {"name": "Friday", "protocol": "house"})
    assert (refused.status_code, "no protocol called 'house'" in refused.json()["detail"]) == (404, True)


def test_a_wrong_line_is_named(browser):
    refused = browser.post("/api/protocols", json={"text": HOUSE.replace("version = 1", "version = 0")})

    assert refused.status_code == 422
    assert refused.json()["where"]["line"] == 3
    assert refused.json()["title"] == "The protocol cannot be used"


def test_a_name_of_the_programs_is_taken(browser):
    assert browser.post("/api/protocols", json={"text": builtin_text("home")}).status_code == 409
    assert browser.delete("/api/protocols/home").status_code == 422


def test_the_preview_tells_deviations_and_cautions_with_their_sizes(browser, plan):
    brief = browser.post("/api/tables/preview", json=plan | {"bowl_ml": 250, "grams_per_litre": 52}).json()

    ratio = next(one for one in brief["deviations"] if one["what"] == "Ratio")
    assert ratio["sentence"] == "13.0 g in 250 mL is 52 g/L, 5.5 % under 55 g/L; the tolerance is 3 %."
    assert (ratio["size"], ratio["known"]) == (pytest.approx(-5.4545, abs=1e-4), True)
    assert "Rest of Lot 1" in [one["what"] for one in brief["deviations"]]
    assert [one for one in brief["deviations"] if one["size"] is None and not one["known"]]
    hot = next(one for one in brief["limits"] if one["about"] == "hot coffee")
    assert (hot["size"], hot["limit"], hot["exceeded"]) == (71, 65, True)
