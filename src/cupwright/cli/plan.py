"""`cupwright plan`, `tables`, `brief`, `seal`: a table from a file, and what it needs."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from cupwright.cli.asking import Commands, command, with_json, with_table
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import read_text, say, say_json, say_pairs, say_rows

if TYPE_CHECKING:
    from cupwright.core.plan.table import Table
    from cupwright.core.pour.brief import Brief


def add_to(commands: Commands) -> None:
    """Make the commands known."""
    parser = command(commands, "plan", plan, says="Plan a table from a TOML file and print its brief.")
    parser.add_argument("file", metavar="TABLE.toml", type=Path)
    parser.add_argument("--seal", action="store_true", help="seal it at once, so that tasters can sit down")
    with_json(parser)
    with_json(command(commands, "tables", tables, says="List the tables, the newest first."))
    parser = command(commands, "brief", brief, says="Print what a table needs and the order of work.")
    with_table(parser)
    with_json(parser)
    parser = command(commands, "seal", seal, says="Seal a planned table: coffees go under codes at random.")
    with_table(parser)
    with_json(parser)


def plan(joint: Joint, chosen: argparse.Namespace) -> None:
    """Read the file, put its new coffees on the shelf, draft the table."""
    from cupwright.cli.table_file import LARGEST_TABLE_FILE, read_table_file
    from cupwright.steps.plan import brief as brief_of
    from cupwright.steps.plan import plan_with_coffees, seal_table

    asked = read_table_file(read_text(chosen.file, largest=LARGEST_TABLE_FILE), chosen.file.name)
    with joint.open_tools(data_folder(chosen.data)) as tools:
        table = plan_with_coffees(tools, asked.plan, asked.coffees, asked.twice)
        if chosen.seal:
            table = seal_table(tools, table.id)
        _answer(table, brief_of(tools, table.id), as_json=chosen.json)


def tables(joint: Joint, chosen: argparse.Namespace) -> None:
    """All tables."""
    from cupwright.steps.plan import list_tables

    with joint.open_tools(data_folder(chosen.data)) as tools:
        found = list_tables(tools)
    if chosen.json:
        say_json([_table_data(table) for table in found])
    elif found:
        say_rows(
            ("name", "step", "coffees", "bowls", "tasters", "planned"),
            [
                (
                    table.plan.name,
                    str(table.step),
                    str(len(table.plan.coffees)),
                    str(len(table.bowls)),
                    str(len(table.seats)),
                    f"{table.created.astimezone():%Y-%m-%d %H:%M}",
                )
                for table in found
            ],
        )
    else:
        say("There is no table yet.")


def brief(joint: Joint, chosen: argparse.Namespace) -> None:
    """The brief of one table."""
    from cupwright.steps.plan import brief as brief_of
    from cupwright.steps.plan import find_table

    with joint.open_tools(data_folder(chosen.data)) as tools:
        table = find_table(tools, chosen.table)
        _answer(table, brief_of(tools, table.id), as_json=chosen.json)


def seal(joint: Joint, chosen: argparse.Namespace) -> None:
    """Seal one table."""
    from cupwright.steps.plan import find_table, seal_table

    with joint.open_tools(data_folder(chosen.data)) as tools:
        table = seal_table(tools, find_table(tools, chosen.table).id)
    if chosen.json:
        say_json(_table_data(table))
    else:
        say_pairs({"Table": table.plan.name, "Seal": table.commitment, "Join code": table.join_code})
        _say_next(table)


def _table_data(table: "Table") -> dict[str, object]:
    """A table without its key; the sheet by its name."""
    from cupwright.core.plain import plain

    return {
        "id": table.id,
        "name": table.plan.name,
        "step": str(table.step),
        "created": table.created.isoformat(),
        "plan": plain(table.plan),
        "places": list(table.places),
        "seats": plain(table.seats),
        "commitment": table.commitment,
        "join_code": table.join_code,
    }


def _answer(table: "Table", needs: "Brief", *, as_json: bool) -> None:
    from cupwright.core.plain import plain
    from cupwright.core.pour.boiling import kettle_in_words

    if as_json:
        say_json({"table": _table_data(table), "brief": plain(needs)})
        return
    recipe = needs.recipe
    say_pairs(
        {
            "Table": f"{table.plan.name} ({table.step})",
            "Seal": table.commitment or "not sealed yet",
            "Join code": table.join_code,
            "Protocol": f"{table.protocol.title} ({table.protocol.name}, version {table.protocol.version})",
            "Dose": f"{recipe.dose_g:g} g a bowl ({recipe.low_g:.2f} to {recipe.high_g:.2f} g)",
            "Bowls": f"{recipe.bowls} of {recipe.bowl_ml:g} mL, {recipe.spare_bowls} spare",
            "Coffee": f"{recipe.total_coffee_g:g} g",
            "Water": f"{recipe.water_to_heat_ml:.0f} mL to heat, {recipe.water_poured_ml:.0f} mL to pour",
            "Kettle": kettle_in_words(recipe.boiling),
        }
    )
    say("")
    for need in needs.coffees:
        say(f"  {need.grams:g} g  {need.name}")
    say(f"\nServing orders: {needs.balance.in_words}")
    _say_tasks(needs)
    _say_held_against(needs)
    _say_next(table)


def _say_next(table: "Table") -> None:
    from cupwright.core.flow import Step

    name = table.plan.name
    if table.step is Step.PLAN:
        say(f"\nNext: cupwright seal '{name}'")
    elif table.step is Step.POUR:
        labels, codes = f"cupwright labels '{name}' -o labels.pdf", f"cupwright pour-list '{name}'"
        say(f"\nNext: {labels}, and for the pourer {codes}")


def _say_tasks(needs: "Brief") -> None:
    say("")
    for number, task in enumerate(needs.tasks, start=1):
        say(f"{number:2}. {task.title}: {task.detail}")
        if task.caution:
            say(f"    Caution: {task.caution}")
    for warning in needs.warnings:
        say(f"\nNote: {warning}")


def _say_held_against(needs: "Brief") -> None:
    """Where the plan leaves its protocol, and what it asks of the people."""
    off = [one.sentence for one in needs.deviations if one.known]
    say("\nOff the protocol:" if off else "\nThe plan keeps to its protocol as far as it tells.")
    _say_list(off)
    unknown = [one.sentence for one in needs.deviations if not one.known]
    if unknown:
        say("\nThe plan does not tell; see to it:")
        _say_list(unknown)
    say("\nFor the people at the table:")
    _say_list([one.sentence for one in needs.limits])


def _say_list(sentences: list[str]) -> None:
    for sentence in sentences:
        say(f"  - {sentence}")
