"""Before the key is open, nothing a taster can get depends on which coffee stands where (non-interference).

Two servers with the same seed, clock and ids are asked the same things; only the coffees are exchanged
between the codes. Every answer to a taster has to be equal byte for byte: status, headers, body. The leaks
planted at the end show that the comparison would see one.
"""

import hashlib
import itertools
import json
import random
import tempfile
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from functools import cache
from pathlib import Path

import httpx2
import pytest
from fastapi.routing import APIRoute
from starlette.datastructures import MutableHeaders
from starlette.testclient import TestClient
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from cupwright.main import make_tools
from cupwright.steps.ports import Store, Tools, Work
from cupwright.web.app import ROUTERS, make_app
from cupwright.web.settings import Settings
from cupwright.web.who import require_desk

HOME = "http://127.0.0.1:8000"
NOON = datetime(2026, 3, 1, 12, 0, tzinfo=UTC)
WORD = "ABCD2345"
COFFEES = (
    {"name": "Hill lot 7", "roaster": "First", "published_notes": "plum, cocoa", "grams_left": 250.0},
    {"name": "River lot 2", "roaster": "Second roastery", "published_notes": "", "roast_date": "2026-02-20"},
    {"name": "Ridge", "origin": "a long way up, behind the third river", "grams_left": 3.5},
    {"name": "Ábrete lot 12", "variety": "old", "published_notes": "black tea"},
)

Answer = tuple[int, tuple[tuple[str, str], ...], bytes]


@dataclass
class World:
    """A server in this process whose tasters write to `heard` what they get."""

    tools: Tools
    desk: TestClient
    phone: TestClient
    table: dict
    heard: list[tuple[str, Answer]]

    def ask(self, method: str, path: str, body: object = None, token: str = "") -> httpx2.Response:
        headers = {"Authorization": f"Bearer {token}"} if token else {}
        answer = self.phone.request(method, path, json=body, headers=headers)
        told = (answer.status_code, tuple(answer.headers.multi_items()), answer.content)
        self.heard.append((f"{method} {path}", told))
        return answer


class QuickHashes:
    """Passphrases have nothing to do with coffees, and slow hashes are slow."""

    def hash(self, passphrase: str) -> str:
        return passphrase

    def fits(self, passphrase: str, slow_hash: str) -> bool:
        return passphrase == slow_hash


@cache
def empty_store() -> bytes:
    """A data file with nothing in it; making one takes longer than all the rest of a world."""
    with tempfile.TemporaryDirectory() as folder:
        make_tools(folder).store.close()
        return (Path(folder) / "cupwright.sqlite3").read_bytes()


def laid_tools(folder: Path, seed: int) -> Tools:
    folder.mkdir()
    (folder / "cupwright.sqlite3").write_bytes(empty_store())
    ids = itertools.count(1)
    return replace(
        make_tools(folder),
        now=lambda: NOON,
        rng=random.Random(seed),
        new_id=lambda: f"id-{next(ids):04}",
        passphrases=QuickHashes(),
    )


@contextmanager
def world(
    folder: Path,
    coffees: tuple,
    *,
    seed: int = 1,
    draw: int = 1,
    blinding: str = "codes",
    twice: int = 0,
    leak: "Callable[[World], Callable[[ASGIApp], ASGIApp]] | None" = None,
) -> Iterator[World]:
    """A sealed table of these coffees, on a network, so that a phone is not the desk.

    `draw` decides which code each coffee gets and the nonce of the key, `seed` everything else. The first
    `twice` coffees also stand under a second code, in place of the last ones.
    """
    tools = laid_tools(folder, seed)
    settings = Settings(lan=True, word_hash=hashlib.sha256(WORD.encode()).hexdigest())
    app = make_app(tools, settings)
    desk = TestClient(app, base_url=HOME, headers={"Origin": HOME})
    assert desk.post("/api/desk/enter", json={"passphrase": "slow water", "word": WORD}).status_code == 200
    ids = [desk.post("/api/coffees", json=coffee).json()["id"] for coffee in coffees]
    plan = {"name": "Blind", "coffees": ids, "tasters": ["Ada"], "blinding": blinding, "bowls_per_sample": 2}
    plan |= {"coffees": ids[: len(ids) - twice], "duplicates": ids[:twice]}
    draft = desk.post("/api/tables", json=plan).json()
    tools.rng.seed(draw)
    table = desk.post(f"/api/tables/{draft['id']}/seal", json={}).json()
    tools.rng.seed(seed)
    laid = World(tools, desk, TestClient(app), table, [])
    laid.phone = TestClient(leak(laid)(app) if leak else app, base_url=HOME, headers={"Origin": HOME})
    try:
        yield laid
    finally:
        tools.store.close()


