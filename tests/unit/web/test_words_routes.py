"""Words over the API: the lexicon, kin, own words, and a taster's corrections."""

import pytest

SODA = {"label": "quince soda", "parents": ["quince"], "forms": ["quince pop"]}


@pytest.fixture
def table(browser):
    """A sealed table of two coffees for Ada."""
    coffees = [browser.post("/api/coffees", json={"name": f"Lot {n}"}).json()["id"] for n in range(2)]
    plan = {"name": "Thursday", "coffees": coffees, "tasters": ["Ada"]}
    draft = browser.post("/api/tables", json=plan).json()
    return browser.post(f"/api/tables/{draft['id']}/seal", json={}).json()


@pytest.fixture
def seat(browser, table):
    """The headers of Ada's phone."""
    token = browser.post("/api/join", json={"code": table["join_code"], "name": "Ada"}).json()["token"]
    return {"Authorization": f"Bearer {token}"}


def correction(number=1, **other):
    return {
        "id": f"c-{number}",
        "surface": "grippy",
        "concept": "drying",
        "stamp": {"counter": number, "device": "d1"},
        "written_at": 1,
    } | other


# the lexicon


def test_every_concept_is_listed_by_label_with_its_family(browser):
    listed = browser.get("/api/words").json()

    assert len(listed) > 300
    assert [one["label"].casefold() for one in listed] == sorted(one["label"].casefold() for one in listed)
    (quince,) = [one for one in listed if one["id"] == "quince"]
    assert (quince["label"], quince["family"], quince["own"]) == ("quince", "fruit", False)
    assert "quince paste" in quince["forms"]


def test_a_concept_says_what_it_hangs_under_how_it_is_written_and_its_kin(browser):
    told = browser.get("/api/words/dark_chocolate").json()

    assert told["label"] == "dark chocolate"
    assert told["parents"] == [{"concept": "chocolate", "label": "chocolate"}]
    assert {"concept": "dark_chocolate", "label": "dark chocolate"} in browser.get(
        "/api/words/chocolate"
    ).json()["children"]
    assert "semisweet chocolate" in told["forms"]
    kinships = [kin["kinship"] for kin in told["kin"]]
    assert kinships == sorted(kinships, reverse=True)
    assert all(0 < kinship < 1 for kinship in kinships)
    assert all(kin["label"] in kin["why"].lower() for kin in told["kin"])


def test_a_concept_that_does_not_exist_is_not_found(browser):
    answer = browser.get("/api/words/xyzzy")

    assert answer.status_code == 404
    assert "xyzzy" in answer.json()["detail"]


def test_two_words_are_named_as_one_likes(browser):
    near = browser.get("/api/kin", params={"a": "Quinces", "b": "quince paste"}).json()
    far = browser.get("/api/kin", params={"a": "quince", "b": "smoke"}).json()

    assert near["a"] == [{"concept": "quince", "label": "quince"}]
    assert 0 <= far["kinship"] < near["kinship"] <= 1
    assert far["why"]


def test_a_phrase_of_several_words_is_held_against_another(browser):
    told = browser.get("/api/kin", params={"a": "quince jelly", "b": "poached quince"}).json()

    assert [one["concept"] for one in told["a"]] == ["quince", "fruit_jelly"]
    assert told["kinship"] > 0.75


@pytest.mark.parametrize("b", ["xyzzy", ""])
def test_kin_of_what_names_no_word_is_not_found(browser, b):
    assert browser.get("/api/kin", params={"a": "quince", "b": b}).status_code == 404


def test_the_map_holds_every_concept_and_a_small_one_a_word_with_its_kin(browser):
    whole = browser.get("/api/words/map").json()
    small = browser.get("/api/words/map", params={"around": "quince"}).json()

    assert len(whole["points"]) == len(browser.get("/api/words").json())
    assert small["points"][0]["id"] == "quince"
    assert 3 <= len(small["points"]) <= 25
    assert 0 < small["stress"] < 1
    assert browser.get("/api/words/map", params={"around": "xyzzy"}).status_code == 404


def test_texts_are_read_with_degree_denial_doubt_and_place(browser):
    notes = ["no acidity; very sweet, maybe plum", "🍋 sweeter than B", ""]

    first, second, third = browser.post("/api/read", json={"notes": notes}).json()

    assert first["text"] == notes[0]
    assert [(w["concept"], w["negated"], w["degree"], w["hedged"]) for w in first["words"]] == [
        ("acidity", True, "plain", False),
        ("sweet", False, "very", False),
        ("plum", False, "plain", True),
    ]
    assert [(w["start"], w["end"], w["comparison"], w["against"]) for w in second["words"]] == [
        (2, 9, "more", "B")
    ]
    assert third == {"text": "", "words": [], "unread": []}


def test_a_text_is_read_by_what_was_asked_for(browser):
    (told,) = browser.post("/api/read", json={"notes": ["orange"], "field": "colour"}).json()

    assert told["words"][0]["concept"] == "orange_colour"
    assert browser.post("/api/read", json={"notes": ["orange"], "field": "sound"}).status_code == 422


