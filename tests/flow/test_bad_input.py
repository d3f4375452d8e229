"""Bad input over the API: one clear sentence, where and what to do; nothing half-written, no trace."""

import io
import itertools
import zipfile
from collections.abc import Callable
from dataclasses import dataclass

import httpx2
import pytest

NUMBERS = itertools.count(1)
COFFEES = [f"Coffee {number}" for number in range(3)]


def ok(response: httpx2.Response) -> dict:
    assert response.status_code < 300, response.text
    return response.json()


@dataclass
class House:
    """A server's desk with three coffees, a draft, a sealed and a revealed table."""

    desk: httpx2.Client
    coffees: list[str]
    draft: dict
    sealed: dict
    revealed: dict
    seat: dict[str, str]

    def plan(self, **other: object) -> dict:
        return {"name": f"Plan {next(NUMBERS)}", "coffees": self.coffees} | other

    def note(self, **other: object) -> dict:
        return {
            "id": f"note-{next(NUMBERS)}",
            "place": self.sealed["places"][0],
            "pass": "flavour",
            "field": "words",
            "value": "plum",
            "stamp": {"counter": 1, "device": "d"},
            "written_at": 1,
        } | other

    def everything(self) -> list[str]:
        """All that the server keeps, as far as the API shows it."""
        tables = self.desk.get("/api/tables").text
        each = [
            self.desk.get(f"/api/tables/{t['id']}").text for t in (self.draft, self.sealed, self.revealed)
        ]
        notes = self.desk.get("/api/seat", headers=self.seat).json()["notes"]
        return [self.desk.get("/api/coffees").text, tables, *each, str(notes)]


@pytest.fixture(scope="module")
def house(shared_server):
    desk = shared_server.client()
    coffees = [ok(desk.post("/api/coffees", json={"name": name}))["id"] for name in COFFEES]

    def table(name: str) -> dict:
        return ok(desk.post("/api/tables", json={"name": name, "coffees": coffees, "tasters": ["Ada"]}))

    draft, sealed, revealed = table("Draft"), table("Sealed"), table("Revealed")
    for one in (sealed, revealed):
        ok(desk.post(f"/api/tables/{one['id']}/seal", json={}))
    taken = ok(desk.post(f"/api/tables/{sealed['id']}/seats", json={"name": "Ada"}))
    gone = ok(desk.post(f"/api/tables/{revealed['id']}/seats", json={"name": "Ada"}))
    ok(desk.post(f"/api/tables/{revealed['id']}/reveal", json={}))
    sealed = ok(desk.get(f"/api/tables/{sealed['id']}"))
    revealed = ok(desk.get(f"/api/tables/{revealed['id']}")) | {"token": gone["token"]}
    yield House(desk, coffees, draft, sealed, revealed, {"Authorization": f"Bearer {taken['token']}"})
    desk.close()


