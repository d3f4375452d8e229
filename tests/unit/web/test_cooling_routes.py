"""Readings and the cooling through the API."""

import pytest


@pytest.fixture
def table(browser):
    """A table of two coffees whose clock runs."""
    coffees = [browser.post("/api/coffees", json={"name": f"Lot {n}"}).json()["id"] for n in range(2)]
    draft = browser.post("/api/tables", json={"name": "Thursday", "coffees": coffees}).json()
    browser.post(f"/api/tables/{draft['id']}/seal", json={})
    return browser.post(f"/api/tables/{draft['id']}/clock", json={}).json()


def test_the_cooling_is_told_before_anything_was_read(browser, table):
    found = browser.get(f"/api/tables/{table['id']}/cooling").json()

    assert found["readings"] == []
    assert found["low"][9] < found["celsius"][9] < found["high"][9]
    assert [window["title"] for window in found["windows"]][:1] == ["Flavour and aftertaste"]
    assert found["windows"][2]["ends"]["high"] is None  # not within six hours


def test_a_reading_fits_the_curve_and_can_be_taken_back(browser, table):
    path = f"/api/tables/{table['id']}"
    before = browser.get(f"{path}/cooling").json()

    noted = browser.post(f"{path}/readings", json={"bowl": 0, "celsius": 78.0}).json()
    (reading,) = noted["readings"]
    gone = browser.delete(f"{path}/readings", params={"bowl": 0, "at": reading["at"]}).json()

    assert (reading["place"], reading["celsius"], reading["minutes"]) == (table["places"][0], 78.0, 0)
    assert noted["celsius"][0] < before["celsius"][0] - 1
    assert gone == before


@pytest.mark.parametrize(
    ("body", "status", "says"),
    [
        ({"bowl": 0, "celsius": 170}, 422, "boils"),
        ({"bowl": 1, "celsius": 70}, 422, "before the pour"),
        ({"bowl": 7, "celsius": 70}, 404, "no bowl 8"),
        ({"bowl": 0, "celsius": "70"}, 422, "number"),
        ({"bowl": 0}, 422, "celsius"),
    ],
)
def test_a_reading_that_cannot_be_is_a_problem_in_a_sentence(browser, table, body, status, says):
    answer = browser.post(f"/api/tables/{table['id']}/readings", json=body)

    assert answer.status_code == status
    assert says in answer.text


def test_the_brief_carries_what_the_scales_leave_open_and_where_water_boils(browser, table):
    recipe = browser.get(f"/api/tables/{table['id']}/brief").json()["recipe"]

    assert recipe["ratio_low"] < recipe["grams_per_litre"] < recipe["ratio_high"]
    assert recipe["brim"]["displaced_ml"] == 8.25
    assert recipe["boiling"]["boils_c"] == pytest.approx(99.974, abs=0.001)


def test_every_answer_of_an_opened_table_comes_with_the_warmth_of_its_cup(browser, table):
    path = f"/api/tables/{table['id']}"
    joined = browser.post("/api/join", json={"code": table["join_code"], "name": "Taster 1"}).json()
    part, field = next(
        (part, field)
        for part in table["sheet"]["passes"]
        for field in part["fields"]
        if (part["moment"], field["kind"]) == ("hot", "words")
    )
    note = {
        "id": "n-1",
        "place": table["places"][0],
        "pass": part["id"],
        "field": field["id"],
        "value": "plum",
        "stamp": {"counter": 1, "device": "d1"},
        "written_at": table["clock"]["started_at"] + 9 * 60_000,
    }
    browser.post(
        "/api/seat/notes", json={"notes": [note]}, headers={"Authorization": f"Bearer {joined['token']}"}
    )
    early = browser.get(f"{path}/answers")
    browser.post(f"{path}/reveal", json={})

    (row,) = browser.get(f"{path}/answers").json()
    compared = browser.get(f"{path}/reveal").json()

    assert early.status_code == 409
    assert (row["taster"], row["pass"], row["value"]) == ("Taster 1", part["id"], "plum")
    assert 60 < row["cup_low_c"] < row["cup_c"] < row["cup_high_c"] < 80
    (written,) = [
        one for coffee in compared["coffees"] for taster in coffee["tasters"] for one in taster["written"]
    ]
    assert written["cup_c"]["celsius"] == row["cup_c"]
