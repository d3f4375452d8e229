"""A taster's way in: a join code, a seat, a token."""

import hashlib
import json

import pytest


@pytest.fixture
def table(browser):
    """A sealed table of three coffees for Ada and Ben."""
    coffees = [browser.post("/api/coffees", json={"name": f"Lot {n}"}).json()["id"] for n in range(3)]
    plan = {"name": "Thursday", "coffees": coffees, "tasters": ["Ada", "Ben"]}
    draft = browser.post("/api/tables", json=plan).json()
    return browser.post(f"/api/tables/{draft['id']}/seal", json={}).json()


def join(browser, code, name="Ada"):
    return browser.post("/api/join", json={"code": code, "name": name})


def sitting(browser, table, name="Ada"):
    return {"Authorization": f"Bearer {join(browser, table['join_code'], name).json()['token']}"}


def note(table, number=1, **other):
    part = table["sheet"]["passes"][0]
    return {
        "id": f"n-{number}",
        "place": table["places"][0],
        "pass": part["id"],
        "field": part["fields"][0]["id"],
        "value": "plum",
        "stamp": {"counter": number, "device": "d1"},
        "written_at": 1,
    } | other


def test_a_code_gives_a_seat_and_a_token_that_is_kept_only_as_a_hash(browser, table, tools):
    taken = join(browser, table["join_code"]).json()

    assert taken["seat"]["name"] == "Ada"
    assert len(taken["token"]) * 4 == 256
    with tools.store.reading() as work:
        assert work.tokens.find(taken["token"]) is None
        assert work.tokens.find(hashlib.sha256(taken["token"].encode()).hexdigest()) is not None


def test_a_code_may_be_typed_in_small_letters_and_groups(browser, table):
    code = table["join_code"].lower()

    assert join(browser, f" {code[:3]} {code[3:]} ").status_code == 201


@pytest.mark.parametrize("code", ["ZZZZZZ", "", "x", "9" * 500, "'; --", "ＡＢＣ"])
def test_wrong_unknown_and_impossible_codes_get_one_answer(browser, table, code):
    answer = join(browser, code)

    assert answer.status_code == 404
    assert answer.content == join(browser, "QQQQQQ").content


def test_after_ten_wrong_codes_even_the_right_one_waits(browser, table, ticks):
    for _ in range(10):
        join(browser, "ZZZZZZ")

    assert join(browser, table["join_code"]).status_code == 429

    ticks.seconds = 61.0
    assert join(browser, table["join_code"]).status_code == 201


def test_a_seat_that_is_taken_needs_the_desk(browser, table):
    taken = join(browser, table["join_code"]).json()
    assert join(browser, table["join_code"]).status_code == 409

    freed = browser.delete(f"/api/tables/{table['id']}/seats/{taken['seat']['id']}/token")

    assert freed.status_code == 204
    assert join(browser, table["join_code"]).status_code == 201


@pytest.mark.parametrize("authorization", ["", "Bearer ", "Bearer x", "Basic x", "x" * 5000])
def test_without_the_right_token_there_is_no_seat(browser, table, authorization):
    answer = browser.get("/api/seat", headers={"Authorization": authorization})

    assert answer.status_code == 401


def test_notes_come_back_as_they_were_written(browser, table):
    seat = sitting(browser, table)
    sent = [note(table, 1), note(table, 2, value="  plum,\n“ripe” ☕ ")]

    kept = browser.post("/api/seat/notes", json={"notes": sent}, headers=seat)

    assert kept.status_code == 200, kept.text
    assert kept.json()["kept"] == ["n-1", "n-2"]
    view = browser.get("/api/seat", headers=seat).json()
    assert view["notes"] == sent
    assert view["sequence"] == kept.json()["sequence"]


def test_only_notes_after_the_known_sequence_are_sent(browser, table):
    seat = sitting(browser, table)
    first = browser.post("/api/seat/notes", json={"notes": [note(table, 1)]}, headers=seat).json()
    browser.post("/api/seat/notes", json={"notes": [note(table, 2)]}, headers=seat)

    view = browser.get(f"/api/seat?after={first['sequence']}", headers=seat).json()

    assert [one["id"] for one in view["notes"]] == ["n-2"]


def test_nobody_reads_another_seats_notes(browser, table):
    ada, ben = sitting(browser, table), sitting(browser, table, "Ben")
    browser.post("/api/seat/notes", json={"notes": [note(table)]}, headers=ada)

    assert browser.get("/api/seat", headers=ben).json()["notes"] == []


