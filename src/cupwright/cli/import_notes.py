"""`cupwright import`: a file of notes becomes a table, or a phone's saved file goes to the table it names."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from cupwright.cli.asking import Commands, command, with_json
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import read_file, say, say_json
from cupwright.cli.watch import Watch

if TYPE_CHECKING:
    from cupwright.core.plan.table import Table
    from cupwright.steps.taste import TakenIn

LARGEST_NOTES_FILE = 50_000_000


def add_to(commands: Commands) -> None:
    """Make the command known."""
    says = (
        "Make a table of a file of notes (CSV or XLSX), whose coffees were known by name; or take in the "
        "file (JSON) that a phone saved, at the table it was saved from."
    )
    parser = command(commands, "import", import_notes, says=says)
    parser.add_argument("file", metavar="NOTES", type=Path)
    parser.add_argument(
        "--table", metavar="NAME", help="what the new table is called; a phone's file names its table"
    )
    for meaning in ("taster", "coffee", "note"):
        parser.add_argument(
            f"--{meaning}", metavar="HEADING", default=meaning, help=f"the column of the {meaning}"
        )
    parser.add_argument(
        "--liking", metavar="HEADING", default="", help="the column of overall liking (liking or preference)"
    )
    with_json(parser)


def import_notes(joint: Joint, chosen: argparse.Namespace) -> None:
    """What the file is shows in its content."""
    from cupwright.core.taste.notes_file import is_notes_file

    data = read_file(chosen.file, largest=LARGEST_NOTES_FILE)
    if is_notes_file(data):
        _take_in(joint, chosen, data)
    elif chosen.table:
        _make_table(joint, chosen, data)
    else:
        chosen.wrong_use("say what the new table is called: --table NAME")


def _take_in(joint: Joint, chosen: argparse.Namespace, data: bytes) -> None:
    """A phone's file; notes that cannot stand are told after the others are kept."""
    from cupwright.core.plain import plain
    from cupwright.steps.plan import find_table
    from cupwright.steps.taste import take_notes_file

    with joint.open_tools(data_folder(chosen.data)) as tools, Watch("Reading the notes"):
        table_id = find_table(tools, chosen.table).id if chosen.table else ""
        taken = take_notes_file(tools, data, chosen.file.name, table_id)
    if chosen.json:
        answer = {"table": taken.table.plan.name, "id": taken.table.id, "seat": taken.seat_name}
        counts = {"kept": taken.kept, "new": taken.new, "late": taken.late}
        say_json({**answer, **counts, "refused": plain(taken.refused)})
    else:
        _say_taken(taken)
    _complain_of_refused(taken, chosen.file.name)


def _say_taken(taken: "TakenIn") -> None:
    from cupwright.core.report.wording import counted

    kept = f"{counted(taken.kept, 'note')} kept, {taken.new} of them new."
    say(f"{taken.seat_name} at '{taken.table.plan.name}': {kept}")
    if taken.late and taken.new:
        say("The key was open already: the new ones are shown as late, and left out of every count.")


def _complain_of_refused(taken: "TakenIn", file: str) -> None:
    from cupwright.errors import BadFile, Place

    if taken.refused:
        first, more = taken.refused[0], len(taken.refused) - 1
        raise BadFile(
            f"Note {first.number} was not taken: {first.message}",
            todo=f"So it was with {more} more; all others were kept." if more else "All others were kept.",
            where=Place(file),
        )


def _say_made(table: "Table") -> None:
    """Its size, and what each column was taken for: a wrong guess shows here and not in the report."""
    from cupwright.core.report.wording import counted
    from cupwright.core.taste.sheet import Kind

    size = f"{counted(len(table.seats), 'taster')} and {counted(len(table.places), 'coffee')}"
    say(f"The table '{table.plan.name}' has {size}.")
    kinds = {Kind.WORDS: "words to read", Kind.LINE: "a scale", Kind.TEXT: "kept as text"}
    for part in table.sheet.passes:
        for field in part.fields:
            ends = f" of answers from {field.low:g} to {field.high:g}" if field.kind is Kind.LINE else ""
            liking = ", the liking" if table.sheet.liking == (part.id, field.id) else ""
            say(f"  {field.label}: {kinds[field.kind]}{ends}{liking}")


def _make_table(joint: Joint, chosen: argparse.Namespace, data: bytes) -> None:
    """All notes of the file, or none."""
    from cupwright.core.taste.note_rows import NotesColumns
    from cupwright.steps.import_notes import import_notes_file

    columns = NotesColumns(chosen.taster, chosen.coffee, chosen.note, chosen.liking)
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
        _say_made(table)
        say(f"Next: cupwright report '{table.plan.name}' -o report.pdf")
