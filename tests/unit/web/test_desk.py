"""The desk is open on its own machine, and locked to a network."""

import hashlib
import re
import time
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import pytest
from fastapi.routing import APIRoute
from starlette.testclient import TestClient
from tests.unit.web.conftest import HOME, QuickHashes

from cupwright.web.app import ROUTERS, make_app
from cupwright.web.settings import Settings

WORD = "ABCD2345"
PASSPHRASE = "slow water, fast spoon"

# What everybody may ask; tasters are asked for the token of their seat instead.
PUBLIC = {"/api/health", "/api/desk/enter", "/api/desk/leave", "/api/join"}
TASTERS = {"/api/seat", "/api/seat/notes", "/api/seat/corrections", "/api/seat/own", "/api/seat/reveal"}


def routes() -> list[tuple[str, str]]:
    found = [route for router in ROUTERS for route in router.routes if isinstance(route, APIRoute)]
    return sorted((method, route.path) for route in found for method in route.methods)


@pytest.fixture
def network(open_house):
    """A server on a network whose desk has no passphrase yet."""
    return open_house(lan=True, word_hash=hashlib.sha256(WORD.encode()).hexdigest())


def enter(browser, passphrase=PASSPHRASE, word=""):
    return browser.post("/api/desk/enter", json={"passphrase": passphrase, "word": word})


def state(browser):
    return browser.get("/api/health").json()["desk"]


def test_on_its_own_machine_the_desk_is_open(browser):
    assert state(browser) == "open"
    assert browser.get("/api/coffees").status_code == 200


def test_on_a_network_the_desk_stays_locked_until_it_has_a_passphrase(network):
    assert state(network) == "unset"
    assert network.get("/api/coffees").status_code == 401


@pytest.mark.parametrize(("method", "path"), [r for r in routes() if r[1] not in PUBLIC])
def test_on_a_network_every_route_asks_who_is_there(network, method, path):
    address = re.sub(r"\{\w+\}", "1", path)

    answer = network.request(method, address, json={} if method != "GET" else None)

    assert answer.status_code == 401
    asked_for = "seat" if path in TASTERS else "desk"
    assert asked_for in answer.json()["detail"]


def test_the_one_time_word_sets_the_first_passphrase_and_lets_in(network):
    answer = enter(network, word="abcd 2345")

    assert answer.status_code == 200
    assert answer.json()["desk"] == "entered"
    assert state(network) == "entered"
    assert network.get("/api/coffees").status_code == 200


def test_of_four_who_use_the_word_at_once_one_sets_the_passphrase(tools, static):
    class Slow(QuickHashes):
        def hash(self, passphrase: str) -> str:
            time.sleep(0.05)
            return super().hash(passphrase)

    settings = Settings(static=static, lan=True, word_hash=hashlib.sha256(WORD.encode()).hexdigest())
    app = make_app(replace(tools, passphrases=Slow()), settings)

    def come(number):
        browser = TestClient(app, base_url=HOME, headers={"Origin": HOME}, raise_server_exceptions=False)
        return enter(browser, f"a passphrase of {number}", WORD).status_code

    with ThreadPoolExecutor(4) as many:
        answers = sorted(many.map(come, range(4)))

    assert answers == [200, 403, 403, 403]


@pytest.mark.parametrize("word", ["", "ABCD2346", WORD * 2])
def test_without_the_word_nobody_sets_the_first_passphrase(network, word):
    answer = enter(network, word=word)

    assert answer.status_code == 403
    assert state(network) == "unset"


def test_without_a_word_printed_nothing_fits(open_house):
    browser = open_house(lan=True)

    assert enter(browser, word="").status_code == 403


def test_the_word_works_once(network):
    enter(network, word=WORD)
    network.post("/api/desk/leave", json={})

    assert enter(network, passphrase="another passphrase", word=WORD).status_code == 403


def test_a_short_passphrase_is_refused_and_leaves_the_desk_without_one(network):
    answer = enter(network, passphrase="short", word=WORD)

    assert answer.status_code == 422
    assert "8" in answer.json()["todo"]
    assert state(network) == "unset"


def test_the_session_is_a_cookie_that_scripts_and_other_pages_cannot_use(network):
    cookie = enter(network, word=WORD).headers["set-cookie"].lower()

    assert "httponly" in cookie
    assert "samesite=strict" in cookie
    assert "path=/api" in cookie
    name_and_token = cookie.partition(";")[0]
    assert len(name_and_token.partition("=")[2]) * 4 == 256


def test_only_the_hash_of_the_session_is_kept(network, tools):
    token = enter(network, word=WORD).headers["set-cookie"].partition("=")[2].partition(";")[0]

    with tools.store.reading() as work:
        assert work.desk.session_is_open(hashlib.sha256(token.encode()).hexdigest(), tools.now())
        assert not work.desk.session_is_open(token, tools.now())


def test_leaving_locks_the_desk_for_this_browser(network):
    enter(network, word=WORD)

    assert network.post("/api/desk/leave", json={}).status_code == 204

    assert state(network) == "locked"
    assert network.get("/api/coffees").status_code == 401


def test_an_old_cookie_does_not_open_after_leaving(network):
    cookie = enter(network, word=WORD).headers["set-cookie"].partition(";")[0]
    network.post("/api/desk/leave", json={})

    assert network.get("/api/coffees", headers={"Cookie": cookie}).status_code == 401


def test_wrong_passphrases_are_limited_for_everybody(network, ticks):
    enter(network, word=WORD)
    network.post("/api/desk/leave", json={})
    for _ in range(10):
        assert enter(network, passphrase="wrong passphrase").status_code == 403

    assert enter(network).status_code == 429

    ticks.seconds = 61.0
    assert enter(network).status_code == 200


def test_a_wrong_passphrase_is_always_the_same_answer(network):
    enter(network, word=WORD)
    network.post("/api/desk/leave", json={})

    answers = {enter(network, passphrase=wrong).text for wrong in ("wrong passphrase", "x", "y" * 1000)}

    assert len(answers) == 1
