"""A whole table over the API of a real server: shelf, plan, seal, seats, notes, clock, key, report."""

import hashlib
import itertools
import json
import time
from collections.abc import Iterator

import httpx2
import pytest

COFFEES = (
    {"name": "Hill lot 7", "published_notes": "plum, cocoa, orange", "grams_left": 250},
    {"name": "River lot 2", "published_notes": "lemon, black tea", "grams_left": 30},
    {"name": "Ridge lot 5", "published_notes": "caramel, hazelnut"},
)
WORDS = ("plum and dark chocolate", "lemon, sharp", "caramel, nuts")


class Taster:
    """A phone: its seat, its token, its own counter."""

    def __init__(self, client: httpx2.Client, code: str, name: str) -> None:
        taken = client.post("/api/join", json={"code": code, "name": name})
        assert taken.status_code == 201, taken.text
        self.client = client
        self.seat, self.table = taken.json()["seat"], taken.json()["table"]
        self.headers = {"Authorization": f"Bearer {taken.json()['token']}"}
        self.numbers = itertools.count(1)

    def note(self, place: str, part: str, field: str, value: object) -> dict[str, object]:
        number = next(self.numbers)
        return {
            "id": f"{self.seat['id']}-{number}",
            "place": place,
            "pass": part,
            "field": field,
            "value": value,
            "stamp": {"counter": number, "device": self.seat["id"]},
            "written_at": int(time.time() * 1000),
        }

    def write(self, *notes: dict[str, object]) -> httpx2.Response:
        return self.client.post("/api/seat/notes", json={"notes": list(notes)}, headers=self.headers)

    def look(self) -> dict[str, object]:
        return self.client.get("/api/seat", headers=self.headers).json()


def ok(response: httpx2.Response, status: int = 200) -> dict:
    assert response.status_code == status, response.text
    return response.json()


tables = (f"Table {number}" for number in itertools.count(1))


def planned(desk: httpx2.Client, **other: object) -> dict:
    """A planned table of three coffees, two bowls each, for Ada."""
    shelf = {coffee["name"]: coffee["id"] for coffee in ok(desk.get("/api/coffees"))}
    for coffee in COFFEES:
        if coffee["name"] not in shelf:
            shelf[coffee["name"]] = ok(desk.post("/api/coffees", json=coffee), 201)["id"]
    ids = [shelf[coffee["name"]] for coffee in COFFEES]
    plan = {"name": next(tables), "coffees": ids, "tasters": ["Ada"], "bowls_per_sample": 2}
    return ok(desk.post("/api/tables", json=plan | other), 201)


def sealed_table(desk: httpx2.Client, **other: object) -> dict:
    """The same, sealed."""
    return ok(desk.post(f"/api/tables/{planned(desk, **other)['id']}/seal", json={}))


@pytest.fixture(scope="module")
def desk(shared_server) -> Iterator[httpx2.Client]:
    """The desk of a server that all tests of this file use."""
    with shared_server.client() as client:
        yield client


@pytest.fixture
def draft(desk):
    return planned(desk)


@pytest.fixture
def sealed(desk):
    return sealed_table(desk)


def test_the_brief_gives_grams_water_kettle_and_order_of_work(desk, draft):
    """Dose by [SCAA-standards]: 0.055 g/mL, so 11 g in 200 mL."""
    brief = ok(desk.get(f"/api/tables/{draft['id']}/brief"))

    assert brief["recipe"]["dose_g"] == 11.0
    assert brief["recipe"]["total_coffee_g"] == pytest.approx(3 * (2 * 11.0 + 5.0))
    assert brief["recipe"]["kettle_c"] == 95.0
    assert brief["recipe"]["kettle_f"] == pytest.approx(203.0)
    assert brief["recipe"]["water_to_heat_ml"] > 6 * 200
    assert len(brief["tasks"]) >= 6
    assert any("cald" in task["caution"] for task in brief["tasks"])


def test_a_preview_says_the_same_as_the_brief_and_keeps_nothing(desk, draft):
    plan = draft["plan"] | {"name": "Another"}

    preview = ok(desk.post("/api/tables/preview", json=plan))

    assert preview["recipe"] == ok(desk.get(f"/api/tables/{draft['id']}/brief"))["recipe"]
    assert "Another" not in [table["name"] for table in ok(desk.get("/api/tables"))]


