"""Words of one's own at a real server: added at the desk, sent to phones, corrected there, revealed."""

from collections.abc import Iterator

import httpx2
import pytest
from tests.flow.test_api_story import Taster, ok, planned

from cupwright.core.words.lexicon import load_lexicon

COFFEES = {"Gorse lot": "gorse nectar", "Clay lot": "flowerbed zonk", "Rope lot": "tobacco"}
OWN = (
    {"label": "gorse nectar", "parents": ["honey"], "forms": ["gorsey"]},
    {"concept": "earth", "forms": ["flowerbed zonk"]},
)

EARTH = load_lexicon()["earth"].label


@pytest.fixture(scope="module")
def desk(shared_server) -> Iterator[httpx2.Client]:
    with shared_server.client() as client:
        yield client


@pytest.fixture
def table(desk) -> Iterator[dict]:
    """A sealed table of three coffees whose bags speak in words of this house; its words go afterwards."""
    added = [ok(desk.post("/api/own-words", json=word), 201)["id"] for word in OWN]
    names = {c["name"]: c["id"] for c in ok(desk.get("/api/coffees"))}
    for name, words in COFFEES.items():
        if name not in names:
            coffee = {"name": name, "published_notes": words}
            names[name] = ok(desk.post("/api/coffees", json=coffee), 201)["id"]
    draft = planned(desk, coffees=[names[name] for name in COFFEES], tasters=["Ada", "Ben"])
    yield ok(desk.post(f"/api/tables/{draft['id']}/seal", json={}))
    for word in added:
        desk.delete(f"/api/own-words/{word}")


def corrected(surface: str, concept: str | None, number: int) -> dict[str, object]:
    stamp = {"counter": 100 + number, "device": "phone"}
    return {"surface": surface, "concept": concept, "stamp": stamp, "written_at": 1}


def told(desk: httpx2.Client, table: dict) -> dict[str, dict[str, list[str]]]:
    """Coffee -> what Ada's words and the bag's share, and what is hers alone, as labels."""
    compared = ok(desk.get(f"/api/tables/{table['id']}/reveal"))
    found = {}
    for coffee in compared["coffees"]:
        (ada,) = [taster["published"] for taster in coffee["tasters"] if taster["name"] == "Ada"]
        found[coffee["coffee"]["name"]] = {
            kind: [one["label"] for one in ada[kind]] for kind in ("shared", "own", "missed")
        }
    return found


def test_own_words_and_corrections_are_what_the_reveal_reads_by(desk, table, shared_server):
    stands = {
        line["code"]: line["coffee"]["name"] for line in ok(desk.get(f"/api/tables/{table['id']}/pour-list"))
    }
    says = {"Gorse lot": "so gorsey", "Clay lot": "flowerpot", "Rope lot": "zonky"}
    with shared_server.client() as phone:
        ada, ben = Taster(phone, table["join_code"], "Ada"), Taster(phone, table["join_code"], "Ben")
        for taster in (ada, ben):
            ok(
                taster.write(
                    *(taster.note(place, "flavour", "words", says[stands[place]]) for place in stands)
                )
            )

        # The phone knows the house's words, and its taster says what two more of hers mean.
        words = taster.look()["words"]
        assert {"concept": "gorse_nectar"} | OWN[0] in words["own"]
        said = [
            corrected("Flowerpot", "earth", 1) | {"id": f"{ada.seat['id']}-c1"},
            corrected("zonky", "none", 2) | {"id": f"{ada.seat['id']}-c2"},
        ]
        kept = phone.post("/api/seat/corrections", json={"corrections": said}, headers=ada.headers)
        assert ok(kept)["kept"] == [one["id"] for one in said]
        assert ada.look()["words"]["corrections"] == said
        assert ben.look()["words"]["corrections"] == []

        ok(desk.post(f"/api/tables/{table['id']}/reveal", json={"placings": None}))

        # What she says only now counts from the next table on.
        late = corrected("zonky", "earth", 3) | {"id": f"{ada.seat['id']}-c3"}
        ok(phone.post("/api/seat/corrections", json={"corrections": [late]}, headers=ada.headers))

    found = told(desk, table)
    assert found["Gorse lot"] == {"shared": ["gorse nectar"], "own": [], "missed": []}
    assert found["Clay lot"]["shared"] == [EARTH]
    compared = ok(desk.get(f"/api/tables/{table['id']}/reveal"))
    (clay,) = [one for one in compared["coffees"] if one["coffee"]["name"] == "Clay lot"]
    readings = {
        t["name"]: [w["label"] for one in t["written"] for w in one["reading"]["words"]]
        for t in clay["tasters"]
    }
    assert readings["Ada"] == [EARTH]
    assert readings["Ben"] == []
    report = desk.get(f"/api/tables/{table['id']}/report.json").text
    assert "2 words of this house's own stood in the list." in report
    assert "The notes of 1 taster were read by corrections of their own." in report


def test_the_reveal_says_whether_notes_pick_out_the_coffees_to_the_desk_of_all_and_to_a_taster_of_hers(
    desk, table, shared_server
):
    bags = {line["code"]: line["coffee"] for line in ok(desk.get(f"/api/tables/{table['id']}/pour-list"))}
    with shared_server.client() as phone:
        ada, ben = Taster(phone, table["join_code"], "Ada"), Taster(phone, table["join_code"], "Ben")
        for taster in (ada, ben):
            notes = [
                taster.note(place, "flavour", "words", coffee["published_notes"])
                for place, coffee in bags.items()
                if coffee["name"] != "Rope lot"
            ]
            ok(taster.write(*notes))
        ok(desk.post(f"/api/tables/{table['id']}/reveal", json={"placings": None}))
        mine = ok(phone.get("/api/seat/reveal", headers=ada.headers))["fits"]

    everybodys = ok(desk.get(f"/api/tables/{table['id']}/reveal"))["fits"]

    assert [fit["seat"] for fit in mine] == [ada.seat["id"]]
    assert mine[0]["published"]["sentence"].startswith("Your notes pick out the two coffees")
    assert mine[0]["published"]["sentence"].endswith("Left out, for want of words to compare: Rope lot.")
    assert (mine[0]["others"]["worse"], mine[0]["others"]["ways"]) == (1, 2)
    assert [fit["published"]["sentence"].split(" pick")[0] for fit in everybodys] == [
        "Ada's notes",
        "Ben's notes",
    ]
