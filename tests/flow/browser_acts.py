"""What people do at desk and phones, as the browser stories need it."""

import re
import time
from pathlib import Path
from typing import Any

import httpx2
from pypdf import PdfReader
from tests.flow.browser import PATIENCE_MS, OpenScreen, Screen, phone_options

SHELF = """name,roaster,origin,process,published_notes,grams_left
Hill lot 7,Test roastery,Ethiopia,washed,"plum, cocoa, orange",400
River lot 2,Test roastery,Kenya,washed,"lemon, black tea",400
Ridge lot 5,Test roastery,Brazil,natural,"caramel, hazelnut",400
"""
NAMES = ("Hill lot 7", "River lot 2", "Ridge lot 5")
WORDS = {"Hill lot 7": "ripe plum", "River lot 2": "lemon peel", "Ridge lot 5": "soft caramel"}
PASSES = ("Fragrance", "Aroma", "Colour", "Touch", "Flavour", "Finish", "Verdict")
NARROW, WIDE = 360, 1280

_SEAT_IN_BROWSER = """() => new Promise((done, failed) => {
  const asked = indexedDB.open("cupwright");
  asked.onerror = () => failed(asked.error);
  asked.onsuccess = () => {
    const all = asked.result.transaction("seats").objectStore("seats").getAll();
    all.onsuccess = () => { asked.result.close(); done(all.result[0]); };
  };
})"""


def downloaded(screen: Screen, name: str, role: Any = "link") -> bytes:
    """What the browser saves when the control is pressed."""
    with screen.page.expect_download() as coming:
        screen.press(name, role)
    return Path(coming.value.path()).read_bytes()


def text_of(pdf: bytes, folder: Path) -> str:
    (folder / "paper.pdf").write_bytes(pdf)
    return "\n".join(page.extract_text() for page in PdfReader(folder / "paper.pdf").pages)


def fill_shelf(desk: Screen) -> None:
    desk.go("#/coffees")
    desk.page.get_by_label("Or paste lines").fill(SHELF)
    desk.press("Put on the shelf")
    desk.sees("3 coffees put on the shelf.")
    desk.look(WIDE, NARROW)


def plan(desk: Screen, name: str, *tasters: str, alone: bool = False) -> str:
    """Plan and seal a table of the three coffees; its id."""
    desk.go("#/plan/new")
    desk.page.get_by_role("textbox", name="Name of the table").fill(name)
    for coffee in NAMES:
        desk.page.get_by_role("checkbox", name=re.compile(coffee)).check()
    bowls = desk.page.get_by_role("spinbutton", name="Bowls of each coffee")
    bowls.fill("1")
    bowls.blur()
    desk.page.get_by_role("textbox", name="One name a line").fill("\n".join(tasters))
    if alone:
        desk.page.get_by_role("radio", name=re.compile("I am alone")).check()
    desk.look(WIDE, NARROW)
    desk.press("Save the draft")
    desk.sees("The draft is saved.")
    desk.press("Seal the table")
    desk.page.get_by_role("dialog").get_by_role("button", name="Seal the table").click()
    desk.sees(re.compile(r"^[0-9a-f]{64}$"))
    desk.look(WIDE, NARROW)
    desk.page.get_by_role("dialog").get_by_text("To the kettle").click()
    desk.page.wait_for_url(re.compile(r"#/pour/.+"))
    return desk.page.url.rpartition("/")[2]


def sit_down(
    phone: Screen, code: str, name: str, *, typed: bool, asks: str = "Smell the dry grounds."
) -> None:
    """With the code typed in small letters, or as the QR code's address brings it."""
    phone.go("#/join" if typed else f"#/join/{code}")
    if typed:
        phone.page.get_by_label("Code of the table").fill(f"{code[:3]} {code[3:]}".lower())
    phone.page.get_by_label("Your name").fill(name)
    phone.look()
    phone.has_large_targets()
    phone.press("Sit down")
    phone.sees(asks)


def cup(phone: Screen) -> str:
    """The place the phone asks about."""
    row = phone.page.get_by_role("group", name="The cups, in your order")
    label = row.locator("[aria-current=step]").get_attribute("aria-label") or ""
    return label.removeprefix("Cup ").partition(",")[0]