def test_a_draft_may_change_and_a_sealed_table_may_not(desk, draft):
    plan = draft["plan"] | {"bowls_per_sample": 3}
    assert len(ok(desk.put(f"/api/tables/{draft['id']}", json=plan))["bowls"]) == 9

    desk.post(f"/api/tables/{draft['id']}/seal", json={})

    refused = desk.put(f"/api/tables/{draft['id']}", json=plan)
    assert refused.status_code == 409
    assert "change the plan" in refused.json()["detail"]


def test_what_is_printed_is_paper(desk, sealed):
    papers = ("labels.pdf", "labels.pdf?size=letter", "paper.pdf?size=a4", "paper.pdf?size=letter")
    for path in (*papers, "pour-list.pdf", "pour-list.pdf?size=letter"):
        answer = desk.get(f"/api/tables/{sealed['id']}/{path}")
        assert answer.status_code == 200, answer.text
        assert answer.headers["content-type"] == "application/pdf"
        assert answer.content.startswith(b"%PDF-")


def test_the_way_in_is_a_code_an_address_and_a_picture_of_it(desk, sealed, shared_server):
    way = ok(desk.get(f"/api/tables/{sealed['id']}/join"))

    assert way["url"] == f"{shared_server.url}/#/join/{way['code']}"
    assert way["qr_svg"].startswith("<svg")
    assert "<script" not in way["qr_svg"]


class Story:
    """One table on its way; each act leaves what the next needs."""

    def __init__(self, desk, server, sealed):
        self.desk, self.server, self.sealed = desk, server, sealed
        self.table = f"/api/tables/{sealed['id']}"
        self.places = sealed["places"]
        self.phone = server.client()
        self.ada = Taster(self.phone, sealed["join_code"], "ada")
        self.ben = Taster(self.phone, sealed["join_code"], "Ben")
        self.true = {line["code"]: line["coffee"]["name"] for line in ok(desk.get(f"{self.table}/pour-list"))}

    def smell(self):
        for taster in (self.ada, self.ben):
            written = [taster.note(p, "fragrance", "words", "sweet") for p in taster.seat["order"]]
            assert ok(taster.write(*written))["kept"] == [note["id"] for note in written]

    def start_clock(self):
        assert ok(self.desk.post(f"{self.table}/clock", json={}))["step"] == "taste"
        return ok(self.desk.post(f"{self.table}/pours", json={"bowl": 0}))

    def taste(self, between=lambda: None):
        """Ada corrects every note, and sends the last twice; something may happen in between."""
        flavour = {coffee["name"]: words for coffee, words in zip(COFFEES, WORDS, strict=True)}
        better = {p: self.ada.note(p, "flavour", "words", flavour[self.true[p]]) for p in self.places}
        for place in self.places:
            hasty = self.ada.note(place, "flavour", "words", "hm") | {"stamp": {"counter": 1, "device": "d"}}
            ok(self.ada.write(better[place], hasty))
        between()
        again = better[self.places[-1]]
        assert ok(self.ada.write(again))["kept"] == [again["id"]]
        for place in self.places:
            ok(self.ben.write(self.ben.note(place, "flavour", "words", flavour[self.true[place]] + ", tea")))
            for number, taster in enumerate((self.ada, self.ben)):
                liking = 40 + 10 * number + len(self.true[place])
                ok(taster.write(taster.note(place, "verdict", "liking", liking)))

    def open_key(self):
        assert ok(self.desk.post(f"{self.table}/reveal", json={"placings": None}))["step"] == "reveal"
        return ok(self.desk.get(f"{self.table}/reveal"))


@pytest.fixture
def story(desk, shared_server, sealed):
    story = Story(desk, shared_server, sealed)
    yield story
    story.phone.close()


@pytest.fixture(scope="module")
def revealed(desk, shared_server):
    """The story up to the open key, and the desk's comparison."""
    story = Story(desk, shared_server, sealed_table(desk))
    story.smell()
    story.start_clock()
    story.taste()
    yield story, story.open_key()
    story.phone.close()


def test_a_planned_taster_finds_the_planned_seat_and_every_place_once(story):
    assert story.ada.seat["name"] == "Ada"
    assert sorted(story.ada.seat["order"]) == sorted(story.ben.seat["order"]) == story.places