def sitting(world: World, seed: int = 0) -> None:
    """All that tasters can do before the reveal, right and wrong, in an order drawn from the seed."""
    draw = random.Random(seed)
    code = world.table["join_code"]
    tokens = [
        world.ask("POST", "/api/join", {"code": code, "name": name}).json()["token"]
        for name in ("ada", "Ben")
    ]
    for wrong in ("ZZZZZZ", code[:5], ""):
        world.ask("POST", "/api/join", {"code": wrong, "name": "Cy"})
    world.ask("POST", "/api/join", {"code": code, "name": "Ada"})
    told = (_reading, _writing, _correcting, _trying)
    acts = [act for some in told for act in some(world, tokens, draw)]
    draw.shuffle(acts)
    for number, act in enumerate(acts):
        if number == len(acts) // 2:
            world.desk.post(f"/api/tables/{world.table['id']}/clock", json={})
            world.desk.get(f"/api/tables/{world.table['id']}/pour-list")
        act()


def _reading(world: World, tokens: list[str], draw: random.Random) -> list[Callable[[], object]]:
    asked = [
        "/api/seat",
        "/api/seat?after=1",
        "/api/seat?after=x",
        "/api/seat/reveal",
        "/api/seat/own",
        "/api/health",
        "/",
    ]
    return [lambda p=path: world.ask("GET", p, token=draw.choice(tokens)) for path in asked * 2]


def _writing(world: World, tokens: list[str], draw: random.Random) -> list[Callable[[], object]]:
    questions = [(p["id"], f["id"], f["kind"]) for p in world.table["sheet"]["passes"] for f in p["fields"]]
    values = {"words": "plum, tea", "text": "good", "line": 40, "colour": {"l": 0.5, "a": 0.1, "b": 0}}

    def write(number: int) -> object:
        part, field, kind = draw.choice(questions)
        place = draw.choice([*world.table["places"], "000"])
        value = draw.choice([values[kind], values[kind], None, True, "x" * 5000])
        note = {
            "id": f"n-{number}",
            "place": place,
            "pass": part,
            "field": field,
            "value": value,
            "written_at": 1,
        }
        note["stamp"] = {"counter": number, "device": "d"}
        return world.ask("POST", "/api/seat/notes", {"notes": [note]}, draw.choice([*tokens, "nobody"]))

    return [lambda n=number: write(n) for number in range(1, 25)]


def _correcting(world: World, tokens: list[str], draw: random.Random) -> list[Callable[[], object]]:
    def correct(number: int) -> object:
        said = {"id": f"c-{number}", "surface": draw.choice(["grippy", "plum", "?"]), "written_at": 1}
        said |= {"concept": draw.choice(["drying", "none", None]), "stamp": {"counter": 1, "device": "d"}}
        return world.ask("POST", "/api/seat/corrections", {"corrections": [said]}, draw.choice(tokens))

    return [lambda n=number: correct(n) for number in range(1, 7)]


def _trying(world: World, tokens: list[str], draw: random.Random) -> list[Callable[[], object]]:
    """A taster at every door that is not a taster's: all routes of the desk, with a seat's token."""
    names = {"table_id": world.table["id"], "coffee_id": "id-0001", "seat_id": "id-0005", "name": "liking"}
    names |= {"concept_id": "quince", "word_id": "id-0001", "kind": "pour", "bowl": "0"}
    names |= {"method": "triangle"}
    doors = [(m, p.format(**names)) for m, p in routes() if p not in TASTERS_OWN]
    return [
        lambda m=m, p=p: world.ask(m, p, None if m == "GET" else {}, draw.choice(tokens)) for m, p in doors
    ]


TASTERS_OWN = {
    "/api/health",
    "/api/join",
    "/api/seat",
    "/api/seat/notes",
    "/api/seat/corrections",
    "/api/seat/reveal",
    "/api/seat/own",
}


