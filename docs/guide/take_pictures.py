"""Take the pictures of the guide from the demo scenario, in a real browser, on data that is thrown away.

From the folder of the project:  .venv/bin/python -m docs.guide.take_pictures
"""

import random
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import timedelta
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright
from tests.flow.browser import FLAGS, PHONE, chromium_path
from tests.flow.conftest import Server

from cupwright.core.plan.table import Table
from cupwright.main import make_tools
from cupwright.steps.demo import load_demo
from cupwright.steps.desk import new_token, token_hash
from cupwright.steps.ports import Holder
from cupwright.steps.pour import mark_pour, now_ms, start_clock

HERE = Path(__file__).parent
DESK = {"width": 1280, "height": 960}
LARGEST_FILE = 250_000
SEED = 20_261_125
# Four minutes and a little: the first crusts are due to be broken, the last bowls are still steeping.
BETWEEN_POURS_MS = 20_000
CLOCK_RAN = timedelta(minutes=4, seconds=12)
AROMA = ("baked apple, a spoon of toffee", "something dark and dry, like cedar", "almond skin, cocoa")

LOCKED = {"version": "", "build": "", "now_ms": 0, "lan": True, "desk": "locked"}

_SIT = """seat => new Promise(done => {
  const asked = indexedDB.open("cupwright");
  asked.onsuccess = () => {
    const writing = asked.result.transaction("seats", "readwrite");
    writing.objectStore("seats").put({ ...seat, opened_at: Date.now(), table: null, who: null });
    writing.oncomplete = () => { asked.result.close(); done(); };
  };
})"""


@dataclass
class Scenario:
    """The demo's tables, and a seat at the finished one whose token is known."""

    finished: Table
    ready: Table
    draft: Table
    seat: dict[str, str]


def prepare(data: Path) -> Scenario:
    """The demo, with the clock of the ready table running since a while."""
    tools = replace(make_tools(data), rng=random.Random(SEED))
    finished, ready, draft = load_demo(tools)
    start_clock(replace(tools, now=lambda: tools.now() - CLOCK_RAN), ready.id)
    poured = now_ms(tools) - int(CLOCK_RAN.total_seconds() * 1000)
    for bowl in range(len(ready.bowls)):
        mark_pour(tools, ready.id, bowl, poured + bowl * BETWEEN_POURS_MS)
    seat, token = finished.seats[0].id, new_token(tools)
    with tools.store.work() as work:
        work.tokens.free(finished.id, seat)
        work.tokens.put(token_hash(token), Holder(finished.id, seat))
    tools.store.close()
    return Scenario(finished, ready, draft, {"seat": seat, "token": token})


@contextmanager
def screen(browser: Browser, size: dict[str, int], scheme: str = "light", scale: float = 1) -> Iterator[Page]:
    """A page of its own browser."""
    mobile = size is PHONE
    context = browser.new_context(
        viewport=size,
        color_scheme=scheme,
        device_scale_factor=scale,
        is_mobile=mobile,
        has_touch=mobile,
        locale="en-GB",
    )
    if mobile:
        # As a phone on the network is told, which this one is not: it shows no way to the desk.
        context.route("**/api/health", lambda route: route.fulfill(json=LOCKED))
    yield context.new_page()
    context.close()


def keep(page: Page, name: str) -> None:
    """Write the picture, once all is drawn; one that is too large for a page to load quickly is refused."""
    page.mouse.move(0, 0)
    page.wait_for_timeout(600)
    file = HERE / f"{name}.png"
    page.screenshot(path=file)
    if file.stat().st_size > LARGEST_FILE:
        raise SystemExit(f"{file.name} has {file.stat().st_size} bytes, more than {LARGEST_FILE}.")


def take_desk(browser: Browser, url: str, told: Scenario) -> None:
    """What the host sees, in the order of the flow."""
    addresses = {
        "plan": (f"plan/{told.draft.id}", "in each bowl"),
        "desk": (f"pour/{told.ready.id}", "The clock is the same"),
        "progress": (f"taste/{told.ready.id}", "heard from"),
        "reveal": (f"reveal/{told.finished.id}", "The key matches the seal"),
        "analyse": (f"analyse/{told.finished.id}", "Oru Hill"),
        "report": (f"report/{told.finished.id}", "Oru Hill"),
        "words": ("words/quince", "Computed from kinship"),
    }
    with screen(browser, DESK) as page:
        for name, (address, text) in addresses.items():
            page.goto(f"{url}/#/{address}")
            page.get_by_text(text).first.wait_for()
            if name == "reveal":
                page.get_by_text("Compared with").evaluate("each => each.scrollIntoView()")
            keep(page, name)


def take_phone(browser: Browser, url: str, told: Scenario) -> None:
    """What a taster sees: sitting down, words, a colour, touch."""
    with screen(browser, PHONE, scale=1.5) as page:
        page.goto(f"{url}/#/join/{told.ready.join_code}")
        page.get_by_label("Your name").fill("Ines")
        keep(page, "phone_join")
        page.get_by_role("button", name="Sit down").click()
        passes = page.get_by_role("navigation").get_by_role("button")
        passes.nth(1).click()
        for number, words in enumerate(AROMA[:2]):
            page.get_by_role("textbox").fill(words)
            if number == 0:
                page.get_by_role("button", name="Next cup").click()
        page.get_by_role("textbox").blur()
        page.get_by_text("All notes are with the table").wait_for()
        keep(page, "phone")
        page.get_by_role("textbox").evaluate("each => each.scrollIntoView({ block: 'start' })")
        keep(page, "phone_read")
        passes.nth(2).click()
        page.get_by_role("radio", name="lightness 3 of 5, hue 3 of 12").check()
        keep(page, "phone_colour")


def take_phone_in_the_dark(browser: Browser, url: str, told: Scenario) -> None:
    """The server is away; and what the reveal looks like."""
    with screen(browser, PHONE, scheme="dark", scale=1.5) as page:
        page.goto(f"{url}/#/join/{told.ready.join_code}")
        page.get_by_label("Your name").fill("Milo")
        page.get_by_role("button", name="Sit down").click()
        page.get_by_text("Smell the dry grounds.").wait_for()
        page.context.set_offline(True)
        page.get_by_role("navigation").get_by_role("button").nth(3).click()
        page.get_by_role("button", name="Next cup").click()
        page.get_by_role("textbox").fill("thin at first, then round")
        page.get_by_label("Weight", exact=True).fill("34")
        page.get_by_text("2 notes unsent").wait_for()
        page.evaluate("window.scrollTo(0, 260)")
        keep(page, "phone_unsent")
    with screen(browser, PHONE, scheme="dark", scale=1.5) as page:
        page.goto(f"{url}/#/join")
        page.get_by_text("Take a seat").wait_for()
        page.evaluate(_SIT, told.seat)
        page.goto(f"{url}/#/seat/reveal")
        coffee = page.get_by_role("region", name="Vellamar")
        coffee.wait_for()
        coffee.evaluate("each => each.scrollIntoView()")
        keep(page, "phone_reveal")


def main() -> None:
    """All pictures, beside this file."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        told = prepare(Path(folder) / "data")
        server = Server(Path(folder) / "data").start()
        browser = playwright.chromium.launch(executable_path=chromium_path(), args=list(FLAGS))
        try:
            take_phone(browser, server.url, told)
            take_phone_in_the_dark(browser, server.url, told)
            take_desk(browser, server.url, told)
        finally:
            browser.close()
            server.stop()


if __name__ == "__main__":
    main()
