"""`cupwright report`: a revealed table as PDF, HTML or data."""

import argparse
from pathlib import Path

from cupwright.cli.asking import Commands, command, with_json, with_table
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import say, write_file
from cupwright.cli.watch import Watch

FORMS = ("pdf", "html", "json")


def add_to(commands: Commands) -> None:
    """Make the command known."""
    parser = command(commands, "report", report, says="Write the report of a revealed table.")
    with_table(parser)
    parser.add_argument(
        "-o", "--output", metavar="FILE", type=Path, help="a file that ends in .pdf, .html or .json"
    )
    with_json(parser)


def report(joint: Joint, chosen: argparse.Namespace) -> None:
    """To a file, to standard output with --json, or both."""
    from cupwright.steps.plan import find_table
    from cupwright.steps.report import report_as

    form = _form(chosen)
    with joint.open_tools(data_folder(chosen.data)) as tools, Watch("Writing the report"):
        table = find_table(tools, chosen.table)
        if chosen.output:
            write_file(chosen.output, report_as(tools, table.id, form))
        as_data = report_as(tools, table.id, "json").decode() if chosen.json else ""
    say(as_data if chosen.json else f"Wrote {chosen.output}.")


def _form(chosen: argparse.Namespace) -> str:
    if not chosen.output:
        if not chosen.json:
            chosen.wrong_use("say where to: -o FILE.pdf, -o FILE.html, -o FILE.json, or --json")
        return "json"
    form = chosen.output.suffix.lower().removeprefix(".")
    if form not in FORMS:
        chosen.wrong_use(f"a report ends in .pdf, .html or .json, not '{chosen.output.name}'")
    return str(form)
