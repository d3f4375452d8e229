"""What a request's shape has wrong, in one sentence."""

import pytest

COFFEE = {"name": "Hill lot 7"}


def refusal(browser, body=None, *, path="/api/coffees", **how):
    answer = browser.post(path, json=body, **how) if body is not None else browser.post(path, **how)
    assert answer.status_code == 422, answer.text
    assert answer.headers["content-type"] == "application/problem+json"
    return answer.json()


@pytest.mark.parametrize(
    ("body", "sentence", "column"),
    [
        ({}, '"name" in the request is missing. Correct it and send it again.', "name"),
        (
            COFFEE | {"colour": "red"},
            '"colour" in the request is not known here. Correct it and send it again.',
            "colour",
        ),
        (
            COFFEE | {"grams_left": "250"},
            '"grams_left" in the request must be a number. Correct it and send it again.',
            "grams_left",
        ),
        (
            COFFEE | {"grams_left": False},
            '"grams_left" in the request must be a number. Correct it and send it again.',
            "grams_left",
        ),
        (
            COFFEE | {"roast_date": "soon"},
            '"roast_date" in the request must be a date such as 2026-03-01. Correct it and send it again.',
            "roast_date",
        ),
        ({"name": 7}, '"name" in the request must be text. Correct it and send it again.', "name"),
        ([], "The body of the request must be an object. Correct it and send it again.", ""),
    ],
)
def test_each_fault_is_one_clear_sentence_that_names_the_field(browser, body, sentence, column):
    problem = refusal(browser, body)

    assert problem["detail"] == sentence
    assert problem["where"]["column"] == column


def test_several_faults_are_counted_and_the_first_is_named(browser):
    problem = refusal(browser, {"colour": 1, "shape": 2})

    assert problem["detail"].startswith('"name" in the request is missing. (2 more are wrong too.)')


def test_broken_json_is_refused_with_line_and_column(browser):
    problem = refusal(
        browser, content='{\n "name": "A",\n "origin": }', headers={"Content-Type": "application/json"}
    )

    assert problem["where"]["line"] == 3
    assert problem["where"]["column"] == 12
    assert problem["detail"].startswith("request, line 3, column 12: The body of the request is not JSON")


def test_not_a_number_is_refused(browser):
    answer = browser.post(
        "/api/coffees",
        content='{"name": "A", "grams_left": NaN}',
        headers={"Content-Type": "application/json"},
    )

    assert answer.status_code == 422
    assert answer.json()["detail"].startswith('"grams_left" in the request must be a finite number.')


def test_a_body_that_is_not_unicode_is_refused_in_words(browser):
    answer = browser.post(
        "/api/coffees", content=b'{"name": "\xff"}', headers={"Content-Type": "application/json"}
    )

    assert answer.status_code in (400, 422)
    assert answer.json()["detail"]


def test_a_body_nested_without_end_is_refused_in_words(browser):
    deep = "[" * 100_000
    answer = browser.post("/api/coffees", content=deep, headers={"Content-Type": "application/json"})

    assert answer.status_code in (400, 422)
    assert answer.headers["content-type"] == "application/problem+json"


def test_an_id_with_strange_signs_is_refused_before_it_reaches_a_step(browser):
    answer = browser.get("/api/tables/..%2F..%2Fetc")

    assert answer.status_code in (404, 422)
    assert answer.headers["content-type"] == "application/problem+json"
