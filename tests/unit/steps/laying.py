"""Tables at every step of the flow, laid through the steps themselves."""

import json
from dataclasses import replace
from typing import Any

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Blinding, Plan, Seat, Table
from cupwright.core.taste.note import Note
from cupwright.core.taste.stamp import Stamp
from cupwright.steps.coffees import add_coffee
from cupwright.steps.plan import plan_table, seal_table
from cupwright.steps.ports import Tools
from cupwright.steps.pour import start_clock


def shelved(tools: Tools, *names: str) -> tuple[Coffee, ...]:
    return tuple(
        add_coffee(tools, Coffee(id="", name=name, published_notes="cherry, cocoa", grams_left=500))
        for name in names
    )


def on_shelf(tools: Tools, coffee_id: str) -> Coffee:
    with tools.store.reading() as work:
        return work.coffees.get(coffee_id)


def a_plan(tools: Tools, **changes: Any) -> Plan:
    """Three coffees (put on the shelf) and two tasters."""
    ids = tuple(coffee.id for coffee in shelved(tools, "Lot 1", "Lot 2", "Lot 3"))
    return replace(Plan(name="Monday", coffees=ids, tasters=("Ada", "Ben")), **changes)


def drafted(tools: Tools, **changes: Any) -> Table:
    return plan_table(tools, a_plan(tools, **changes))


def sealed(tools: Tools, **changes: Any) -> Table:
    return seal_table(tools, drafted(tools, **changes).id)


def tasting(tools: Tools, **changes: Any) -> Table:
    return start_clock(tools, sealed(tools, **changes).id)


def shuffled(tools: Tools) -> Table:
    return tasting(tools, blinding=Blinding.SHUFFLE, bowls_per_sample=2, tasters=("Ada",))


def written(table: Table, seat: Seat, number: int = 1, **changes: Any) -> Note:
    note = Note(
        id=f"{seat.id}-{number}"[-40:],
        seat=seat.id,
        place=table.places[0],
        part="flavour",
        field="words",
        value="cherry",
        stamp=Stamp(number, "phone"),
        written_at=0,
    )
    return replace(note, **changes)


def saved_file(table: Table, seat: Seat, *notes: Note) -> bytes:
    """The file that a phone would save of these notes."""
    rows = [
        {
            "id": note.id,
            "place": note.place,
            "pass": note.part,
            "field": note.field,
            "value": note.value,
            "stamp": {"counter": note.stamp.counter, "device": note.stamp.device},
            "written_at": note.written_at,
        }
        for note in notes
    ]
    where = {"table": {"id": table.id, "name": table.plan.name}, "seat": {"id": seat.id, "name": seat.name}}
    return json.dumps({"cupwright_notes": 1, **where, "notes": rows}).encode()