def routes() -> list[tuple[str, str]]:
    found = [route for router in ROUTERS for route in router.routes if isinstance(route, APIRoute)]
    return sorted((method, route.path) for route in found for method in route.methods)


def first_difference(one: World, other: World) -> str:
    """What was asked when the answers first differed, or nothing."""
    for (asked, told), (_, told_there) in zip(one.heard, other.heard, strict=True):
        if told != told_there:
            return asked
    return ""


def exchanged(seed: int) -> tuple:
    """The coffees in another order, so that each stands under another's code."""
    orders = [order for order in itertools.permutations(COFFEES) if order != COFFEES]
    return random.Random(seed).choice(orders)


def test_the_script_asks_every_route_that_is_not_the_desks():
    free = {
        route.path
        for router in ROUTERS
        for route in router.routes
        if isinstance(route, APIRoute)
        and not any(dependency.call is require_desk for dependency in route.dependant.dependencies)
    }

    assert free == TASTERS_OWN | {"/api/desk/enter", "/api/desk/leave"}


@pytest.mark.parametrize("blinding", ["codes", "shuffle"])
@pytest.mark.parametrize("seed", range(4))
def test_every_answer_to_a_taster_is_the_same_whichever_coffee_stands_where(tmp_path, blinding, seed):
    with (
        world(tmp_path / "one", COFFEES, seed=seed, blinding=blinding) as one,
        world(tmp_path / "other", exchanged(seed), seed=seed, blinding=blinding) as other,
    ):
        sitting(one, seed)
        sitting(other, seed)

        assert len(one.heard) > 60
        assert {200, 201, 401, 404, 409, 422} <= {told[0] for _, told in one.heard}
        assert first_difference(one, other) == ""


@pytest.mark.parametrize("blinding", ["codes", "shuffle"])
@pytest.mark.parametrize("twice", [1, 2])
def test_no_answer_to_a_taster_tells_that_a_coffee_stands_there_twice(tmp_path, blinding, twice):
    """Four coffees beside three, or two, of which some stand under two codes: only the seal differs."""
    with (
        world(tmp_path / "one", COFFEES, blinding=blinding) as one,
        world(tmp_path / "other", COFFEES, blinding=blinding, twice=twice) as other,
    ):
        sitting(one)
        sitting(other)

        assert len(set(what_stands_where(one).values())) == 4
        assert len(set(what_stands_where(other).values())) == 4 - twice
        assert without_seal(one) == without_seal(other)


@pytest.mark.parametrize("seed", range(2))
def test_no_answer_to_a_taster_depends_on_which_coffee_stands_there_twice(tmp_path, seed):
    with (
        world(tmp_path / "one", COFFEES, seed=seed, twice=1) as one,
        world(tmp_path / "other", exchanged(seed), seed=seed, twice=1) as other,
    ):
        sitting(one, seed)
        sitting(other, seed)

        assert first_difference(one, other) == ""


def test_another_draw_of_the_key_shows_only_in_its_seal(tmp_path):
    """The seal is a digest with 256 random bits and tells nothing; without it the answers are the same."""
    with world(tmp_path / "one", COFFEES, draw=1) as one, world(tmp_path / "other", COFFEES, draw=2) as other:
        sitting(one)
        sitting(other)

        assert what_stands_where(one) != what_stands_where(other)
        assert without_seal(one) == without_seal(other)


def what_stands_where(world: World) -> dict[str, str]:
    lines = world.desk.get(f"/api/tables/{world.table['id']}/pour-list").json()
    return {line["code"]: line["coffee"]["name"] for line in lines}


def without_seal(world: World) -> list[tuple[str, Answer]]:
    seal = world.table["commitment"].encode()
    return [
        (asked, (status, headers, body.replace(seal, b""))) for asked, (status, headers, body) in world.heard
    ]


class Witness:
    """A store that remembers whether anybody reached for the key or the shelf."""

    def __init__(self, store: Store) -> None:
        self.store = store
        self.reached: set[str] = set()

    @contextmanager
    def _watched(self, opened: AbstractContextManager[Work]) -> Iterator["Witness.Work"]:
        with opened as work:
            yield Witness.Work(work, self.reached)

    def work(self) -> AbstractContextManager["Witness.Work"]:
        return self._watched(self.store.work())

    def reading(self) -> AbstractContextManager["Witness.Work"]:
        return self._watched(self.store.reading())

    class Work:
        def __init__(self, work: Work, reached: set[str]) -> None:
            self._work = work
            self._reached = reached

        def __getattr__(self, shelf: str) -> object:
            self._reached.add(shelf)
            return getattr(self._work, shelf)


