"""The shelf: add, change, remove, list and import coffees."""

from dataclasses import replace

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.shelf import (
    ImportResult,
    checked_coffee,
    coffees_from,
    require_change,
    require_removal,
)
from cupwright.core.rows import Rows
from cupwright.steps.ports import Tools


def add_coffee(tools: Tools, coffee: Coffee) -> Coffee:
    """Put a coffee on the shelf; its id is given here, whatever it came with."""
    kept = replace(checked_coffee(coffee), id=tools.new_id())
    with tools.store.work() as work:
        work.coffees.add([kept])
    return kept


def change_coffee(tools: Tools, coffee: Coffee) -> Coffee:
    """Replace the coffee of that id. Raises WrongStep while a sealed table holds it, but for its grams."""
    kept = checked_coffee(coffee)
    with tools.store.work() as work:
        require_change(work.coffees.get(kept.id), kept, work.tables.all())
        work.coffees.replace(kept)
    return kept


def remove_coffee(tools: Tools, coffee_id: str) -> None:
    """Take a coffee off the shelf. Raises Clash while a table needs it, WrongStep while that is sealed."""
    with tools.store.work() as work:
        require_removal(work.coffees.get(coffee_id), work.tables.all())
        work.coffees.remove(coffee_id)


def list_coffees(tools: Tools) -> tuple[Coffee, ...]:
    """Every coffee, by name."""
    with tools.store.reading() as work:
        return work.coffees.all()


def import_coffees(tools: Tools, rows: Rows) -> ImportResult:
    """Put a file's coffees on the shelf: all of them, or none and every line that was refused."""
    with tools.store.work() as work:
        taken = [coffee.name for coffee in work.coffees.all()]
        result = coffees_from(rows, taken, tools.new_id)
        work.coffees.add(result.added)
    return result


def import_coffees_file(tools: Tools, data: bytes, file: str) -> ImportResult:
    """The same from the bytes of a CSV or XLSX file (or pasted text, encoded as UTF-8)."""
    return import_coffees(tools, tools.spreadsheets.read(data, file))
