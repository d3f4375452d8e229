"""Words in a real browser: the desk's room of words, and a phone that reads and learns without the server."""

import itertools
import re
from typing import Any

import pytest
from playwright.sync_api import expect
from tests.flow.browser import PATIENCE_MS, OpenScreen, Screen
from tests.flow.browser_acts import NARROW, WIDE, Table, sit_down

pytestmark = pytest.mark.browser

tables = (f"Words {number}" for number in itertools.count(1))


def chips(phone: Screen) -> list[str]:
    read = phone.page.get_by_role("list", name="Read as").get_by_role("button").all_inner_texts()
    return [" ".join(text.split()) for text in read]


def leave(phone: Screen) -> None:
    phone.page.get_by_role("textbox").blur()
    phone.page.get_by_role("list", name="Read as").wait_for()


def choose(phone: Screen, chip: str, typed: str, meant: str) -> None:
    """Say that the words of a chip mean another concept."""
    phone.press(chip)
    dialog = phone.page.get_by_role("dialog")
    expect(dialog.get_by_role("list")).to_have_count(0)
    dialog.get_by_label("It means").fill(typed)
    dialog.get_by_role("button", name=meant, exact=True).click()
    expect(dialog).to_be_hidden()


def kept(table: Table, name: str) -> list[dict[str, Any]]:
    """The corrections that the server holds of a taster."""
    token = table.phones[name].page.evaluate(
        """() => new Promise((done) => { const asked = indexedDB.open("cupwright"); asked.onsuccess = () => {
          const all = asked.result.transaction("seats").objectStore("seats").getAll();
          all.onsuccess = () => { asked.result.close(); done(all.result[0].token); }; }; })"""
    )
    words: dict[str, list[dict[str, Any]]] = table.get("/api/seat", Authorization=f"Bearer {token}")["words"]
    return words["corrections"]


def test_a_phone_reads_back_only_what_was_written_and_learns_without_the_server(
    server: Any, open_screen: OpenScreen
) -> None:
    with server.client() as client:
        own = {"label": "gorse nectar", "parents": ["honey"], "forms": ["gorsey"]}
        assert client.post("/api/own-words", json=own).status_code == 201
    table = Table(server, open_screen)
    table.lay_unseen(next(tables))
    sit_down(table.phones["Ada"], table.get(f"/api/tables/{table.id}/join")["code"], "Ada", typed=False)
    ada, field = table.phones["Ada"], table.phones["Ada"].page.get_by_role("textbox")

    # Nothing before the taster has written, nothing while she writes.
    assert ada.page.get_by_text("Read as").count() == 0
    field.fill("gorsey, zonky, no smoke")
    ada.page.wait_for_timeout(1000)
    assert ada.page.get_by_text("Read as").count() == 0

    leave(ada)
    assert chips(ada) == ["gorse nectar", "zonky", "not smoke"]
    ada.look()
    ada.has_large_targets()

    # The house's own words and the reading are on the phone: the server is not needed.
    server.stop()
    for screen in (ada, table.desk):
        screen.without_server()
    choose(ada, "“zonky” was not read", "dark choc", "dark chocolate")
    ada.page.get_by_role("button", name="dark chocolate, as you said").wait_for()
    assert chips(ada) == ["gorse nectar", "dark chocolate", "not smoke"]
    field.fill("zonky again, smoke")
    leave(ada)
    assert "dark chocolate" in chips(ada)
    ada.press("smoke. Correct it")
    ada.look()
    ada.page.get_by_role("dialog").get_by_role("button", name="Not that").click()
    expect(ada.page.get_by_role("button", name=re.compile("“smoke” was not read"))).to_be_visible()

    # A killed tab forgets nothing; back, the server learns it once.
    ada.reopen("#/seat")
    ada.page.get_by_role("list", name="Read as").wait_for()
    assert "dark chocolate" in chips(ada)
    server.start()
    ada.page.wait_for_function("() => document.body.innerText.includes('All notes are with the table')")
    deadline = PATIENCE_MS // 100
    while len(kept(table, "Ada")) < 2 and (deadline := deadline - 1):
        ada.page.wait_for_timeout(100)
    said = {one["surface"]: one["concept"] for one in kept(table, "Ada")}
    assert said == {"zonky": "dark_chocolate", "smoke": "none"}


def test_the_desk_looks_words_up_and_adds_its_own(server: Any, open_screen: OpenScreen) -> None:
    desk = open_screen(server.url).go("#/words")
    desk.page.get_by_role("img", name=re.compile("kin near each other")).wait_for(timeout=90_000)
    desk.look(WIDE, NARROW)

    desk.page.get_by_label("Look up a word").fill("quinc")
    desk.press("quince")
    desk.page.get_by_role("heading", name="quince", exact=True).wait_for()
    desk.sees("Nearest kin")
    expect(desk.page.get_by_role("img", name=re.compile("quince and its kin are named"))).to_be_visible()
    desk.look(WIDE, NARROW)

    desk.page.get_by_role("textbox", name="The word").fill("quince")
    desk.page.get_by_label("A kind of").fill("honey")
    desk.press(re.compile("^honey\\b"))
    desk.press("Add it")
    desk.sees("The lexicon has a concept 'quince' already.")
    desk.pardon("409")

    desk.page.get_by_role("textbox", name="The word").fill("quince soda")
    desk.press("Add it")
    desk.sees("quince soda is read from now on.")
    desk.sees("a kind of honey")
    desk.look(WIDE, NARROW)

    desk.press("Remove: quince soda")
    desk.sees("There are none yet.")
