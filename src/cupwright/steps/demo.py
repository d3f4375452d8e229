"""Demo: an invented scenario, laid through the same steps that a user takes (see demo.toml)."""

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import timedelta
from importlib.resources import files
from typing import Any

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Blinding, Plan, Seat, Table
from cupwright.core.taste.note import Note
from cupwright.core.taste.stamp import next_stamp
from cupwright.steps.coffees import add_coffee
from cupwright.steps.desk import new_token, token_hash
from cupwright.steps.plan import plan_table, seal_table
from cupwright.steps.ports import Tools
from cupwright.steps.pour import now_ms, pour_list, start_clock
from cupwright.steps.reveal import open_key
from cupwright.steps.taste import take_seat_at_desk, write_notes

TASTED_BEFORE = timedelta(days=1)
SECONDS_A_NOTE = 8


def load_demo(tools: Tools) -> tuple[Table, ...]:
    """Eight coffees, a finished table, one to be tasted, a draft. Raises Clash if they are there already."""
    scenario = tomllib.loads((files("cupwright.steps") / "demo.toml").read_text(encoding="utf-8"))
    shelf = {row["name"]: add_coffee(tools, _coffee(tools, row)).id for row in scenario["coffees"]}
    finished = _finished(_earlier(tools), scenario["finished"], shelf)
    ready = seal_table(tools, plan_table(tools, _plan(scenario["ready"], shelf)).id)
    draft = plan_table(tools, _plan(scenario["draft"], shelf))
    return finished, ready, draft


def _earlier(tools: Tools) -> Tools:
    """The same tools on a clock that is a day behind."""
    return replace(tools, now=lambda: tools.now() - TASTED_BEFORE)


def _coffee(tools: Tools, row: Mapping[str, Any]) -> Coffee:
    told = {key: value for key, value in row.items() if key != "roasted_days_ago"}
    roasted = tools.now().date() - timedelta(days=row["roasted_days_ago"])
    return Coffee(id="", roast_date=roasted, **told)


def _plan(told: Mapping[str, Any], shelf: Mapping[str, str]) -> Plan:
    asked = {key: value for key, value in told.items() if key != "notes"}
    asked["coffees"] = tuple(shelf[name] for name in told["coffees"])
    asked["tasters"] = tuple(told["tasters"])
    return Plan(**{**asked, "blinding": Blinding(told["blinding"])})


def _finished(tools: Tools, told: Mapping[str, Any], shelf: Mapping[str, str]) -> Table:
    """A table from the first plan to the open key."""
    table = seal_table(tools, plan_table(tools, _plan(told, shelf)).id)
    at = {line.coffee.name: line.code for line in pour_list(tools, table.id)}
    start_clock(tools, table.id)
    for seat in table.seats:
        take_seat_at_desk(tools, table.id, seat.name, token_hash(new_token(tools)))
        said = {at[n["coffee"]]: n for n in told["notes"] if n["taster"] == seat.name}
        write_notes(tools, table.id, seat.id, tuple(_notes(tools, table, seat, said)))
    return open_key(tools, table.id)


def _notes(tools: Tools, table: Table, seat: Seat, said: Mapping[str, Mapping[str, Any]]) -> Iterator[Note]:
    """A seat's notes in the order of tasting: pass by pass, over all places in the seat's own order."""
    began, counter = now_ms(tools), 0
    for part in table.sheet.passes:
        for place in seat.order:
            for field, value in said[place][part.id].items():
                stamp = next_stamp(counter, f"demo-{seat.name.lower()}")
                counter = stamp.counter
                written_at = began + counter * SECONDS_A_NOTE * 1000
                yield Note(tools.new_id(), seat.id, place, part.id, field, value, stamp, written_at)
