"""Refusals as problem details (RFC 9457)."""

from dataclasses import replace

import pytest
from starlette.testclient import TestClient

from cupwright import errors
from cupwright.errors import (
    BadFile,
    CupwrightError,
    NotFound,
    NotKnown,
    Place,
    Refused,
    TooManyTries,
    WrongStep,
)
from cupwright.web import problems
from cupwright.web.app import make_app
from cupwright.web.settings import Settings


def every_error() -> list[type[CupwrightError]]:
    return [
        kind
        for kind in vars(errors).values()
        if isinstance(kind, type) and issubclass(kind, CupwrightError) and kind is not CupwrightError
    ]


def test_every_error_of_the_tree_has_a_status_and_a_title():
    assert set(problems.STATUS) == set(every_error())
    assert set(problems.TITLE) == set(every_error())


def test_statuses_are_those_the_tree_of_errors_promises():
    """The tree at the top of errors.py is what users of the API read."""
    promised = {"Refused": 422, "TooLarge": 413, "SealBroken": 409, "NotFound": 404, "WrongStep": 409}
    promised |= {"Clash": 409, "NotAllowed": 403, "TooManyTries": 429, "NotKnown": 401}

    assert {kind.__name__: int(problems.STATUS[kind]) for kind in every_error()}.items() >= promised.items()


@pytest.mark.parametrize("kind", every_error())
def test_a_problem_carries_the_whole_sentence_and_its_parts(kind):
    error = kind("The line has no name.", todo="Give it one.", where=Place("a.csv", 3, "name"), about="name")

    body = problems.problem_of(error)

    assert body["detail"] == "a.csv, line 3, column name: The line has no name. Give it one."
    assert body["todo"] == "Give it one."
    assert body["where"] == {"file": "a.csv", "line": 3, "column": "name"}
    assert body["about"] == "name"
    assert set(body) == set(problems.SCHEMA["required"])


def test_the_type_is_made_of_the_name_of_the_error():
    assert problems.problem_of(WrongStep("x"))["type"] == "/problems/wrong-step"
    assert problems.problem_of(TooManyTries("x"))["type"] == "/problems/too-many-tries"


def test_what_the_standard_asks_for_beside_a_status_is_sent():
    """RFC 9110, 15.5.2: a 401 names a way to identify oneself; 10.2.3: when to come back."""
    assert problems.answer(NotKnown("x")).headers["www-authenticate"] == "Bearer"
    assert problems.answer(TooManyTries("x")).headers["retry-after"] == "60"


def test_an_address_that_is_not_there_is_a_problem_and_not_a_page(browser):
    answer = browser.get("/api/nothing")

    assert answer.status_code == 404
    assert answer.headers["content-type"] == "application/problem+json"
    assert answer.json()["detail"] == "There is nothing at this address. Start again from the first page."


def test_a_wrong_method_is_told_from_a_wrong_address_and_names_what_is_taken(browser):
    answer = browser.delete("/api/coffees")

    assert answer.status_code == 405
    assert "GET" in answer.headers["allow"] or "POST" in answer.headers["allow"]
    assert answer.json()["title"] == "Method Not Allowed"


class BrokenStore:
    """A store with a fault in it."""

    def reading(self):
        raise ZeroDivisionError


def test_a_fault_of_our_own_is_one_sentence_without_a_trace(tools, static):
    app = make_app(replace(tools, store=BrokenStore()), Settings(static=static))
    browser = TestClient(app, base_url="http://127.0.0.1:8000", raise_server_exceptions=False)

    answer = browser.get("/api/coffees")

    assert answer.status_code == 500
    assert answer.json()["detail"].startswith("Something went wrong inside Cupwright; nothing")
    assert "ZeroDivisionError" not in answer.text


def test_the_same_sentence_reaches_the_browser_and_the_exception():
    for error in (
        NotFound("There is no such table."),
        BadFile("x", where=Place("f", 1)),
        Refused("a", todo="b"),
    ):
        assert problems.problem_of(error)["detail"] == str(error)
