"""Import notes: a file about coffees that were known by name becomes a table whose key is open."""

from collections.abc import Sequence

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.names import folded
from cupwright.core.plan.table import Table
from cupwright.core.rows import Rows
from cupwright.core.taste.imported import imported_notes, imported_table
from cupwright.core.taste.note_rows import NotesColumns, NotesFile, notes_file
from cupwright.steps.plan import sealed
from cupwright.steps.ports import Tools, Work
from cupwright.steps.pour import now_ms


def import_notes(tools: Tools, rows: Rows, columns: NotesColumns, table_name: str) -> Table:
    """Keep the notes of a file as a table of that name, wholly or not at all.

    Coffees that are not on the shelf are put there by name. Raises BadFile, TooLarge, Clash.
    """
    read = notes_file(rows, columns)
    with tools.store.work() as work:
        table = _kept(tools, work, read, table_name)
        work.events.append(table.id, "imported", tools.now(), {"file": read.file, "lines": len(read.lines)})
    tools.announce(table.id, "reveal")
    return table


def import_notes_file(tools: Tools, data: bytes, file: str, columns: NotesColumns, table_name: str) -> Table:
    """The same from the bytes of a CSV or XLSX file."""
    return import_notes(tools, tools.spreadsheets.read(data, file), columns, table_name)


def _kept(tools: Tools, work: Work, read: NotesFile, name: str) -> Table:
    coffee_ids = _on_the_shelf(tools, work, read.coffees)
    bare = imported_table(
        read, name, coffee_ids, table_id=tools.new_id(), created=tools.now(), ids=tools.new_id
    )
    table, key = sealed(tools, bare)
    work.tables.add(table)
    work.keys.put(table.id, key)
    notes = imported_notes(read, table, at_ms=now_ms(tools), ids=tools.new_id)
    work.notes.add(table.id, notes, tools.now())
    return table


def _on_the_shelf(tools: Tools, work: Work, names: Sequence[str]) -> dict[str, str]:
    """Name -> coffee id; names that are new are put on the shelf."""
    shelf = {folded(coffee.name): coffee.id for coffee in work.coffees.all()}
    new = [Coffee(id=tools.new_id(), name=name) for name in names if folded(name) not in shelf]
    work.coffees.add(new)
    shelf |= {folded(coffee.name): coffee.id for coffee in new}
    return {name: shelf[folded(name)] for name in names}