def test_no_answer_to_a_taster_even_reads_the_key_or_the_shelf(tmp_path):
    """What is not loaded cannot leak, not even through time."""
    with world(tmp_path / "one", COFFEES) as one:
        witness = Witness(one.tools.store)
        app = make_app(replace(one.tools, store=witness), Settings(lan=True))
        one.phone = TestClient(app, base_url=HOME, headers={"Origin": HOME})

        sitting(one)

        assert witness.reached & {"keys", "coffees"} == set()
        assert {"tables", "notes", "tokens"} <= witness.reached


def test_the_witness_sees_what_the_desk_reads(tmp_path):
    with world(tmp_path / "one", COFFEES) as one:
        witness = Witness(one.tools.store)
        app = make_app(replace(one.tools, store=witness), Settings())

        TestClient(app, base_url=HOME).get(f"/api/tables/{one.table['id']}/pour-list")

        assert {"keys", "coffees"} <= witness.reached


# ---- planted leaks: each has to be seen ---------------------------------------------------------------


def with_a_field(body: bytes, headers: MutableHeaders, first: str) -> bytes:
    return json.dumps(json.loads(body) | {"roaster": first}).encode()


def with_a_header(body: bytes, headers: MutableHeaders, first: str) -> bytes:
    headers["etag"] = hashlib.sha256(first.encode()).hexdigest()
    return body


def with_a_length(body: bytes, headers: MutableHeaders, first: str) -> bytes:
    return body + b" " * len(first)


def with_an_order(body: bytes, headers: MutableHeaders, first: str) -> bytes:
    view = json.loads(body)
    view["table"]["places"].sort(key=lambda place: hashlib.sha256((place + first).encode()).digest())
    return json.dumps(view).encode()


Alter = Callable[[bytes, MutableHeaders, str], bytes]


def leaking(alter: Alter) -> Callable[[World], Callable[[ASGIApp], ASGIApp]]:
    """Alters what /api/seat answers by the name of the coffee under the first code."""

    def wrap(world: World) -> Callable[[ASGIApp], ASGIApp]:
        first = min(what_stands_where(world).items())[1]

        def around(app: ASGIApp) -> ASGIApp:
            async def leaky(scope: Scope, receive: Receive, send: Send) -> None:
                if scope.get("path") != "/api/seat":
                    await app(scope, receive, send)
                    return
                start: Message = {}

                async def altered(message: Message) -> None:
                    nonlocal start
                    if message["type"] == "http.response.start":
                        start = message
                    elif start["status"] == 200:
                        headers = MutableHeaders(raw=list(start["headers"]))
                        body = alter(message["body"], headers, first)
                        headers["content-length"] = str(len(body))
                        await send({**start, "headers": headers.raw})
                        await send({**message, "body": body})
                    else:
                        await send(start)
                        await send(message)

                await app(scope, receive, altered)

            return leaky

        return around

    return wrap


@pytest.mark.parametrize("alter", [with_a_field, with_a_header, with_a_length, with_an_order])
def test_a_planted_leak_is_seen(tmp_path, alter):
    leak = leaking(alter)
    with (
        world(tmp_path / "one", COFFEES, leak=leak) as one,
        world(tmp_path / "other", exchanged(0), leak=leak) as other,
    ):
        assert min(what_stands_where(one).items()) != min(what_stands_where(other).items())
        sitting(one)
        sitting(other)

        assert first_difference(one, other).startswith("GET /api/seat")


def test_once_the_key_is_open_the_answers_differ(tmp_path):
    with world(tmp_path / "one", COFFEES) as one, world(tmp_path / "other", exchanged(0)) as other:
        for laid in (one, other):
            seat = {"code": laid.table["join_code"], "name": "Ada"}
            token = laid.ask("POST", "/api/join", seat).json()["token"]
            laid.desk.post(f"/api/tables/{laid.table['id']}/reveal", json={})
            laid.ask("GET", "/api/seat/reveal", token=token)

        assert first_difference(one, other) == "GET /api/seat/reveal"
