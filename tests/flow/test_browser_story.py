"""The whole of a table in a real browser: desk and phones, with the server away for half of the tasting."""

import itertools
import json
import re
from typing import Any

import pytest
from playwright.sync_api import expect
from tests.flow.browser import OpenScreen, phone_options
from tests.flow.browser_acts import (
    NAMES,
    NARROW,
    WIDE,
    WORDS,
    Table,
    cup,
    downloaded,
    fill_shelf,
    go_on,
    plan,
    slide,
    text_of,
    write_round,
)

pytestmark = pytest.mark.browser


tables = (f"Table {number}" for number in itertools.count(1))


@pytest.fixture
def table(shared_server: Any, open_screen: OpenScreen) -> Table:
    """A sealed table that the desk shows; nobody sits at it yet."""
    table = Table(shared_server, open_screen)
    table.lay_unseen(next(tables))
    return table


def print_paper(table, folder):
    """Labels carry codes and seal, the sheet its questions; neither carries a coffee."""
    labels = text_of(downloaded(table.desk, "Labels (PDF)"), folder)
    sheet = text_of(downloaded(table.desk, "Sheet to write on, A4"), folder)
    commitment = table.get(f"/api/tables/{table.id}")["commitment"]
    assert all(code in labels for code in table.words)
    assert commitment[:8] in re.sub(r"\s", "", labels)
    assert "Fragrance" in sheet
    assert not [name for name in NAMES if name in labels + sheet]


def start_clock(table):
    """One press at the desk, and every screen counts by the same clock."""
    table.desk.press("Start the clock")
    for phone in table.phones.values():
        phone.page.get_by_role("timer").wait_for()
        phone.sees(re.compile(r"^(Now: pour|Pour) \d{3}"))


def taste_without_server(table):
    """Ada goes through the middle of the sheet while nothing answers."""
    ada = table.phones["Ada"]
    write_round(ada, table.words, "Aroma in your words")
    ada.look()
    for number in range(3):
        ada.page.get_by_role("radio", name=f"lightness {number + 2} of 5, hue {3 * number + 1} of 12").check()
        ada.sees("Your colour")
        go_on(ada)
    for number in range(3):
        slide(ada, "Weight", 0.2 + 0.3 * number)
        ada.has_large_targets()
        go_on(ada)
    ada.sees("9 notes unsent, kept on this phone")


def reopen_without_server(table):
    """A tab that was killed opens again from the browser's cache, at the same cup, with every word."""
    ben = table.phones["Ben"]
    place = cup(ben)
    ben.page.get_by_role("textbox").fill("half a tho")
    ben.sees("1 note unsent, kept on this phone")
    ben.reopen("#/seat")
    ben.sees("1 note unsent, kept on this phone")
    assert cup(ben) == place
    assert ben.page.get_by_role("textbox").input_value() == "half a tho"
    ben.look()


def saved_file(phone):
    phone.page.locator("summary", has_text="More").click()
    saved = json.loads(downloaded(phone, "Save notes to a file", "button"))
    assert saved["cupwright_notes"] == 1
    return saved["notes"]


def taste_on(table):
    """The server is back: the next word carries all others along."""
    for name, phone in table.phones.items():
        write_round(phone, table.words, "Flavour in your words" if name == "Ada" else "Aroma in your words")
        table.arrived(name, 15 if name == "Ada" else 7)


def give_verdict(table):
    ada = table.phones["Ada"]
    ada.page.get_by_role("navigation").get_by_role("button", name="Verdict").click()
    for number in range(3):
        slide(ada, "Liking", 0.3 + 0.2 * number)
        if number < 2:
            go_on(ada)
    ada.sees("Everything is kept.")
    table.arrived("Ada", 18)


def test_one_table_from_the_shelf_to_the_report(server, open_screen, tmp_path):
    """Plan, print, seal, seat two phones, taste with the server stopped for half of it, reveal, report."""
    table = Table(server, open_screen)
    table.lay("Morning table")
    desk, (ada, ben) = table.desk, table.phones.values()
    print_paper(table, tmp_path)
    table.seat_all()
    start_clock(table)
    for name, phone in table.phones.items():
        phone.look()
        write_round(phone, table.words, "Fragrance in your words")
        table.arrived(name, 3)

    for screen in (desk, ada, ben):
        screen.without_server()
    table.server.kill()
    taste_without_server(table)
    on_paper = saved_file(ada)
    reopen_without_server(table)
    table.server.start()
    taste_on(table)
    give_verdict(table)

    for name in table.phones:
        ids = [note["id"] for note in table.held(name)]
        assert len(ids) == len(set(ids))
    assert {note["id"] for note in on_paper} <= {note["id"] for note in table.held("Ada")}
    answers = {(n["place"], n["pass"], n["field"]): n["value"] for n in table.held("Ada")}
    assert len(table.held("Ada")) == len(answers) == 5 * 3 + 3
    assert all(answers[code, "flavour", "words"] == words for code, words in table.words.items())

    follow_and_open(table)
    read_reveal(table)
    read_report(table, tmp_path)


