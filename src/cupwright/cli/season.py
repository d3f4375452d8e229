"""`cupwright season`: all opened tables together."""

import argparse

from cupwright.cli.asking import Commands, command, with_json
from cupwright.cli.blocks import say_blocks
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import say, say_json
from cupwright.cli.watch import Watch


def add_to(commands: Commands) -> None:
    """Make the command known."""
    says = "All opened tables together: how coffees compare across them, which changed, who scores high."
    with_json(command(commands, "season", season, says=says))


def season(joint: Joint, chosen: argparse.Namespace) -> None:
    """Every figure of the season."""
    from cupwright.steps.season import season_as_data, season_document

    with joint.open_tools(data_folder(chosen.data)) as tools, Watch("Counting"):
        found = season_as_data(tools) if chosen.json else season_document(tools)
    if isinstance(found, dict):
        say_json(found)
        return
    for label, value in found.facts:
        say(f"{label}: {value}")
    say_blocks(found.blocks)
