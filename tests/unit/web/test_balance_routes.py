"""How even the serving orders are, over the API."""


def laid(browser, **changes) -> dict:
    ids = [browser.post("/api/coffees", json={"name": f"Lot {n}"}).json()["id"] for n in range(4)]
    plan = {"name": "Even", "coffees": ids, "tasters": ["Ada", "Ben", "Cleo", "Dan"], **changes}
    answer = browser.post("/api/tables", json=plan)
    assert answer.status_code == 201, answer.text
    return answer.json()


def test_a_table_says_it_in_short(browser):
    told = laid(browser)["balance"]

    assert told == {
        "sentences": [
            "Every sample stands in every place once; each follows each other once.",
            "No orders of these could be more even.",
        ],
        "connected": True,
        "cost": 28,
        "bound": 28,
    }


def test_the_brief_has_every_count(browser):
    table = laid(browser)

    told = browser.get(f"/api/tables/{table['id']}/brief").json()["balance"]

    (flight,) = told["flights"]
    assert flight["positions"] == [[1] * 4] * 4
    assert flight["followers"] == [[int(i != j) for j in range(4)] for i in range(4)]
    assert (told["tasters"], told["places"], told["served"]) == (4, table["places"], [4] * 4)


def test_blocks_that_cannot_be_linked_are_refused_with_the_field(browser):
    ids = [browser.post("/api/coffees", json={"name": f"Lot {n}"}).json()["id"] for n in range(5)]

    answer = browser.post(
        "/api/tables", json={"name": "Apart", "coffees": ids, "tasters": ["Ada"], "samples_each": 2}
    )

    assert answer.status_code == 422
    assert "cannot link all samples" in answer.json()["title"] + answer.json().get("detail", "")
