"""`cupwright sheets`: the sheets there are, and sheets of one's own: checked, kept, put away."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from cupwright.cli.asking import Commands, command, with_json
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import read_text, say, say_json

if TYPE_CHECKING:
    from cupwright.core.taste.sheet import Sheet


def add_to(commands: Commands) -> None:
    """Make the command known."""
    says = "List the sheets; check, keep or put away one of your own."
    parser = command(commands, "sheets", sheets, says=says)
    acts = parser.add_mutually_exclusive_group()
    acts.add_argument("--check", metavar="FILE.toml", type=Path, help="read a sheet without keeping it")
    acts.add_argument("--keep", metavar="FILE.toml", type=Path, help="keep a sheet, or its next version")
    acts.add_argument("--remove", metavar="NAME", help="put an own sheet away; tables that have it keep it")
    acts.add_argument("--text", metavar="NAME", help="print a sheet's file, to begin one of your own with")
    with_json(parser)


def sheets(joint: Joint, chosen: argparse.Namespace) -> None:
    """All sheets, or the one that an act is about, with their questions."""
    if chosen.remove or chosen.text:
        _put_away_or_print(joint, chosen)
    else:
        _say(_found(joint, chosen), as_json=chosen.json)


def _put_away_or_print(joint: Joint, chosen: argparse.Namespace) -> None:
    from cupwright.steps.sheets import remove_sheet, text_of_sheet

    with joint.open_tools(data_folder(chosen.data)) as tools:
        if chosen.text:
            say(text_of_sheet(tools, chosen.text).rstrip("\n"))
        else:
            remove_sheet(tools, chosen.remove)
            say(f"The sheet '{chosen.remove}' is put away.")


def _found(joint: Joint, chosen: argparse.Namespace) -> "tuple[Sheet, ...]":
    from cupwright.core.toml_reader import LARGEST_FILE
    from cupwright.steps.sheets import checked_sheet, keep_sheet, list_sheets

    if chosen.check:
        return (checked_sheet(read_text(chosen.check, largest=LARGEST_FILE), chosen.check.name),)
    with joint.open_tools(data_folder(chosen.data)) as tools:
        if chosen.keep:
            return (keep_sheet(tools, read_text(chosen.keep, largest=LARGEST_FILE), chosen.keep.name),)
        return list_sheets(tools)


def _say(found: "tuple[Sheet, ...]", *, as_json: bool) -> None:
    from cupwright.core.taste.sheet_file import sheet_as_data

    if as_json:
        say_json([sheet_as_data(sheet) for sheet in found])
        return
    for sheet in found:
        points = ", makes points" if sheet.points else ""
        say(f"{sheet.name}, version {sheet.version}: {sheet.title}{points}")
        for part in sheet.passes:
            say(f"  {part.title}: {', '.join(field.label for field in part.fields)}")