def test_a_note_cannot_say_whose_it_is(browser, table):
    seat = sitting(browser, table)

    answer = browser.post("/api/seat/notes", json={"notes": [note(table, seat="id-9")]}, headers=seat)

    assert answer.status_code == 422
    assert '"notes.0.seat" in the request is not known here.' in answer.json()["detail"]


@pytest.mark.parametrize(
    ("value", "status"),
    [("plum", 200), (None, 200), (7, 422), ([1], 422), ({"l": 0.5, "a": 0, "b": 0}, 422), (True, 422)],
)
def test_a_value_must_fit_its_field(browser, table, value, status):
    seat = sitting(browser, table)

    answer = browser.post("/api/seat/notes", json={"notes": [note(table, value=value)]}, headers=seat)

    assert answer.status_code == status, answer.text


def test_of_several_notes_one_bad_one_keeps_none(browser, table):
    seat = sitting(browser, table)
    sent = [note(table, 1), note(table, 2, place="000")]

    assert browser.post("/api/seat/notes", json={"notes": sent}, headers=seat).status_code >= 400

    assert browser.get("/api/seat", headers=seat).json()["notes"] == []


def test_progress_says_how_far_and_never_what(browser, table):
    seat = sitting(browser, table)
    browser.post("/api/seat/notes", json={"notes": [note(table)]}, headers=seat)

    answer = browser.get(f"/api/tables/{table['id']}/progress")

    ada = answer.json()[0]
    assert ada["passes"][0] == {"pass": table["sheet"]["passes"][0]["id"], "done": 1, "all": 3}
    assert ada["last_seen"] is not None
    assert "plum" not in answer.text


def test_the_reveal_is_refused_to_a_taster_before_the_key_is_open(browser, table):
    answer = browser.get("/api/seat/reveal", headers=sitting(browser, table))

    assert answer.status_code == 409


def saved(table, *notes, seat="Ada"):
    """The form in which the desk sends a phone's file."""
    whose = next(one for one in table["seats"] if one["name"] == seat)
    data = {
        "cupwright_notes": 1,
        "table": {"id": table["id"], "name": table["name"]},
        "seat": {"id": whose["id"], "name": seat},
        "notes": list(notes),
    }
    return {"files": {"file": ("ada.json", json.dumps(data).encode())}}


def test_the_desk_takes_in_a_phones_file_and_its_phone_sees_it(browser, table):
    headers = sitting(browser, table)

    answer = browser.post(f"/api/tables/{table['id']}/notes-file", **saved(table, note(table)))

    assert answer.status_code == 200, answer.text
    assert answer.json() == {"seat_name": "Ada", "kept": 1, "new": 1, "late": False, "refused": []}
    assert [one["id"] for one in browser.get("/api/seat", headers=headers).json()["notes"]] == ["n-1"]


def test_after_the_reveal_the_phone_is_refused_and_its_file_is_taken_as_late(browser, table):
    headers = sitting(browser, table)
    browser.post(f"/api/tables/{table['id']}/reveal", json={})
    flavour = {"pass": "flavour", "field": "words"}
    late = note(table, **flavour)

    refused = browser.post("/api/seat/notes", json={"notes": [late]}, headers=headers)
    taken = browser.post(
        f"/api/tables/{table['id']}/notes-file", **saved(table, late, note(table, 2, place="x"))
    )

    assert refused.status_code == 409
    told = taken.json()
    assert (told["kept"], told["new"], told["late"]) == (1, 1, True)
    assert [one["number"] for one in told["refused"]] == [2]
    assert "no place 'x'" in told["refused"][0]["message"]
    (ada,) = [
        taster
        for coffee in browser.get("/api/seat/reveal", headers=headers).json()["coffees"]
        for taster in coffee["tasters"]
    ]
    assert (ada["written"], [one["text"] for one in ada["late"]]) == ([], ["plum"])
    analysed = browser.get(f"/api/tables/{table['id']}/analysis").json()
    assert analysed["late"] == {"answers": 1, "tasters": 1}
    assert [coffee["wrote"] for coffee in analysed["coffees"]] == [0, 0, 0]


def test_what_is_no_phones_file_of_this_table_is_refused_in_a_sentence(browser, table):
    address = f"/api/tables/{table['id']}/notes-file"
    other = {**table, "id": "another", "name": "Friday"}

    cut = browser.post(address, files={"file": ("ada.json", b'{"cupwright_notes":1,')})
    wrong = browser.post(address, **saved(other, note(table)))

    assert (cut.status_code, cut.json()["where"]["file"]) == (422, "ada.json")
    assert wrong.status_code == 422
    assert "belongs to the table 'Friday', not to this one" in wrong.json()["detail"]
