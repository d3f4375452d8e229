"""Bad input through both doors: one clear sentence, where and what to do; nothing half-written, no trace."""

import io
import itertools
import re
import zipfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

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


TABLE = 'name = "Thursday"\n[[coffee]]\nname = "Hill"\n'

# what is wrong -> (file name, content, arguments, how the sentence goes)
CLI = {
    "a plan with 0 bowls": (
        "t.toml",
        "bowls_per_sample = 0\n" + TABLE,
        ("plan", "FILE"),
        "The plan has 0 bowls",
    ),
    "500 coffees": (
        "t.toml",
        'name = "T"\n' + "".join(f'[[coffee]]\nname = "C{n}"\n' for n in range(500)),
        ("plan", "FILE"),
        "The plan has 500 coffees; a table takes at most 40.",
    ),
    "negative grams": ("t.toml", TABLE + "grams_left = -5\n", ("plan", "FILE"), "-5 grams"),
    "one coffee twice": (
        "t.toml",
        TABLE + '[[coffee]]\nname = "hill"\n',
        ("plan", "FILE"),
        r"^t\.toml, line 5: 'hill' is on the table already\.",
    ),
    "a misspelt key": (
        "t.toml",
        "bowels = 1\n" + TABLE,
        ("plan", "FILE"),
        r"^t\.toml, line 1: A table has no 'bowels'",
    ),
    "a misspelt sheet": (
        "t.toml",
        'sheet = "opne"\n' + TABLE,
        ("plan", "FILE"),
        "There is no sheet called 'opne'.",
    ),
    "a plan that is no TOML": (
        "t.toml",
        "name = \n",
        ("plan", "FILE"),
        r"^t\.toml, line 1, column 8: This is not TOML",
    ),
    "a plan in Latin-1": (
        "t.toml",
        'name = "Café"\n'.encode("latin-1"),
        ("plan", "FILE"),
        r"^t\.toml, line 1: .*UTF-8",
    ),
    "a plan without end": ("t.toml", b"#" * 1_000_001, ("plan", "FILE"), r"^t\.toml: The file has 1\.0 MB"),
    "a plan that is a folder": (None, None, ("plan", "FILE"), "cannot be read"),
    "a file that is not there": ("t.toml", TABLE, ("plan", "FILE.gone"), "cannot be read: No such file"),
    "a sheet with a typo": (
        "s.toml",
        'name = "x"\nversion = 1\ntitel = "X"\n',
        ("sheets", "--check", "FILE"),
        r"^s\.toml, line 3: The sheet has an unknown entry 'titel'\. Did you mean 'title'\?",
    ),
    "notes without a column": (
        "n.csv",
        "who,coffee,note\nAda,A,plum\n",
        ("import", "FILE", "--table", "Home"),
        r"^n\.csv, line 1: There is no column 'taster'; the columns are who, coffee, note\.",
    ),
    "notes of one taster twice": (
        "n.csv",
        "taster,coffee,note\nAda,A,plum\nAda,A,sour\n",
        ("import", "FILE", "--table", "Home"),
        r"^n\.csv, line 3",
    ),
    "notes with a line too long": (
        "n.csv",
        "taster,coffee,note\nAda,A,plum,sour\n",
        ("import", "FILE", "--table", "Home"),
        r"^n\.csv, line 2: .*quotes",
    ),
    "notes without a note": (
        "n.csv",
        "taster,coffee,note\n",
        ("import", "FILE", "--table", "Home"),
        r"^n\.csv: ",
    ),
    "a broken workbook of notes": (
        "n.xlsx",
        b"PK\x03\x04nothing",
        ("import", "FILE", "--table", "Home"),
        r"^n\.xlsx",
    ),
    "coffees of which one has no name": (
        "c.csv",
        "name,origin\nA,x\n,y\n",
        ("coffees", "--add", "FILE"),
        r"^c\.csv, line 3, column name: The coffee has no name\. .*Nothing was added\.",
    ),
    "a backup that is none": ("b.sqlite3", b"not a database", ("restore", "FILE"), r"b\.sqlite3"),
    "a report of a table nobody has": (
        "r.pdf",
        "",
        ("report", "Nobody", "-o", "FILE"),
        "There is no such table",
    ),
}


@pytest.fixture
def cli(tmp_path, monkeypatch, capsys):
    """The command line in this process, which is quicker, on a data folder of its own."""
    from cupwright.cli.joint import Joint
    from cupwright.cli.program import main
    from cupwright.main import open_tools, serve

    monkeypatch.setenv("CUPWRIGHT_DATA", str(tmp_path / "data"))

    def run(*arguments: str) -> tuple[int, str, str]:
        code = main(arguments, Joint(open_tools, serve))
        said = capsys.readouterr()
        return code, said.out, said.err

    return run


@pytest.mark.parametrize("fault", CLI)
def test_the_command_line_refuses_it_in_one_sentence_and_keeps_nothing(cli, tmp_path, fault):
    name, content, arguments, sentence = CLI[fault]
    file = _written(tmp_path, name, content)

    code, out, err = cli(*(argument.replace("FILE", str(file)) for argument in arguments))

    assert code == 1, out + err
    assert out == ""
    assert re.search(sentence, err), err
    assert err.count("\n") == 1
    assert "Traceback" not in err
    for listing in ("coffees", "tables"):
        assert cli(listing, "--json")[1].strip() == "[]"


def test_a_real_process_ends_with_1_and_no_trace(cupwright, tmp_path):
    file = _written(tmp_path, "t.toml", "name = \n")

    done = cupwright("plan", str(file))

    assert done.returncode == 1
    assert done.stdout == ""
    assert done.stderr.startswith("t.toml, line 1, column 8: This is not TOML")
    assert done.stderr.count("\n") == 1


def test_a_taken_port_is_one_sentence(cupwright, shared_server, tmp_path):
    done = cupwright("serve", "--port", str(shared_server.port), "--data", str(tmp_path / "other"))

    assert done.returncode == 1
    assert done.stderr.startswith(f"Port {shared_server.port} is taken by another program.")


def test_a_second_server_on_the_same_data_is_one_sentence(cupwright, shared_server):
    done = cupwright("serve", "--port", "0", "--data", str(shared_server.data))

    assert done.returncode == 1
    assert done.stderr.startswith("Cupwright runs already on the data in")


def test_a_data_folder_of_something_else_is_one_sentence(cupwright, tmp_path):
    folder = tmp_path / "data"
    folder.mkdir()
    (folder / "cupwright.sqlite3").write_bytes(b"this is not a database" * 1000)

    done = cupwright("tables")

    assert done.returncode == 1
    assert done.stderr.count("\n") == 1
    assert "cannot be opened" in done.stderr


def _written(folder: Path, name: str | None, content: str | bytes | None) -> Path:
    if name is None:
        return folder
    file = folder / name
    file.write_bytes(content if isinstance(content, bytes) else (content or "").encode())
    return file