def test_two_texts_are_read_and_laid_side_by_side(browser):
    told = browser.post("/api/match", json={"mine": "plum, tobacco", "theirs": "plum. lemon"}).json()

    assert [word["label"] for word in told["mine"]["words"]] == ["plum", "tobacco"]
    assert [word["label"] for word in told["matched"]["shared"]] == ["plum"]


# own words


def test_an_own_word_is_added_listed_read_by_and_removed(browser):
    added = browser.post("/api/own-words", json=SODA)
    assert added.status_code == 201, added.text
    assert added.json()["concept"] == "quince_soda"

    assert browser.get("/api/own-words").json() == [added.json()]
    kin = browser.get("/api/kin", params={"a": "quince pop", "b": "quince"}).json()
    assert [one["label"] for one in kin["a"]] == ["quince soda"]
    own = [one for one in browser.get("/api/words").json() if one["own"]]
    assert [one["id"] for one in own] == ["quince_soda"]

    assert browser.delete(f"/api/own-words/{added.json()['id']}").status_code == 204
    assert browser.get("/api/own-words").json() == []


def test_one_more_form_of_a_concept_is_added(browser):
    added = browser.post("/api/own-words", json={"concept": "quince", "forms": ["membrillo paste"]})

    assert added.status_code == 201, added.text
    assert (added.json()["label"], added.json()["forms"]) == ("", ["membrillo paste"])


@pytest.mark.parametrize(
    ("body", "status", "says"),
    [
        ({"label": "Quince", "parents": ["fruit"]}, 409, "'quince' already"),
        ({"concept": "plum", "forms": ["quince"]}, 409, "'quince' already"),
        ({"label": "soda", "parents": ["xyzzy"]}, 422, "'xyzzy', which is no concept"),
        ({"label": "quince soda"}, 422, "hangs under nothing"),
        ({}, 422, "needs a label"),
        ({"concept": "plum", "forms": []}, 422, "one form"),
        ({"concept": "plum", "forms": ["not"]}, 422, "carry no taste"),
        ({"concept": "plum", "forms": ["<b>\x00"]}, 422, "no note can be read by"),
        ({"label": "x", "parents": ["fruit"], "colour": "red"}, 422, "colour"),
    ],
)
def test_an_own_word_that_does_not_fit_is_refused_in_a_sentence(browser, body, status, says):
    answer = browser.post("/api/own-words", json=body)

    assert answer.status_code == status
    assert says in answer.json()["detail"]
    assert browser.get("/api/own-words").json() == []


def test_own_words_go_out_and_come_in_as_a_file(browser):
    added = browser.post("/api/own-words", json=SODA).json()

    file = browser.get("/api/own-words/file")
    assert file.headers["content-type"].startswith("application/toml")
    browser.delete(f"/api/own-words/{added['id']}")
    first = browser.post("/api/own-words/import", json={"text": file.text})
    second = browser.post("/api/own-words/import", json={"text": file.text})

    assert first.json() == {"added": 1, "known": 0}
    assert second.json() == {"added": 0, "known": 1}


# a taster's side


def test_a_phone_gets_the_own_words_and_its_tasters_corrections_with_the_whole_view(browser, seat):
    browser.post("/api/own-words", json=SODA)
    kept = browser.post("/api/seat/corrections", json={"corrections": [correction()]}, headers=seat)
    assert kept.status_code == 200, kept.text
    assert kept.json() == {"kept": ["c-1"]}

    whole = browser.get("/api/seat", headers=seat).json()["words"]
    rest = browser.get("/api/seat?after=1", headers=seat).json()["words"]

    assert whole == {"own": [{"concept": "quince_soda"} | SODA], "corrections": [correction()]}
    assert rest is None


def test_the_same_correction_again_does_no_harm_and_another_under_its_id_is_refused(browser, seat):
    for _ in range(2):
        browser.post("/api/seat/corrections", json={"corrections": [correction()]}, headers=seat)

    other = browser.post(
        "/api/seat/corrections", json={"corrections": [correction(concept=None)]}, headers=seat
    )

    assert other.status_code == 409
    assert len(browser.get("/api/seat", headers=seat).json()["words"]["corrections"]) == 1


@pytest.mark.parametrize(
    "wrong", [{"surface": ""}, {"concept": "Not an id"}, {"stamp": {"counter": 0, "device": "d"}}]
)
def test_a_malformed_correction_is_refused(browser, seat, wrong):
    answer = browser.post("/api/seat/corrections", json={"corrections": [correction(**wrong)]}, headers=seat)

    assert answer.status_code == 422


def test_corrections_need_a_seat_and_words_the_desk(browser, open_house):
    assert browser.post("/api/seat/corrections", json={"corrections": []}).status_code == 401
    outside = open_house(lan=True, word_hash="x")
    for path in ("/api/words", "/api/words/quince", "/api/kin?a=plum&b=fig", "/api/own-words"):
        assert outside.get(path).status_code == 401, path