def bomb() -> bytes:
    """A small XLSX whose sheet unpacks to 200 MB."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as file:
        file.writestr("xl/worksheets/sheet1.xml", b" " * 200_000_000)
    return out.getvalue()


def posted(path: str, body: Callable[[House], object]) -> Callable[[House], httpx2.Response]:
    return lambda house: house.desk.post(path, json=body(house))


def planned(**other: object) -> Callable[[House], httpx2.Response]:
    return lambda house: house.desk.post("/api/tables", json=house.plan(**other))


def noted(**other: object) -> Callable[[House], httpx2.Response]:
    return lambda house: house.desk.post(
        "/api/seat/notes", json={"notes": [house.note(), house.note(**other)]}, headers=house.seat
    )


def uploaded(data: bytes, name: str) -> Callable[[House], httpx2.Response]:
    return lambda house: house.desk.post("/api/coffees/import", files={"file": (name, data)})


def revealed_again(house: House) -> httpx2.Response:
    headers = {"Authorization": f"Bearer {house.revealed['token']}"}
    return house.desk.post("/api/seat/notes", json={"notes": [house.note()]}, headers=headers)


# what is wrong -> (how it is sent, status, how the sentence begins, a piece of what to do)
API = {
    "a coffee of that name": (
        posted("/api/coffees", lambda _: {"name": "COFFEE 1"}),
        409,
        "A coffee",
        "name",
    ),
    "a coffee without a name": (
        posted("/api/coffees", lambda _: {"name": " "}),
        422,
        "column name: The coffee has no name.",
        "name",
    ),
    "negative grams": (
        posted("/api/coffees", lambda _: {"name": "New", "grams_left": -1}),
        422,
        "column grams_left: -1 grams",
        "0 or more",
    ),
    "a name without end": (
        posted("/api/coffees", lambda _: {"name": "x" * 201}),
        422,
        "column name: The coffee has a name of 201 characters",
        "Shorten",
    ),
    "a table of that name": (planned(name="draft"), 409, "There is a table 'Draft' already.", "name"),
    "two tasters of one name": (planned(tasters=["Ada", "ada"]), 422, "Two tasters are called", "initial"),
    "0 bowls": (planned(bowls_per_sample=0), 422, "The plan has 0 bowls per sample.", "at least 1"),
    "minus 3 bowls": (planned(bowls_per_sample=-3), 422, "The plan has -3 bowls per sample.", "at least 1"),
    "500 coffees": (
        planned(coffees=[f"c{n}" for n in range(500)]),
        422,
        "The plan has 500 coffees; a table takes at most 40.",
        "several tables",
    ),
    "100,000 coffees": (
        planned(coffees=[f"c{n}" for n in range(100_000)]),
        422,
        '"coffees" in the request has more than',
        "Correct it",
    ),
    "no coffee": (planned(coffees=[]), 422, "The plan has no coffee.", "at least one"),
    "a coffee nobody has": (
        planned(coffees=["nobody"]),
        404,
        "There is no such coffee on the shelf.",
        "Reload",
    ),
    "1 mL in a bowl": (planned(bowl_ml=1), 422, "The water in a bowl is 1 mL", "50 to 1000 mL"),
    "a misspelt sheet": (planned(sheet="opne"), 404, "There is no sheet called 'opne'.", "Choose one of: "),
    "a misspelt key": (planned(bowels=3), 422, '"bowels" in the request is not known here.', "Correct it"),
    "a draft that is revealed": (
        lambda house: house.desk.post(f"/api/tables/{house.draft['id']}/reveal", json={}),
        409,
        "A table at the step 'plan' cannot go to 'reveal'.",
        "Seal",
    ),
    "a table nobody has": (
        lambda house: house.desk.get("/api/tables/nobody"),
        404,
        "There is no such table.",
        "Look at the list of tables.",
    ),
    "a note for an unknown seat": (
        lambda house: house.desk.post(
            "/api/seat/notes", json={"notes": [house.note()]}, headers={"Authorization": "Bearer nobody"}
        ),
        401,
        "This device holds no seat.",
        "Join again",
    ),
    "an unknown seat freed": (
        lambda house: house.desk.delete(f"/api/tables/{house.sealed['id']}/seats/nobody/token"),
        404,
        "There is no such seat",
        "Join",
    ),
    "a note for an unknown place": (noted(place="000"), 404, "There is no place '000'", "Its places are"),
    "a note for an unknown question": (noted(field="shape"), 404, "The pass 'flavour'", "Its fields are"),
    "a note of the wrong kind": (
        noted(value=3),
        422,
        "The answer does not fit the field",
        "It takes a text.",
    ),
    "a note of 5,000 letters": (noted(value="x" * 5000), 422, "The text for the field", "at most 4000"),
    "a note written to a revealed table": (revealed_again, 409, "You cannot write notes", "plan a new table"),
    "a revealed table planned again": (
        lambda house: house.desk.put(f"/api/tables/{house.revealed['id']}", json=house.plan()),
        409,
        "You cannot change the plan while the table is at the step 'reveal'.",
        "plan a new table",
    ),
    "a revealed table removed without its name": (
        lambda house: house.desk.delete(f"/api/tables/{house.revealed['id']}"),
        422,
        "The table 'Revealed' is sealed",
        "Repeat",
    ),
    "a file of nothing": (uploaded(b"", "shelf.csv"), 422, "shelf.csv: The file has nothing in it.", ""),
    "a file without the column": (uploaded(b"title\nA\n", "shelf.csv"), 422, "shelf.csv, line 1: ", "column"),
    "a file in another encoding": (
        uploaded("name\nCafé\n".encode("utf-16-le")[:-1], "shelf.csv"),
        422,
        "shelf.csv",
        "UTF-8",
    ),
    "a file that is a picture": (
        uploaded(b"\x89PNG\r\n\x1a\n" + bytes(100), "shelf.csv"),
        422,
        "shelf.csv, line 3: There are bytes here that are no text",
        "UTF-8",
    ),
    "a broken workbook": (
        uploaded(b"PK\x03\x04" + b"x" * 100, "shelf.xlsx"),
        422,
        "shelf.xlsx: This XLSX file is damaged.",
        "Save",
    ),
    "a workbook that is a bomb": (
        uploaded(bomb(), "shelf.xlsx"),
        413,
        "shelf.xlsx: Unpacked, this file would have",
        "Save only",
    ),
    "a file with a line too long": (
        uploaded(b"name\nA,B\n", "shelf.csv"),
        422,
        "shelf.csv, line 2: ",
        "quotes",
    ),
    "a form without a file": (
        lambda house: house.desk.post("/api/coffees/import", files={"other": ("a.csv", b"name\nA\n")}),
        422,
        "The form holds no file called 'file'.",
        "Choose",
    ),
    "a body that is huge": (
        posted("/api/coffees", lambda _: {"name": "x" * 3_000_000}),
        413,
        "The request is larger than the 2 MB",
        "smaller parts",
    ),
}


@pytest.mark.parametrize("fault", API)
def test_the_api_refuses_it_in_one_sentence_and_keeps_nothing(house, fault):
    send, status, beginning, todo = API[fault]
    before = house.everything()

    answer = send(house)

    assert answer.status_code == status, answer.text
    assert answer.headers["content-type"] == "application/problem+json"
    problem = answer.json()
    assert problem["detail"].startswith(beginning)
    assert todo in problem["todo"]
    assert problem["detail"].endswith(problem["todo"])
    assert "\n" not in problem["detail"]
    assert "Traceback" not in answer.text
    assert len(problem["detail"]) < 400
    assert house.everything() == before


def test_a_file_of_which_one_line_is_bad_is_refused_whole_with_the_places(house):
    before = house.everything()
    data = b"name,grams left,roast date\nCoffee 0,1,\nNew,-1,\nNewer,1,soon\n"

    answer = ok(house.desk.post("/api/coffees/import", files={"file": ("shelf.csv", data)}))

    places = [(line["line"], line["column"]) for line in answer["refused"]]
    assert places == [(2, "name"), (3, "grams_left"), (4, "roast_date")]
    assert all(line["message"] for line in answer["refused"])
    assert house.everything() == before
