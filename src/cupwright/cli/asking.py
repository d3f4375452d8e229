"""Asking: what every command shares of the command line."""

import argparse
from collections.abc import Callable
from typing import TypeAlias

from cupwright.cli.data_folder import VARIABLE
from cupwright.cli.joint import Joint

Commands: TypeAlias = "argparse._SubParsersAction[argparse.ArgumentParser]"
Command: TypeAlias = Callable[[Joint, argparse.Namespace], None]


def command(commands: Commands, name: str, run: Command, *, says: str) -> argparse.ArgumentParser:
    """A command called `name`; `says` is its help. Every command takes --data."""
    parser = commands.add_parser(name, help=says, description=says, allow_abbrev=False)
    parser.register("type", int, _whole_number)
    parser.register("type", float, _number)
    parser.set_defaults(run=run, wrong_use=parser.error)
    parser.add_argument(
        "--data", metavar="DIR", help=f"the data folder (else ${VARIABLE}, else your own data folder)"
    )
    return parser


def _whole_number(text: str) -> int:
    try:
        return int(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"'{text}' is not a whole number, such as 8") from None


def _number(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"'{text}' is not a number, such as 8 or 0.5") from None


def with_table(parser: argparse.ArgumentParser) -> None:
    """For a command about one table."""
    parser.add_argument("table", metavar="TABLE", help="the name of the table, or its id")


def with_json(parser: argparse.ArgumentParser) -> None:
    """For a command that answers with data."""
    parser.add_argument("--json", action="store_true", help="answer with JSON on standard output")