def follow_and_open(table):
    """The desk sees how far everybody is, but no word of it before the key is open."""
    desk = table.desk
    desk.go(f"#/taste/{table.id}")
    desk.page.get_by_role("row", name=re.compile("Ada")).get_by_text("3 of 3").first.wait_for()
    desk.look(WIDE, NARROW)
    assert not [words for words in WORDS.values() if words in desk.page.content()]
    desk.go(f"#/reveal/{table.id}")
    desk.sees("Opening the key ends the tasting")
    desk.look(WIDE, NARROW)
    table.open_key()
    for name in NAMES:
        desk.page.get_by_role("heading", name=name).wait_for()
    desk.look(WIDE, NARROW)


def read_reveal(table):
    """Each phone hears of it and shows the own words, the bag's and the others'."""
    for name, phone in table.phones.items():
        phone.page.get_by_role("link", name="See the reveal").wait_for()
        expect(phone.page.locator("main input").first).to_be_disabled()
        phone.look()
        phone.press("See the reveal", "link")
        phone.sees("The key matches the seal")
        hill = phone.page.get_by_role("region", name="Hill lot 7")
        for text in ("You wrote", WORDS["Hill lot 7"], "plum, cocoa, orange", "shared", "missed"):
            hill.get_by_text(text).first.wait_for()
        hill.get_by_text("Ben" if name == "Ada" else "Ada", exact=True).wait_for()
        phone.look()
        phone.has_large_targets()


def read_report(table, folder):
    """On the screen, as paper and as data the same."""
    desk = table.desk
    desk.go(f"#/analyse/{table.id}")
    desk.page.get_by_role("heading", name="Hill lot 7").first.wait_for()
    desk.page.get_by_role("navigation", name="What the table answers").get_by_role("button").first.click()
    expect(desk.page.locator("h3[id^=question]").first).to_be_focused()
    for fold in desk.page.get_by_text("Picture, numbers and method").all():
        fold.click()
    desk.look(WIDE, NARROW)
    desk.go(f"#/report/{table.id}")
    desk.page.get_by_role("link", name="PDF").wait_for()
    desk.look(WIDE, NARROW)
    paper = text_of(downloaded(desk, "PDF"), folder)
    data = json.loads(downloaded(desk, "Data (JSON)"))
    for name in NAMES:
        assert name in paper
        assert name in json.dumps(data)
        assert name in desk.page.locator("main").inner_text()
    desk.go("#/")
    desk.sees("Morning table")
    desk.look(WIDE, NARROW)


def test_alone_the_bowls_are_shuffled_and_turned_over_at_the_end(server, open_screen, tmp_path):
    """One person at one machine: positions while tasting, the codes under the bowls at the reveal."""
    desk = open_screen(server.url)
    fill_shelf(desk)
    table_id = plan(desk, "Alone", "Ada", alone=True)
    with server.client() as client:
        codes = client.get(f"/api/tables/{table_id}").json()["codes"]
        true = {
            line["code"]: line["coffee"]["name"]
            for line in client.get(f"/api/tables/{table_id}/pour-list").json()
        }
    assert all(code in text_of(downloaded(desk, "Labels (PDF)"), tmp_path) for code in codes)
    desk.press("Sit here as Ada, on this machine")
    desk.sees("Smell the dry grounds.")
    desk.look(WIDE, NARROW)
    at = dict(zip(("1", "2", "3"), codes[1:] + codes[:1], strict=True))
    write_round(desk, {place: WORDS[true[code]] for place, code in at.items()}, "Fragrance in your words")
    assert not [code for code in codes if code in desk.page.content()]
    desk.page.get_by_role("navigation").get_by_role("button", name="Verdict").click()
    go_on(desk)
    go_on(desk)
    desk.sees("All notes are with the table")
    desk.press("Turn the bowls over at the desk", "link")

    desk.page.get_by_label("Place 1", exact=True).fill("100")
    desk.sees("is on no bowl of this table")
    assert desk.page.get_by_role("button", name="Open the key").is_disabled()
    for place, code in at.items():
        desk.page.get_by_label(f"Place {place}", exact=True).fill(code)
    desk.sees("Every place has its code.")
    desk.look(WIDE, NARROW)
    desk.press("Open the key")
    desk.page.get_by_role("dialog").get_by_role("button", name="Open the key").click()

    desk.sees("The key matches the seal")
    desk.go("#/seat/reveal")
    for name in NAMES:
        desk.page.get_by_role("region", name=name).get_by_text(WORDS[name]).first.wait_for()
    desk.look(WIDE, NARROW)


