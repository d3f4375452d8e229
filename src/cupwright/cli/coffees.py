"""`cupwright coffees`: what is on the shelf, and a file of more."""

import argparse
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from cupwright.cli.asking import Commands, command, with_json
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import read_file, say, say_json, say_rows

if TYPE_CHECKING:
    from cupwright.steps.ports import Tools

LARGEST_COFFEE_FILE = 50_000_000


def add_to(commands: Commands) -> None:
    """Make the command known."""
    parser = command(commands, "coffees", coffees, says="List the coffees on the shelf, or add a file.")
    parser.add_argument("--add", metavar="FILE", type=Path, help="a CSV or XLSX file with a column 'name'")
    with_json(parser)


def coffees(joint: Joint, chosen: argparse.Namespace) -> None:
    """Add a file if one is named, then list."""
    from cupwright.core.plain import plain
    from cupwright.steps.coffees import list_coffees

    with joint.open_tools(data_folder(chosen.data)) as tools:
        if chosen.add:
            _add(tools, chosen.add)
        shelf = list_coffees(tools)
    if chosen.json:
        say_json(plain(shelf))
    elif shelf:
        say_rows(
            ("name", "roaster", "origin", "roasted", "grams left"),
            [(c.name, c.roaster, c.origin, _text(c.roast_date), _text(c.grams_left)) for c in shelf],
        )
    else:
        say("There is no coffee on the shelf.")


def _add(tools: "Tools", file: Path) -> None:
    from cupwright.errors import BadFile, Place
    from cupwright.steps.coffees import import_coffees_file

    result = import_coffees_file(tools, read_file(file, largest=LARGEST_COFFEE_FILE), file.name)
    if result.refused:
        first, more = result.refused[0], len(result.refused) - 1
        raise BadFile(
            first.message,
            todo=f"Nothing was added; {more} more lines were refused too." if more else "Nothing was added.",
            where=Place(file.name, first.line, first.column),
        )
    if result.unused:
        print(f"Not kept, since a coffee has no such field: {', '.join(result.unused)}.", file=sys.stderr)


def _text(value: object) -> str:
    if isinstance(value, float):
        return f"{value:g}"
    return "" if value is None else str(value)