def test_the_clock_gives_the_same_cues_to_desk_and_phone(story):
    """Break at 4:00 after a bowl's own pour: common practice, [SCAA-cupping-2009]."""
    sheet = story.start_clock()

    assert [cue["kind"] for cue in sheet["cues"]].count("pour") == 6
    due = {(cue["kind"], cue["bowl"]): cue["due"] for cue in sheet["cues"]}
    assert due["break", 0] - due["pour", 0] == 240_000
    assert story.ada.look()["table"]["cues"] == sheet["cues"]


def test_progress_counts_places_by_pass(story):
    story.smell()
    ok(story.ada.write(story.ada.note(story.places[0], "colour", "colour", {"l": 0.6, "a": 0.1, "b": -0.05})))

    progress = {seat["name"]: seat["passes"] for seat in ok(story.desk.get(f"{story.table}/progress"))}

    done = {one["pass"]: (one["done"], one["all"]) for one in progress["Ada"]}
    assert (done["fragrance"], done["colour"], done["finish"]) == ((3, 3), (1, 3), (0, 3))


def test_nothing_is_revealed_before_the_key_is_open_and_nothing_written_after(story):
    for path in ("reveal", "analysis", "questions", "report.json", "report.pdf", "figures/liking.svg"):
        assert story.desk.get(f"{story.table}/{path}").status_code == 409
    for path in ("reveal", "own"):
        assert story.phone.get(f"/api/seat/{path}", headers=story.ada.headers).status_code == 409

    story.open_key()

    late = story.ada.write(story.ada.note(story.places[0], "finish", "words", "long"))
    assert late.status_code == 409
    assert late.json()["detail"].endswith("plan a new table.")


def test_the_whole_table_up_to_words_side_by_side(revealed):
    story, compared = revealed

    places = {c["coffee"]["name"]: c["places"] for c in compared["coffees"]}
    assert places == {name: [place] for place, name in story.true.items()}
    hill = next(c for c in compared["coffees"] if c["coffee"]["name"] == "Hill lot 7")
    ada, ben = hill["tasters"]
    assert (ada["name"], ben["name"]) == ("Ada", "Ben")
    assert [one["text"] for one in ada["written"]] == ["sweet", "plum and dark chocolate"]
    assert "plum" in {word["label"] for word in ada["published"]["shared"]}


def test_a_taster_sees_the_own_words_first_and_nothing_of_the_shelf(revealed):
    story, _ = revealed

    own = ok(story.phone.get("/api/seat/reveal", headers=story.ben.headers))

    assert [taster["name"] for taster in own["coffees"][0]["tasters"]] == ["Ben", "Ada"]
    assert "grams_left" not in json.dumps(own)


def test_anybody_can_compute_the_seal_again(revealed):
    story, compared = revealed
    body = {"nonce": compared["key"]["nonce"], "pairs": compared["key"]["pairs"], "seal": 1}
    text = json.dumps(body, sort_keys=True, separators=(",", ":"), ensure_ascii=False)

    digest = hashlib.sha256(text.encode()).hexdigest()

    assert digest == story.sealed["commitment"] == compared["commitment"]


def test_analysis_report_and_diary_tell_of_the_same_table(revealed):
    story, _ = revealed
    analysis = ok(story.desk.get(f"{story.table}/analysis"))
    liking = next(scale for scale in analysis["scales"] if scale["liking"])
    means = dict(zip((c["name"] for c in analysis["coffees"]), liking["means"], strict=True))
    assert means["Hill lot 7"]["mean"]["estimate"] == pytest.approx(45 + len("Hill lot 7"))

    for form, start in (("pdf", b"%pdf-"), ("html", b"<!doctype html>"), ("json", b"{")):
        report = story.desk.get(f"{story.table}/report.{form}")
        assert report.status_code == 200
        assert report.content.lower().startswith(start)
    assert "Hill lot 7" in story.desk.get(f"{story.table}/report.html").text

    names = [
        b["name"]
        for b in ok(story.desk.get(f"{story.table}/report.json"))["blocks"]
        if b["block"] == "figure"
    ]
    assert len(set(names)) == len(names)
    for name in names:
        assert story.desk.get(f"{story.table}/figures/{name}.svg").text.startswith("<svg")
    asked = [
        b["text"] for b in ok(story.desk.get(f"{story.table}/questions"))["blocks"] if b["block"] == "heading"
    ]
    assert "Which coffee stands highest, and by how much?" in asked
    own = ok(story.phone.get("/api/seat/own", headers=story.ada.headers))["blocks"]
    assert own[0]["text"] == "Your own tasting"
    assert "Ben" not in str(own)

    kinds = [event["kind"] for event in ok(story.desk.get(f"{story.table}/events"))]
    assert kinds[:2] == ["planned", "sealed"]
    assert "pour list seen" in kinds
    assert kinds[-1] == "key opened"


