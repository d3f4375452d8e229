"""`cupwright progress`: how far the tasters are, without a word of what they wrote."""

import argparse

from cupwright.cli.asking import Commands, command, with_json, with_table
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import say, say_json, say_rows


def add_to(commands: Commands) -> None:
    """Make the command known."""
    says = "Show how far each taster is in each pass, without a word of what they wrote."
    parser = command(commands, "progress", progress, says=says)
    with_table(parser)
    with_json(parser)


def progress(joint: Joint, chosen: argparse.Namespace) -> None:
    """One line a seat."""
    from cupwright.core.plain import plain
    from cupwright.steps.plan import find_table
    from cupwright.steps.taste import progress_of

    with joint.open_tools(data_folder(chosen.data)) as tools:
        table = find_table(tools, chosen.table)
        seats = progress_of(tools, table.id)
    if chosen.json:
        say_json(plain(seats))
    elif seats:
        say_rows(
            ("taster", *(part.title for part in table.sheet.passes)),
            [(seat.name, *(f"{one.done} of {one.all}" for one in seat.passes)) for seat in seats],
        )
    else:
        say("Nobody has a seat at this table yet.")
