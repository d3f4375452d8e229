"""Sheets with points, orders and the odd one in a real browser: phones, the desk's keyboard, and the sums."""

import itertools
import re
from typing import Any

import pytest
from playwright.sync_api import expect
from tests.flow.browser import OpenScreen, Screen
from tests.flow.browser_acts import NARROW, WIDE, Table, cup, go_on, sit_down, write_round

pytestmark = pytest.mark.browser

HILL, RIVER = "Hill lot 7", "River lot 2"
tables = (f"Sheets {number}" for number in itertools.count(1))

# The hundred-point sheet's passes with points, in its order; Ada gives 8 in all seven, Ben 7.5.
JUDGED = (
    ("Aroma in your words", "Fragrance and aroma"),
    ("Flavour in your words", "Flavour", "Aftertaste"),
    ("How it feels, in your words", "Acidity", "Body", "Balance"),
)
ALIKE = ("Uniformity: All cups alike", "Clean cup: All cups clean", "Sweetness: All cups sweet")
# 7 x 8.00 + 8 + 8 + 10 - 4, 7 x 8.00 + 30, 7 x 7.50 + 8 + 8 + 10 - 2: by hand.
ADA_FAULT, ADA_CLEAN, BEN_TAINT = "78.00", "86.00", "76.50"


def lay(server: Any, open_screen: OpenScreen, coffees: tuple[str, ...], **plan: Any) -> Table:
    table = Table(server, open_screen)
    table.lay_unseen(next(tables), coffees, **plan)
    return table


def seat(table: Table, *names: str, asks: str) -> None:
    code = table.get(f"/api/tables/{table.id}/join")["code"]
    for name in names:
        sit_down(table.phones[name], code, name, typed=False, asks=asks)


def judge(phone: Screen, words: dict[str, str]) -> None:
    """Words and points of the three passes that have both, over both samples."""
    for own, *scores in JUDGED:
        for _ in range(2):
            phone.page.get_by_label(own, exact=True).fill(words[cup(phone)])
            for score in scores:
                phone.page.get_by_label(score, exact=True).fill("8")
            phone.look()
            phone.has_large_targets()
            go_on(phone)


def mark_cups(phone: Screen, faulty: str) -> None:
    """One cup of one sample has a fault; all cups of the other are as they should be."""
    for _ in range(2):
        if cup(phone) == faulty:
            find_fault(phone)
        else:
            for all_good in (*ALIKE, "Taints and faults: None in any cup"):
                phone.press(all_good)
            expect(phone.page.get_by_text("smell and taste the other")).to_have_count(0)
        go_on(phone)


def find_fault(phone: Screen) -> None:
    """A fault in cup 3 asks for the other four, and stands only when they were tried."""
    phone.press("Cup 3 is not alike")
    phone.press("Cup 3 is not clean")
    phone.press("Sweetness: All cups sweet")
    found = phone.page.get_by_role("group", name="Taints and faults")
    found.get_by_role("radiogroup", name="Cup 3").get_by_role("radio", name="fault").check()
    phone.sees(re.compile(r"^Cup 3 of \d{3} has a fault: smell and taste the other four before"))
    phone.sees("Points: 60.00 to 80.00 still possible")
    phone.look()
    phone.has_large_targets()
    for number in (1, 2, 4, 5):
        found.get_by_role("radiogroup", name=f"Cup {number}").get_by_role("radio", name="clean").check()
    expect(phone.page.get_by_text("smell and taste the other")).to_have_count(0)
    phone.sees("Points: 76.00 to 80.00 still possible")


def type_in(desk: Screen, order: list[str]) -> None:
    """A paper sheet at the desk, without touching the mouse."""
    keys = desk.page.keyboard
    desk.page.get_by_role("button", name="Ben", exact=True).focus()
    keys.press("Enter")
    rows = (
        ("dry straw",),
        ("black tea", "7.5"),
        ("plum, jam", "7,5", "7.50"),
        ("silky", "7.5", "7.5", "7.5"),
    )
    for row in (*rows, ("3", "3", "0", "3t."), ("7.5", "honest")):
        for place in order:
            for cell in row:
                expect(desk.page.locator("input:focus")).to_have_attribute(
                    "aria-label", re.compile(f", {place}$")
                )
                keys.type(cell)
                keys.press("Enter")
    desk.sees("All is kept")


