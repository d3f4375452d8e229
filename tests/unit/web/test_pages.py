"""The built client, and how long a browser may keep it."""

from cupwright.web.pages import build_id


def test_the_first_page_may_be_kept_for_half_a_day(browser):
    answer = browser.get("/")

    assert answer.status_code == 200
    assert answer.headers["cache-control"] == "max-age=43200"


def test_assets_carry_their_hash_and_may_be_kept_for_ever(browser):
    answer = browser.get("/assets/index-abc123.js")

    assert answer.status_code == 200
    assert "immutable" in answer.headers["cache-control"]


def test_an_asset_that_is_not_there_is_not_kept_for_ever(browser):
    answer = browser.get("/assets/index-gone.js")

    assert answer.status_code == 404
    assert "immutable" not in answer.headers["cache-control"]


def test_files_beside_the_page_are_served_and_no_others(browser, static):
    (static.parent / "secret").write_text("key")

    assert browser.get("/icon.svg").status_code == 200
    assert browser.get("/secret").status_code == 404
    for path in (
        "/..%2Fsecret",
        "/%2e%2e/secret",
        "/assets/..%2F..%2Fsecret",
        "/assets/%2e%2e/%2e%2e/secret",
    ):
        assert "key" not in browser.get(path).text


def test_a_client_that_was_not_built_is_explained(open_house, tmp_path):
    browser = open_house(static=tmp_path / "none")

    answer = browser.get("/")

    assert answer.status_code == 503
    assert "make setup" in answer.text
    assert browser.get("/api/health").json()["build"] == "none"


def test_another_build_has_another_name(static):
    before = build_id(static)

    (static / "index.html").write_text("<!doctype html><title>Cupwright 2</title>")

    assert build_id(static) != before
