"""What every request must satisfy before a route sees it. Goals: OWASP ASVS 5.0, 3.5.1 to 3.5.3."""

import pytest
from fastapi.routing import APIRoute

from cupwright.web.app import ROUTERS
from cupwright.web.doorway import SAFE_METHODS, UPLOADS

HOME = "http://127.0.0.1:8000"


def changing_routes() -> list[tuple[str, str]]:
    """Every route that changes something, from the route table itself."""
    routes = [route for router in ROUTERS for route in router.routes if isinstance(route, APIRoute)]
    return sorted((method, route.path) for route in routes for method in route.methods - SAFE_METHODS)


def address(path: str) -> str:
    return path.replace("{table_id}", "t1").replace("{coffee_id}", "c1").replace("{seat_id}", "s1")


def test_there_are_routes_that_change_something():
    assert len(changing_routes()) >= 15


@pytest.mark.parametrize(("method", "path"), changing_routes())
@pytest.mark.parametrize("origin", ["", "http://elsewhere.example", "null", "http://127.0.0.1:9000"])
def test_a_request_that_changes_something_must_come_from_our_own_page(browser, method, path, origin):
    answer = browser.request(method, address(path), json={}, headers={"Origin": origin})

    assert answer.status_code == 403
    assert answer.json()["detail"].startswith("This request did not come from Cupwright's own page.")


FORMS = ("application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "text/plain")


def routes_and_forms() -> list[tuple[str, str, str]]:
    """Every changing route with every kind of page form, but files where files are uploaded."""
    pairs = [(*route, form) for route in changing_routes() for form in FORMS]
    return [(m, p, form) for m, p, form in pairs if not (p in UPLOADS and form.startswith("multipart"))]


@pytest.mark.parametrize(("method", "path", "form"), routes_and_forms())
def test_no_form_of_a_page_can_change_anything(browser, method, path, form):
    answer = browser.request(method, address(path), content=b"a=b", headers={"Content-Type": form})

    assert answer.status_code == 403


@pytest.mark.parametrize(
    "host", ["elsewhere.example", "elsewhere.example:8000", "127.0.0.1.elsewhere.example", ""]
)
def test_a_name_that_is_not_ours_gets_nothing(browser, host):
    answer = browser.get("/", headers={"Host": host})

    assert answer.status_code == 403
    assert answer.json()["detail"].startswith("Cupwright does not answer to this host name.")


@pytest.mark.parametrize("host", ["localhost:8000", "127.0.0.1", "[::1]:8000", "LOCALHOST:8000"])
def test_the_names_of_the_loopback_are_ours(browser, host):
    assert browser.get("/api/health", headers={"Host": host}).status_code == 200


def test_on_a_network_the_machines_names_and_the_address_of_the_connection_are_ours(open_house):
    browser = open_house(home="http://table.local:8000", lan=True, names=frozenset({"table", "table.local"}))

    assert browser.get("/api/health").status_code == 200
    # The test client says that the connection arrived at the host of its base address.
    assert open_house(home="http://10.77.0.1:8000", lan=True).get("/api/health").status_code == 200
    assert browser.get("/api/health", headers={"Host": "10.77.0.9:8000"}).status_code == 403


def test_the_address_of_the_connection_does_not_count_without_a_network(open_house):
    assert open_house(home="http://10.77.0.1:8000").get("/api/health").status_code == 403


def test_a_page_elsewhere_cannot_even_ask(browser):
    answer = browser.get("/api/coffees", headers={"Sec-Fetch-Site": "cross-site"})

    assert answer.status_code == 403


def test_a_declared_body_over_the_cap_is_refused_before_it_is_read(open_house):
    browser = open_house(largest_body=1000)

    answer = browser.post("/api/coffees", json={"name": "x" * 1000})

    assert answer.status_code == 413
    assert answer.json()["todo"] == "Send it in smaller parts."


def test_a_body_that_does_not_say_its_length_is_stopped_at_the_cap(open_house):
    browser = open_house(largest_body=1000)
    sent = []

    def endless():
        yield b'{"name": "'
        for _ in range(50):
            sent.append(1)
            yield b"x" * 100

    answer = browser.post("/api/coffees", content=endless(), headers={"Content-Type": "application/json"})

    assert answer.status_code == 413
    assert answer.headers["content-type"] == "application/problem+json"


def test_an_upload_may_be_larger_than_a_form(open_house):
    browser = open_house(largest_body=100)
    rows = "name\n" + "\n".join(f"Coffee {n}" for n in range(50))

    answer = browser.post("/api/coffees/import", files={"file": ("shelf.csv", rows.encode())})

    assert answer.status_code == 200
    assert len(answer.json()["added"]) == 50


@pytest.mark.parametrize("path", ["/", "/api/health", "/api/nothing", "/assets/index-abc123.js"])
def test_every_answer_wears_the_protective_headers(browser, path):
    headers = browser.get(path).headers

    policy = headers["content-security-policy"]
    assert "default-src 'self'" in policy
    for closed in ("object-src 'none'", "base-uri 'none'", "frame-ancestors 'none'"):
        assert closed in policy
    assert "unsafe-inline" not in policy
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "no-referrer"


def test_a_refusal_at_the_door_wears_them_too(browser):
    assert "content-security-policy" in browser.get("/", headers={"Host": "elsewhere.example"}).headers


def test_answers_of_the_api_are_kept_nowhere(browser):
    assert browser.get("/api/health").headers["cache-control"] == "no-store"
