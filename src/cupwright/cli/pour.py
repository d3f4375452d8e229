"""`cupwright pour-list`, `labels`, `paper`: what the pourer needs, on screen and on paper."""

import argparse
from collections.abc import Sequence
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING

from cupwright.cli.asking import Commands, command, with_json, with_table
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import say, say_json, say_rows, write_file
from cupwright.cli.watch import Watch

if TYPE_CHECKING:
    from cupwright.core.pour.pour_list import PourLine


def add_to(commands: Commands) -> None:
    """Make the commands known."""
    says = "Show which coffee goes under which code. For the pourer alone: that you looked is written down."
    parser = command(commands, "pour-list", pour_list, says=says)
    with_table(parser)
    _with_paper(parser, required=False)
    with_json(parser)
    parser = command(commands, "labels", labels, says="Write the labels of the bowls as a PDF.")
    with_table(parser)
    _with_paper(parser, required=True)
    parser = command(commands, "paper", paper, says="Write the sheet to fill in by hand as a PDF.")
    with_table(parser)
    parser.add_argument("--seat", metavar="NAME", default="", help="one taster's sheet only")
    _with_paper(parser, required=True)


def pour_list(joint: Joint, chosen: argparse.Namespace) -> None:
    """Code by code, what goes into the bowls; to a PDF with its doses, if one is named."""
    if chosen.output and chosen.json:
        chosen.wrong_use("say where to: -o FILE.pdf or --json, not both")
    if chosen.output:
        _write_pour_list(joint, chosen)
    else:
        _say_pour_list(joint, chosen)


def _write_pour_list(joint: Joint, chosen: argparse.Namespace) -> None:
    from cupwright.steps.plan import find_table
    from cupwright.steps.pour import pour_list_paper

    with joint.open_tools(data_folder(chosen.data)) as tools, Watch("Setting the pour list"):
        write_file(chosen.output, pour_list_paper(tools, find_table(tools, chosen.table).id, chosen.size))
    say(f"Wrote {chosen.output}.")


def _say_pour_list(joint: Joint, chosen: argparse.Namespace) -> None:
    from cupwright.core.plain import plain
    from cupwright.steps.plan import find_table
    from cupwright.steps.pour import pour_list as lines_of

    with joint.open_tools(data_folder(chosen.data)) as tools:
        lines = lines_of(tools, find_table(tools, chosen.table).id)
    if chosen.json:
        say_json(plain(lines))
    else:
        _say_by_flight(lines)


def _say_by_flight(lines: "Sequence[PourLine]") -> None:
    parted = [(number, list(part)) for number, part in groupby(lines, key=lambda line: line.flight)]
    for number, part in parted:
        if len(parted) > 1:
            say(f"Flight {number} of {len(parted)}, to be ground only when it is next:")
        say_rows(
            ("code", "bowls", "coffee"), [(line.code, str(line.bowls), line.coffee.name) for line in part]
        )


def labels(joint: Joint, chosen: argparse.Namespace) -> None:
    """Labels for the undersides of the bowls."""
    from cupwright.steps.plan import find_table
    from cupwright.steps.pour import labels as labels_of

    with joint.open_tools(data_folder(chosen.data)) as tools, Watch("Setting the labels"):
        write_file(chosen.output, labels_of(tools, find_table(tools, chosen.table).id, chosen.size))
    say(f"Wrote {chosen.output}.")


def paper(joint: Joint, chosen: argparse.Namespace) -> None:
    """The sheet on paper."""
    from cupwright.steps.plan import find_table
    from cupwright.steps.pour import paper_sheet

    with joint.open_tools(data_folder(chosen.data)) as tools, Watch("Setting the sheet"):
        table = find_table(tools, chosen.table)
        write_file(chosen.output, paper_sheet(tools, table.id, chosen.size, chosen.seat))
    say(f"Wrote {chosen.output}.")


def _with_paper(parser: argparse.ArgumentParser, *, required: bool) -> None:
    parser.add_argument("-o", "--output", metavar="FILE.pdf", type=Path, required=required)
    parser.add_argument("--size", choices=("a4", "letter"), default="a4")
