"""A real Chromium for the browser stories: its screens note every complaint, and can be looked at closely."""

import os
import re
import shutil
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, sync_playwright

AXE = Path(__file__).resolve().parents[2] / "client/node_modules/axe-core/axe.min.js"
NAMES = ("chromium", "chromium-browser", "google-chrome")
# Headless, as root, and silent towards the world outside.
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
DESK = {"width": 1280, "height": 900}
PHONE = {"width": 360, "height": 740}
# Without motion: what fades in would be judged by its colours half way.
ORDINARY = {"viewport": DESK, "locale": "en-GB", "reduced_motion": "reduce"}
PATIENCE_MS = 30_000
SETTLED_S = 3
SMALLEST_TARGET_PX = 48

_NO_CONNECTION = re.compile(r"net::ERR_|ERR_CONNECTION|Failed to fetch")
_TOO_WIDE = """() => document.documentElement.scrollWidth <= window.innerWidth ? [] :
  ["the page", ...[...document.querySelectorAll("main *")]
    .filter(each => each.getBoundingClientRect().right > window.innerWidth)
    .map(each => each.outerHTML.slice(0, 120))]"""
_SMALL_TARGETS = """least => [...document.querySelectorAll("button, a[href], input, textarea, summary")]
  .filter(each => !each.closest("[disabled]") && each.checkVisibility())
  .map(each => [each.getAttribute("aria-label") || each.textContent.trim() || each.outerHTML.slice(0, 80),
                each.getBoundingClientRect()])
  .filter(([, box]) => box.width > 0 && (box.width < least - 0.5 || box.height < least - 0.5))
  .map(([name, box]) => `${name}: ${box.width.toFixed(1)} x ${box.height.toFixed(1)}`)"""
_ACCESSIBILITY = """async () => {
  const found = await axe.run(document, {
    runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    resultTypes: ["violations"],
  });
  return found.violations.flatMap(each =>
    each.nodes.map(node => `${each.id}: ${each.help}: ${node.target.join(" ")}: ${node.failureSummary}`));
}"""


class Screen:
    """One page of one browser; `complaints` gathers what its console says."""

    def __init__(self, context: BrowserContext, base: str) -> None:
        self.context, self.base = context, base
        self.complaints: list[str] = []
        self.pardoned: list[str] = []
        self.page = self._new_page()

    def _new_page(self) -> Page:
        page = self.context.new_page()
        page.set_default_timeout(PATIENCE_MS)
        page.on("console", self._heard)
        page.on("pageerror", lambda error: self.complaints.append(f"uncaught: {error}"))
        return page

    def _heard(self, message: ConsoleMessage) -> None:
        if message.type in ("error", "warning"):
            self.complaints.append(message.text)

    def pardon(self, pattern: str) -> None:
        """What the console may say in this story, as when a call is refused on purpose."""
        self.pardoned.append(pattern)

    def without_server(self) -> None:
        """From here on calls may be lost: the browser itself writes each of them into the console."""
        self.pardon(_NO_CONNECTION.pattern)

    def go(self, address: str) -> "Screen":
        """Open an address of the program, such as "#/join"."""
        self.page.goto(f"{self.base}/{address}")
        return self

    def reopen(self, address: str) -> "Screen":
        """Close the tab without warning and open the address in a new one."""
        self.page.close()
        self.page = self._new_page()
        return self.go(address)

    def press(self, name: str, role: Any = "button", *, exact: bool = False) -> None:
        """Press the first control of that name."""
        self.page.get_by_role(role, name=name, exact=exact).first.click()

    def sees(self, text: str | re.Pattern[str]) -> None:
        """Wait until the text can be read somewhere."""
        self.page.get_by_text(text).first.wait_for()

    def look(self, *widths: int) -> None:
        """Nothing scrolls sideways at these widths; WCAG 2.2 AA holds as far as axe can see."""
        before = self.page.viewport_size or DESK
        for width in widths or (before["width"],):
            self.page.set_viewport_size({"width": width, "height": before["height"]})
            wide = self._too_wide()
            assert wide == [], f"{self.page.url} scrolls sideways at {width} px: {wide}"
        self.page.set_viewport_size(before)
        self.page.evaluate(AXE.read_text(encoding="utf-8"))
        found = self.page.evaluate(_ACCESSIBILITY)
        assert found == [], f"{self.page.url}: {found}"

    def _too_wide(self) -> list[str]:
        """What reaches over the edge once the page has settled: pictures are laid out after the resizing."""
        deadline = time.monotonic() + SETTLED_S
        while (wide := self.page.evaluate(_TOO_WIDE)) and time.monotonic() < deadline:
            self.page.wait_for_timeout(50)
        return list(wide)

    def has_large_targets(self) -> None:
        """Every control can be met with a wet finger."""
        small = self.page.evaluate(_SMALL_TARGETS, SMALLEST_TARGET_PX)
        assert small == [], f"{self.page.url}: {small}"

    def said_nothing(self) -> None:
        """The console stayed silent but for what was pardoned."""
        left = [text for text in self.complaints if not any(re.search(each, text) for each in self.pardoned)]
        assert left == [], f"{self.base} said {left}"


def chromium_path() -> str:
    """The Chromium of the system, or the one that CUPWRIGHT_CHROMIUM names."""
    wanted = os.environ.get("CUPWRIGHT_CHROMIUM")
    found = [wanted] if wanted else [path for path in map(shutil.which, NAMES) if path]
    if not found:
        pytest.fail("The browser tests need Chromium: run .ci/chromium or set CUPWRIGHT_CHROMIUM.")
    return found[0]


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    """One Chromium for the stories of a file, each with contexts of its own.

    Not one for the session: while Playwright is open its event loop runs in this very thread, and an
    asynchronous test that came to the same worker after the stories could not have one.
    """
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium_path(), args=list(FLAGS))
        yield browser
        browser.close()


OpenScreen = Callable[..., Screen]


@pytest.fixture
def open_screen(chromium: Browser) -> Iterator[OpenScreen]:
    """Opens screens, each a browser of its own; at the end each must have been silent."""
    opened: list[Screen] = []

    def open_it(base: str, **options: Any) -> Screen:
        screen = Screen(chromium.new_context(**ORDINARY | options), base)
        opened.append(screen)
        return screen

    yield open_it
    for screen in opened:
        screen.context.close()
    for screen in opened:
        screen.said_nothing()


def phone_options(scheme: str = "light") -> dict[str, Any]:
    """A narrow phone with a touch screen."""
    return {"viewport": PHONE, "is_mobile": True, "has_touch": True, "color_scheme": scheme}