def test_a_note_that_comes_after_the_key_is_saved_on_the_phone_and_taken_in_at_the_desk(table):
    """The phone was in a dead corner while the desk opened the key; its words are shown and not counted."""
    ada, desk = table.phones["Ada"], table.desk
    table.seat_all()
    ada.without_server()
    ada.pardon("409")
    ada.context.set_offline(True)
    write_round(ada, table.words, "Fragrance in your words")
    ada.sees("3 notes unsent, kept on this phone")

    table.open_key()
    ada.context.set_offline(False)

    ada.page.get_by_role("link", name="See the reveal").wait_for()
    notes = saved_file(ada)
    ada.sees("The key was opened before these notes arrived")
    assert sorted(note["value"] for note in notes) == sorted(table.words.values())
    assert table.held("Ada") == []
    ada.look()
    ada.has_large_targets()

    file = downloaded(ada, "Save notes to a file", "button")
    desk.page.locator('input[type="file"]').set_input_files(
        {"name": "ada.json", "mimeType": "application/json", "buffer": file}
    )
    desk.sees("of them are new")
    desk.sees("Came after the key was opened; not compared:")
    desk.look(WIDE, NARROW)
    table.arrived("Ada", 3)
    desk.go(f"#/analyse/{table.id}")
    desk.sees("left out of every count")
    desk.sees("Nobody wrote about it.")


def test_the_last_letters_belong_to_the_cup_they_were_typed_for(table):
    """A phone's button does not take the focus, so the text has not been left when the next cup comes."""
    ada = table.phones["Ada"]
    table.seat_all()
    first = cup(ada)
    ada.page.get_by_label("Fragrance in your words").press_sequentially("fig")
    ada.page.evaluate("document.querySelector('footer button:last-child').click()")
    ada.page.get_by_role("button", name=f"Cup {first}, answered").wait_for()

    table.arrived("Ada", 1)
    assert [(note["place"], note["value"]) for note in table.held("Ada")] == [(first, "fig")]


def test_a_line_is_set_by_a_touch_or_a_key_but_not_by_passing_it(table):
    """Tab goes over all lines of a pass and leaves them unset; an arrow sets one; it can be taken back."""
    ada = table.phones["Ada"]
    table.seat_all()
    ada.page.get_by_role("navigation").get_by_role("button", name="Touch").click()
    ada.page.get_by_label("How it feels, in your words").focus()
    for _ in range(4):
        ada.page.keyboard.press("Tab")
    expect(ada.page.get_by_text("not set", exact=True)).to_have_count(4)

    ada.page.keyboard.press("ArrowRight")
    ada.page.get_by_role("button", name="Take back: Dryness").click()

    expect(ada.page.get_by_text("not set", exact=True)).to_have_count(4)
    table.arrived("Ada", 2)
    assert [note["value"] for note in table.held("Ada")] == [51, None]


def test_a_page_from_the_cache_says_that_a_newer_one_is_there(shared_server, open_screen):
    """The cached page of yesterday runs a script that the server's page of today no longer names."""
    phone = open_screen(shared_server.url, **phone_options())
    phone.go("#/join")
    phone.sees("Take a seat")
    assert phone.page.get_by_text("A newer version of this page is there.").count() == 0
    newer = '<!doctype html><script type="module" src="/assets/newer.js"></script><div id="app"></div>'

    def serve(route):
        return route.continue_() if route.request.is_navigation_request() else route.fulfill(body=newer)

    phone.context.route(f"{shared_server.url}/", serve)

    phone.reopen("#/join")

    phone.sees("A newer version of this page is there.")
    phone.look()
    phone.has_large_targets()