def read_totals(table: Table) -> None:
    """Both totals, at the desk's reveal, in the analysis and on the phone, each with its lines."""
    desk, ada = table.desk, table.phones["Ada"]
    for total in (ADA_FAULT, ADA_CLEAN, BEN_TAINT):
        desk.sees(total)
    desk.look(WIDE, NARROW)
    for fold in desk.page.locator("summary", has_text="How it adds up").all():
        fold.click()
    for found in ("taint 2 = 2", "fault 4 = 4"):
        desk.sees(f"Taints and faults: cup 3 a {found}, taken away")
    desk.go(f"#/analyse/{table.id}")
    hill = desk.page.get_by_role("row", name=re.compile(HILL)).filter(has_text=BEN_TAINT)
    expect(hill).to_contain_text(ADA_FAULT)
    expect(hill).to_contain_text("77.25")
    desk.look(WIDE, NARROW)

    ada.press("See the reveal", "link")
    region = ada.page.get_by_role("region", name=HILL)
    for total in (ADA_FAULT, BEN_TAINT):
        region.get_by_text(total).first.wait_for()
    ada.look()
    ada.has_large_targets()


def test_points_from_a_phone_and_from_paper_stand_side_by_side(server: Any, open_screen: OpenScreen) -> None:
    table = lay(server, open_screen, (HILL, RIVER), sheet="hundred-point", bowls_per_sample=5)
    seat(table, "Ada", asks="Smell the dry grounds.")
    ada, desk = table.phones["Ada"], table.desk
    faulty = next(code for code, coffee in table.coffees.items() if coffee == HILL)

    write_round(ada, table.words, "Fragrance in your words", cups=2)
    judge(ada, table.words)
    table.arrived("Ada", 2 + 4 + 6 + 8)

    for screen in (ada, desk):
        screen.without_server()
    server.kill()
    mark_cups(ada, faulty)
    ada.sees(re.compile("notes unsent, kept on this phone"))
    for _ in range(2):
        ada.page.get_by_label("Overall", exact=True).fill("8")
        total = ADA_FAULT if cup(ada) == faulty else ADA_CLEAN
        ada.sees(f"Points: {total}")
        if ada.page.locator("footer button").last.is_enabled():
            go_on(ada)
    ada.page.locator("summary", has_text="How it adds up").click()
    ada.sees("Sweetness: 5 of 5 cups sweet: 5 x 2 = 10")
    ada.look()
    server.start()
    ada.page.wait_for_function("() => document.body.innerText.includes('All notes are with the table')")

    desk.go(f"#/paper/{table.id}")
    ben = next(one for one in table.get(f"/api/tables/{table.id}")["seats"] if one["name"] == "Ben")
    desk.look(WIDE, NARROW)
    type_in(desk, ben["order"])
    desk.look(WIDE, NARROW)

    table.open_key()
    read_totals(table)


def test_an_order_of_all_cups_is_given_by_two_and_reported(
    shared_server: Any, open_screen: OpenScreen
) -> None:
    table = lay(shared_server, open_screen, (HILL, RIVER, "Ridge lot 5"), sheet="ranking", bowls_per_sample=1)
    seat(table, "Ada", "Ben", asks="Taste this cup.")
    codes = {coffee: code for code, coffee in table.coffees.items()}
    best = [codes[HILL], codes[RIVER], codes["Ridge lot 5"]]
    for name, phone in table.phones.items():
        write_round(phone, table.words, "In your words")
        phone.sees("Which comes first?")
        for number, code in enumerate(best, start=1):
            phone.press(f"{code} as number {number}")
        if name == "Ben":
            phone.press(f"{best[1]} further up")
        phone.look()
        phone.has_large_targets()
        table.arrived(name, 6 if name == "Ada" else 7)

    table.open_key()
    table.desk.go(f"#/report/{table.id}")
    rows = table.desk.page.get_by_role("row")
    for coffee, ranks in ((HILL, "3"), (RIVER, "3"), ("Ridge lot 5", "6")):
        expect(rows.filter(has_text=codes[coffee]).filter(has_text=f"{ranks}.0").first).to_be_visible()
    table.desk.look(WIDE, NARROW)


def test_two_pick_the_odd_one_of_three_and_the_report_says_who_was_right(
    shared_server: Any, open_screen: OpenScreen
) -> None:
    odd_one = {"sheet": "odd-one-out", "bowls_per_sample": 1, "duplicates": [HILL]}
    table = lay(shared_server, open_screen, (HILL, RIVER), **odd_one)
    seat(table, "Ada", "Ben", asks="Taste this cup.")
    odd = next(code for code, coffee in table.coffees.items() if coffee == RIVER)
    other = next(code for code, coffee in table.coffees.items() if coffee == HILL)
    for name, phone in table.phones.items():
        write_round(phone, table.words, "In your words")
        phone.page.get_by_role("radio", name=odd if name == "Ada" else other).check()
        phone.page.get_by_role("radio", name="fairly sure").check()
        phone.look()
        phone.has_large_targets()
        table.arrived(name, 5)

    table.open_key()
    table.desk.go(f"#/report/{table.id}")
    table.desk.sees(f"1 of 2 tasters picked {odd}, which was the odd one; by guessing alone one in 3 would.")
    table.desk.look(WIDE, NARROW)
