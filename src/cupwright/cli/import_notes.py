"""`cupwright import`: notes about coffees that were known by name, from a file."""

import argparse
from pathlib import Path

from cupwright.cli.asking import Commands, command, with_json
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import read_file, say, say_json
from cupwright.cli.watch import Watch

LARGEST_NOTES_FILE = 50_000_000


def add_to(commands: Commands) -> None:
    """Make the command known."""
    says = "Make a table of a file of notes (CSV or XLSX), whose coffees were known by name."
    parser = command(commands, "import", import_notes, says=says)
    parser.add_argument("file", metavar="NOTES", type=Path)
    parser.add_argument("--table", metavar="NAME", required=True, help="what the new table is called")
    for meaning in ("taster", "coffee", "note"):
        parser.add_argument(
            f"--{meaning}", metavar="HEADING", default=meaning, help=f"the column of the {meaning}"
        )
    parser.add_argument(
        "--liking", metavar="HEADING", default="", help="the column of overall liking (liking or preference)"
    )
    with_json(parser)


def import_notes(joint: Joint, chosen: argparse.Namespace) -> None:
    """All notes of the file, or none."""
    from cupwright.core.taste.note_rows import NotesColumns
    from cupwright.steps.import_notes import import_notes_file

    columns = NotesColumns(chosen.taster, chosen.coffee, chosen.note, chosen.liking)
    data = read_file(chosen.file, largest=LARGEST_NOTES_FILE)
    with joint.open_tools(data_folder(chosen.data)) as tools, Watch("Reading the notes"):
        table = import_notes_file(tools, data, chosen.file.name, columns, chosen.table)
    if chosen.json:
        say_json(
            {
                "id": table.id,
                "name": table.plan.name,
                "coffees": len(table.places),
                "tasters": len(table.seats),
                "questions": [field.label for part in table.sheet.passes for field in part.fields],
            }
        )
    else:
        say(f"The table '{table.plan.name}' has {len(table.seats)} tasters and {len(table.places)} coffees.")
        say(f"Next: cupwright report '{table.plan.name}' -o report.pdf")
