"""The clock called out on a taster's phone, in a real browser and with the server away."""

import re
from typing import Any

import pytest
from playwright.sync_api import expect
from tests.flow.browser import OpenScreen
from tests.flow.browser_acts import Table

pytestmark = pytest.mark.browser

# A voice that is heard by the test; the browser of a machine without speakers has none.
VOICE = """
  window.heard = [];
  speechSynthesis.speak = (words) => window.heard.push(words.text);
"""
FIRST_TASTE_S = 8 * 60


@pytest.fixture
def table(server: Any, open_screen: OpenScreen) -> Table:
    """Two phones, whose time the test moves on, are seated; the clock is not started."""
    table = Table(server, open_screen)
    for phone in table.phones.values():
        phone.context.add_init_script(VOICE)
        phone.page.clock.install()
    table.lay_unseen("Calls")
    table.seat_all()
    return table


def heard(phone):
    return phone.page.evaluate("window.heard")


def open_calls(phone):
    phone.page.locator("summary", has_text="Calls of the clock").click()


def test_a_taster_who_asks_for_it_is_called_to_the_first_taste_without_the_server(table):
    """Both phones show the moment; only the one asked to says it, after a reload too."""
    ada, ben = table.phones.values()
    open_calls(ada)
    ada.page.get_by_label("Speak").check()
    assert heard(ada) == ["Acts are called out."]
    ada.reopen("#/seat")
    table.desk.press("Start the clock")
    for phone in (ada, ben):
        phone.sees(re.compile(r"^(Now: pour|Pour) \d{3}"))
        phone.without_server()
    table.desk.without_server()
    table.server.kill()

    for phone in (ada, ben):
        started = phone.page.get_by_role("timer").inner_text().split(":")
        gone = int(started[0]) * 60 + int(started[1])
        phone.page.clock.fast_forward((FIRST_TASTE_S - gone - 3) * 1000)
        phone.page.clock.run_for(6_000)
        expect(phone.page.locator("[aria-live]", has_text="Now: first taste")).to_be_visible()
        phone.look()

    assert re.fullmatch(r"First taste \d \d \d", heard(ada)[-1])
    assert heard(ben) == []