def go_on(phone: Screen) -> None:
    phone.page.locator("footer button").last.click()


def write_round(phone: Screen, words: dict[str, str], field: str, cups: int = 3) -> None:
    """One pass in words over all cups, in the phone's own order."""
    for _ in range(cups):
        phone.page.get_by_label(field).fill(words[cup(phone)])
        go_on(phone)


def slide(phone: Screen, label: str, share: float) -> None:
    """Touch a line at a share of its length."""
    line = phone.page.get_by_label(label, exact=True)
    line.scroll_into_view_if_needed()
    box = line.bounding_box()
    assert box is not None
    phone.page.mouse.click(box["x"] + box["width"] * share, box["y"] + box["height"] / 2)


class Table:
    """One table on its way through desk and phones."""

    def __init__(self, server: Any, open_screen: OpenScreen) -> None:
        self.server = server
        self.desk = open_screen(server.url)
        self.phones = {
            "Ada": open_screen(server.url, **phone_options("light")),
            "Ben": open_screen(server.url, **phone_options("dark")),
        }
        self.id = ""
        self.words: dict[str, str] = {}
        self.coffees: dict[str, str] = {}

    def get(self, path: str, **headers: str) -> Any:
        with self.server.client(**headers) as client:
            answer: httpx2.Response = client.get(path)
            assert answer.status_code == 200, answer.text
            return answer.json()

    def lay(self, name: str) -> None:
        """At the desk, as a host does it."""
        fill_shelf(self.desk)
        self.id = plan(self.desk, name, "Ada", "Ben")
        self._know_the_key()

    def lay_unseen(self, name: str, coffees: tuple[str, ...] = NAMES, **plan: Any) -> None:
        """The same without the desk's screens, for stories of the phone alone; the desk then shows it."""
        with self.server.client() as client:
            # A second table of one server finds them there, and then nothing is added.
            client.post("/api/coffees/import", json={"text": SHELF})
            ids = {coffee["name"]: coffee["id"] for coffee in client.get("/api/coffees").json()}
            plan = {
                key: [ids[one] for one in value] if key == "duplicates" else value
                for key, value in plan.items()
            }
            asked = {"name": name, "coffees": [ids[one] for one in coffees], "tasters": ["Ada", "Ben"]} | plan
            self.id = client.post("/api/tables", json=asked).json()["id"]
            assert client.post(f"/api/tables/{self.id}/seal", json={}).status_code == 200
        self.desk.go(f"#/pour/{self.id}")
        self._know_the_key()

    def _know_the_key(self) -> None:
        true = {line["code"]: line["coffee"]["name"] for line in self.get(f"/api/tables/{self.id}/pour-list")}
        self.words = {code: WORDS[name] for code, name in true.items()}
        self.coffees = true

    def seat_all(self) -> None:
        code = self.desk.page.locator(".code").inner_text()
        for number, (name, phone) in enumerate(self.phones.items()):
            sit_down(phone, code, name, typed=number == 1)
        self.desk.page.get_by_text("seated", exact=True).nth(1).wait_for()

    def held(self, name: str) -> list[dict[str, Any]]:
        """What the server holds of a seat, as its phone would be told."""
        token = self.phones[name].page.evaluate(_SEAT_IN_BROWSER)["token"]
        notes: list[dict[str, Any]] = self.get("/api/seat", Authorization=f"Bearer {token}")["notes"]
        return notes

    def arrived(self, name: str, notes: int) -> None:
        """Wait until the server holds so many notes of a seat, and the phone knows it."""
        deadline = time.monotonic() + PATIENCE_MS / 1000
        while len(self.held(name)) < notes and time.monotonic() < deadline:
            self.phones[name].page.wait_for_timeout(100)
        assert len(self.held(name)) == notes
        self.phones[name].sees("All notes are with the table")

    def open_key(self) -> None:
        self.desk.go(f"#/reveal/{self.id}")
        self.desk.press("Open the key")
        self.desk.page.get_by_role("dialog").get_by_role("button", name="Open the key").click()
        self.desk.sees("The key matches the seal")
