"""Sheets and points over the API."""

SHEET = 'name = "house"\nversion = 1\ntitle = "House"\n[[passes]]\nid = "a"\ntitle = "A"\nask = "?"\n'
SHEET += 'moment = "hot"\nfields = [{ id = "w", kind = "words", label = "W" }]\n'


def _table(browser, **plan):
    coffees = [browser.post("/api/coffees", json={"name": f"Lot {n}"}).json()["id"] for n in range(2)]
    made = browser.post("/api/tables", json={"name": "T", "coffees": coffees, "tasters": ["Ada"]} | plan)
    return made, coffees


def _seated(browser, sheet: str, **plan):
    table = _table(browser, sheet=sheet, **plan)[0].json()
    browser.post(f"/api/tables/{table['id']}/seal", json={})
    taken = browser.post(f"/api/tables/{table['id']}/seats", json={"name": "Ada"}).json()
    return taken, {"Authorization": f"Bearer {taken['token']}"}


def _note(number: int, place: str, question: str, value: object) -> dict[str, object]:
    part, field = question.split("/")
    stamp = {"counter": number, "device": "d"}
    return {
        "id": f"n{number}",
        "place": place,
        "pass": part,
        "field": field,
        "value": value,
        "stamp": stamp,
        "written_at": 1,
    }


def test_an_own_sheet_is_checked_kept_listed_planned_with_and_put_away(browser):
    assert browser.post("/api/sheets/check", json={"text": SHEET}).json()["title"] == "House"
    assert browser.get("/api/own-sheets").json() == []

    assert browser.post("/api/sheets", json={"text": SHEET}).status_code == 201

    assert [sheet["name"] for sheet in browser.get("/api/sheets").json()][-1] == "house"
    assert [(one["name"], one["text"]) for one in browser.get("/api/own-sheets").json()] == [("house", SHEET)]
    table, _ = _table(browser, sheet="house")
    assert table.json()["sheet"]["title"] == "House"
    assert browser.delete("/api/own-sheets/house").status_code == 204
    assert browser.delete("/api/own-sheets/house").status_code == 404


def test_a_sheet_that_is_none_is_refused_with_its_line(browser):
    refusal = browser.post("/api/sheets", json={"text": SHEET.replace("hot", "lukewarm")})

    assert refusal.status_code == 422
    assert refusal.json()["where"]["line"] == 8


def test_the_odd_one_needs_three_bowls_and_a_duplicate_makes_them(browser):
    refused, coffees = _table(browser, sheet="odd-one-out")
    assert refused.status_code == 422
    assert "asks for the odd one of 3 bowls; the plan has 2" in refused.json()["detail"]

    plan = {"name": "Triangle", "coffees": coffees, "duplicates": coffees[:1], "sheet": "odd-one-out"}
    assert browser.post("/api/tables", json=plan).status_code == 201


def test_points_are_shown_once_the_key_is_open_and_not_before(browser):
    taken, who = _seated(browser, "hundred-point")
    place, table = taken["seat"]["order"][0], taken["table"]["id"]
    notes = [
        _note(1, place, "flavour/flavour", "8.25"),
        _note(2, place, "cups/defects", {"1": 2}),
        _note(3, place, "cups/clean_cup", [1]),
    ]
    assert browser.post("/api/seat/notes", json={"notes": notes}, headers=who).status_code == 200
    assert browser.get(f"/api/tables/{table}/points").status_code == 409

    browser.post(f"/api/tables/{table}/reveal", json={})

    (total,) = browser.get(f"/api/tables/{table}/points").json()
    assert (total["total"], total["low"], total["high"]) == (None, 42.25, 86.25)
    assert "Taints and faults: cup 1 a taint 2 = 2, taken away" in total["lines"]
    for reveal in (browser.get(f"/api/tables/{table}/reveal"), browser.get("/api/seat/reveal", headers=who)):
        assert reveal.json()["totals"] == [total]


def test_a_table_whose_sheet_makes_no_points_has_none_to_show(browser):
    taken, _ = _seated(browser, "open")
    table = taken["table"]["id"]
    browser.post(f"/api/tables/{table}/reveal", json={})

    assert browser.get(f"/api/tables/{table}/points").status_code == 422
    assert browser.get(f"/api/tables/{table}/reveal").json()["totals"] == []


def test_an_order_is_written_once_for_the_whole_table_and_never_at_a_place(browser):
    taken, who = _seated(browser, "ranking")
    first, second = taken["seat"]["order"]

    kept = browser.post(
        "/api/seat/notes",
        json={"notes": [_note(1, "table", "order/rank", {first: 1, second: 2})]},
        headers=who,
    )
    astray = browser.post(
        "/api/seat/notes", json={"notes": [_note(2, first, "order/rank", {first: 1})]}, headers=who
    )
    lost = browser.post(
        "/api/seat/notes", json={"notes": [_note(3, "table", "taste/words", "fig")]}, headers=who
    )

    assert (kept.status_code, astray.status_code, lost.status_code) == (200, 404, 404)
    assert "asked once for the whole table" in astray.json()["detail"]
    assert "asked at each place" in lost.json()["detail"]
    (ada,) = browser.get(f"/api/tables/{taken['table']['id']}/progress").json()
    assert [(one["pass"], one["done"], one["all"]) for one in ada["passes"]] == [
        ("taste", 0, 2),
        ("order", 1, 1),
    ]


def test_what_does_not_fit_the_newer_kinds_is_refused_in_a_sentence(browser):
    taken, who = _seated(browser, "descriptive")
    place = taken["seat"]["order"][0]
    smells = next(
        f["choices"] for p in taken["table"]["sheet"]["passes"] for f in p["fields"] if f["id"] == "smells"
    )

    refusal = browser.post(
        "/api/seat/notes", json={"notes": [_note(1, place, "smelled/smells", smells[:6])]}, headers=who
    )

    assert refusal.status_code == 422
    assert "has 6 ticks; it takes at most 5" in refusal.json()["detail"]