def test_alone_the_bowls_are_shuffled_and_the_codes_are_read_at_the_end(desk):
    sealed = sealed_table(desk, blinding="shuffle", bowls_per_sample=1)
    table = f"/api/tables/{sealed['id']}"
    assert sealed["places"] == ["1", "2", "3"]
    taken = ok(desk.post(f"{table}/seats", json={"name": "Ada"}), 201)
    assert not set(sealed["codes"]) & set(json.dumps(taken["table"]["places"]).split('"'))
    shuffled = dict(zip(sealed["places"], reversed(sealed["codes"]), strict=True))

    incomplete = desk.post(f"{table}/reveal", json={"placings": dict(list(shuffled.items())[:2])})
    assert incomplete.status_code == 422
    assert ok(desk.get(table))["step"] == "pour"

    ok(desk.post(f"{table}/reveal", json={"placings": shuffled}))

    true = {line["code"]: line["coffee"]["name"] for line in ok(desk.get(f"{table}/pour-list"))}
    compared = ok(desk.get(f"{table}/reveal"))
    assert {c["places"][0]: c["coffee"]["name"] for c in compared["coffees"]} == {
        place: true[code] for place, code in shuffled.items()
    }


def test_a_file_of_coffees_is_taken_whole_or_not_at_all(desk):
    before = ok(desk.get("/api/coffees"))
    bad = b"name,grams_left\nValley lot 9,250\n,100\nMoor lot 1,-3\n"

    refused = ok(desk.post("/api/coffees/import", files={"file": ("shelf.csv", bad)}))

    assert refused["added"] == []
    assert [(line["line"], line["column"]) for line in refused["refused"]] == [(3, "name"), (4, "grams_left")]
    assert ok(desk.get("/api/coffees")) == before

    taken = ok(desk.post("/api/coffees/import", json={"text": "name,notes\nValley lot 9,plum\n"}))
    assert taken["added"][0]["published_notes"] == "plum"


def stream(client: httpx2.Client, table: str) -> Iterator[dict]:
    with client.stream("GET", f"/api/live?table={table}") as answer:
        for line in answer.iter_lines():
            if line.startswith("data:"):
                yield json.loads(line[5:])


def test_the_desk_hears_of_a_note_at_once(desk, sealed, shared_server):
    with shared_server.client() as ear, shared_server.client() as phone:
        heard = stream(ear, sealed["id"])
        assert next(heard) == {"table": sealed["id"], "kind": "hello"}

        ada = Taster(phone, sealed["join_code"], "Ada")
        ok(ada.write(ada.note(sealed["places"][0], "fragrance", "words", "sweet")))

        news = next(heard)
        while news["kind"] != "notes":
            news = next(heard)
        assert news == {"table": sealed["id"], "kind": "notes"}
        heard.close()


def test_a_server_with_an_open_stream_stops_soon_and_says_done(server):
    with server.client() as ear:
        heard = stream(ear, "none")
        next(heard)

        began = time.monotonic()
        code = server.stop()

        assert code == 0
        # one second for the stream, the rest for a busy machine; without a limit it would never end
        assert time.monotonic() - began < 20


def test_a_table_goes_on_through_a_stop_and_a_kill_and_loses_nothing_acknowledged(server):
    with server.client() as desk:
        story = Story(desk, server, sealed_table(desk))
        story.smell()
        server.kill()
        server.start()
        sheet = story.start_clock()

        story.taste(between=lambda: (server.stop(), server.start()))

        assert len(story.ada.look()["notes"]) == 3 + 6 + 3
        assert story.ada.look()["table"]["cues"] == sheet["cues"]
        hill = next(c for c in story.open_key()["coffees"] if c["coffee"]["name"] == "Hill lot 7")
        assert [one["text"] for one in hill["tasters"][0]["written"]] == ["sweet", "plum and dark chocolate"]
        story.phone.close()
