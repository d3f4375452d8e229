"""Questions of a revealed table, and a file of scores, through the API."""

import pytest

SCORES = "taster,coffee,attribute,value\n" + "".join(
    f"T{taster},C{coffee},body,{value}\n"
    for coffee, row in enumerate(
        [(9, 2, 5, 8), (6, 1, 3, 2), (8, 4, 6, 8), (7, 1, 2, 6), (10, 5, 6, 9), (6, 2, 4, 7)]
    )
    for taster, value in enumerate(row)
)


@pytest.fixture
def table(browser):
    coffees = [browser.post("/api/coffees", json={"name": f"Lot {n}"}).json()["id"] for n in range(2)]
    draft = browser.post("/api/tables", json={"name": "Thursday", "coffees": coffees}).json()
    return browser.post(f"/api/tables/{draft['id']}/seal", json={}).json()


def test_questions_are_answered_once_the_key_is_open(browser, table):
    path = f"/api/tables/{table['id']}"
    early = browser.get(f"{path}/questions")
    browser.post(f"{path}/reveal", json={})

    opened = browser.get(f"{path}/questions")

    assert early.status_code == 409
    assert opened.status_code == 200
    assert opened.json()["title"] == "Thursday"


def test_a_season_needs_an_opened_table_with_scores_and_the_desk(browser, table):
    browser.post(f"/api/tables/{table['id']}/reveal", json={})

    answer = browser.get("/api/season")

    assert answer.status_code == 422
    assert "No opened table has a score." in answer.json()["detail"]


def test_a_file_of_scores_gets_the_data_of_the_command_line(browser):
    answer = browser.post("/api/scores", files={"file": ("s.csv", SCORES)})

    assert answer.status_code == 200
    icc3 = answer.json()["attributes"]["body"]["agreement"]["icc3"]
    assert icc3["estimate"] == pytest.approx(0.7148, abs=5e-5)


def test_scores_may_be_pasted_and_wide(browser):
    text = "taster,coffee,body,acidity\nA,C1,5,6\nA,C2,6,6\nB,C1,4,7\nB,C2,7,8\n"

    answer = browser.post("/api/scores", params={"wide": "true"}, json={"text": text})

    assert list(answer.json()["attributes"]) == ["body", "acidity"]


def test_a_file_that_cannot_be_read_is_a_problem_with_its_line(browser):
    answer = browser.post("/api/scores", files={"file": ("s.csv", SCORES + "T9,C1,body,good\n")})

    assert answer.status_code == 422
    assert answer.json()["where"] == {"file": "s.csv", "line": 26, "column": "value"}
    assert "'good' is not a number." in answer.json()["detail"]


def test_a_taster_reads_the_own_tasting_once_the_key_is_open_and_of_nobody_else(browser, table):
    path = f"/api/tables/{table['id']}"
    tokens = [browser.post(f"{path}/seats", json={"name": name}).json()["token"] for name in ("Ada", "Ben")]
    as_ada = {"Authorization": f"Bearer {tokens[0]}"}
    early = browser.get("/api/seat/own", headers=as_ada)
    browser.post(f"{path}/reveal", json={})

    opened = browser.get("/api/seat/own", headers=as_ada)

    assert early.status_code == 409
    assert opened.status_code == 200
    assert browser.get("/api/seat/own").status_code == 401
