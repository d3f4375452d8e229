"""`cupwright report` and `diary`: a revealed table as PDF, HTML or data, and what happened at a table."""

import argparse
from pathlib import Path

from cupwright.cli.asking import Commands, command, with_json, with_table
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import say, say_json, write_file
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

    parser = command(commands, "diary", diary, says="Show what happened at a table, checked line by line.")
    with_table(parser)
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


def diary(joint: Joint, chosen: argparse.Namespace) -> None:
    """What happened, in order; refused if a line was changed after it was written."""
    from cupwright.core.plain import plain
    from cupwright.steps.diary import diary as lines_of
    from cupwright.steps.plan import find_table

    with joint.open_tools(data_folder(chosen.data)) as tools:
        lines = lines_of(tools, find_table(tools, chosen.table).id)
    if chosen.json:
        say_json(plain(lines))
        return
    for line in lines:
        say(f"{line.at.astimezone():%Y-%m-%d %H:%M:%S}  {line.digest[:12]}  {line.kind}")
    say(f"The digest of the last line is {lines[-1].digest if lines else 'none'}.")


def _form(chosen: argparse.Namespace) -> str:
    if not chosen.output:
        if not chosen.json:
            chosen.wrong_use("say where to: -o FILE.pdf, -o FILE.html, -o FILE.json, or --json")
        return "json"
    form = chosen.output.suffix.lower().removeprefix(".")
    if form not in FORMS:
        chosen.wrong_use(f"a report ends in .pdf, .html or .json, not '{chosen.output.name}'")
    return str(form)
