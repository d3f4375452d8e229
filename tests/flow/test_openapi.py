"""The API keeps the contract that it publishes: requests made from its own OpenAPI document, right and wrong.

Every route is asked with ids that exist and ids that do not. No request may end in a fault of the server, and
every answer has to be of a kind and shape that the document promises.
"""

from collections import Counter
from collections.abc import Iterator

import pytest
import schemathesis
from fastapi import FastAPI, Response
from fastapi.responses import JSONResponse
from fastapi.routing import APIRoute
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pydantic import BaseModel
from schemathesis import GenerationMode, checks
from schemathesis.specs.openapi import checks as promises
from starlette.testclient import TestClient

from cupwright.main import make_tools
from cupwright.web.app import ROUTERS, make_app
from cupwright.web.settings import Settings

HOME = "http://127.0.0.1:8000"
KEPT = [
    checks.not_a_server_error,
    promises.status_code_conformance,
    promises.content_type_conformance,
    promises.response_schema_conformance,
]


@pytest.fixture(scope="module")
def house(tmp_path_factory) -> Iterator[tuple[FastAPI, dict[str, list[str]], str]]:
    """A server in this process with a draft, a sealed and a revealed table, and a taster's token."""
    tools = make_tools(tmp_path_factory.mktemp("published") / "data")
    app = make_app(tools, Settings())
    desk = TestClient(app, base_url=HOME, headers={"Origin": HOME})
    coffees = [desk.post("/api/coffees", json={"name": f"Lot {n}"}).json()["id"] for n in range(3)]
    plan = {"coffees": coffees, "tasters": ["Ada"]}
    tables = [desk.post("/api/tables", json=plan | {"name": f"Table {n}"}).json() for n in range(3)]
    for table in tables[1:]:
        desk.post(f"/api/tables/{table['id']}/seal", json={})
    desk.post(f"/api/tables/{tables[2]['id']}/reveal", json={})
    taken = desk.post(f"/api/tables/{tables[1]['id']}/seats", json={"name": "Ada"}).json()
    word = desk.post("/api/own-words", json={"label": "quince soda", "parents": ["quince"]}).json()
    ids = {
        "table_id": [table["id"] for table in tables],
        "coffee_id": coffees,
        "seat_id": [taken["seat"]["id"]],
        "name": ["liking"],
        "concept_id": ["quince", "smoke"],
        "word_id": [word["id"]],
        "kind": ["break", "aside", "stir"],
        "bowl": [0, 2, 77],
        "method": ["triangle", "paired", "two-out-of-five"],
    }
    yield app, ids, taken["token"]
    tools.store.close()


@pytest.fixture(scope="module")
def published(house):
    """The OpenAPI document as the server gives it."""
    return schemathesis.openapi.from_asgi("/api/openapi.json", house[0], headers={"Host": "127.0.0.1:8000"})


def routes() -> list[tuple[str, str]]:
    """Every route but the stream, which does not end."""
    found = [route for router in ROUTERS for route in router.routes if isinstance(route, APIRoute)]
    pairs = {(method, route.path) for route in found for method in route.methods}
    # What removes comes last, so that there is something to ask for until then.
    return sorted((p for p in pairs if p[1] != "/api/live"), key=lambda p: (p[0] == "DELETE", p[1], p[0]))


def asked(operation, ids: dict[str, list[str]], token: str) -> Counter[int]:
    """Ask one route twenty things; how often each status came."""
    headers = {"Host": "127.0.0.1:8000", "Origin": HOME, "Authorization": f"Bearer {token}"}
    came: Counter[int] = Counter()

    @given(
        case=operation.as_strategy(generation_mode=GenerationMode.POSITIVE)
        | operation.as_strategy(generation_mode=GenerationMode.NEGATIVE),
        known=st.fixed_dictionaries({name: st.sampled_from(several) for name, several in ids.items()}),
        strange=st.booleans(),
    )
    @settings(max_examples=20, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
    def keeps(case, known, strange):
        if not strange:
            case.path_parameters = {name: known[name] for name in case.path_parameters or {}}
            if isinstance(case.body, dict) and "coffees" in case.body:
                case.body["coffees"] = ids["coffee_id"]
        # Patient: how long an answer takes on a busy machine is measured in bench/, not here.
        answer = case.call(headers=headers, timeout=60)
        came[answer.status_code] += 1
        case.validate_response(answer, checks=KEPT)

    keeps()
    return came


@pytest.mark.parametrize(("method", "path"), routes())
def test_every_route_keeps_its_promise_whatever_it_is_asked(house, published, method, path):
    _, ids, token = house

    came = asked(published[path][method], ids, token)

    assert sum(came.values()) >= 1


def broken() -> str:
    raise ZeroDivisionError


def misshapen() -> Response:
    return JSONResponse({"id": 3})


class Named(BaseModel):
    id: str


@pytest.mark.parametrize("handler", [broken, misshapen])
def test_a_route_that_breaks_its_promise_is_seen(handler):
    app = FastAPI()
    app.add_api_route("/planted", handler, response_model=Named)
    planted = schemathesis.openapi.from_asgi("/openapi.json", app)

    with pytest.raises((BaseExceptionGroup, ZeroDivisionError)):
        asked(planted["/planted"]["GET"], {}, "")
