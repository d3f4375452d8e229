"""The program: reads the command line, runs one command, turns what happened into an exit code.

    0  done
    1  refused input (one sentence on standard error says what, where and what to do)
    2  wrong use (an unknown command or option)

Only the standard library is imported before a command is chosen, so `--help` answers at once.
"""

import argparse
import os
import re
import sys
from collections.abc import Sequence

from cupwright import __version__
from cupwright.cli import (
    analyse,
    backup,
    clock,
    coffees,
    import_notes,
    kin,
    own_words,
    plan,
    points,
    pour,
    protocols,
    read,
    recipe,
    report,
    reveal,
    season,
    serve,
    sheets,
    size,
    taste,
    water,
)
from cupwright.cli.joint import Joint
from cupwright.cli.said import complain, complain_of_fault
from cupwright.errors import CupwrightError

DONE, REFUSED, WRONG_USE = 0, 1, 2

_ROOMS = (
    serve,
    coffees,
    plan,
    size,
    pour,
    clock,
    recipe,
    water,
    protocols,
    sheets,
    taste,
    points,
    reveal,
    analyse,
    season,
    report,
    import_notes,
    read,
    kin,
    own_words,
    backup,
)


def main(arguments: Sequence[str], joint: Joint) -> int:
    """Run one command; the result is the exit code."""
    for stream in (sys.stdout, sys.stderr):
        # A terminal that cannot show a letter shows a sign in its place rather than a fault.
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    chosen = _parser().parse_args(_with_values_below_zero(arguments))
    try:
        chosen.run(joint, chosen)
        sys.stdout.flush()
    except CupwrightError as refusal:
        complain(refusal)
        return REFUSED
    except KeyboardInterrupt:
        return REFUSED
    except BrokenPipeError:
        # Whoever read our output has had enough of it; nothing more may be written there at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    except Exception as fault:
        complain_of_fault(fault)
        return REFUSED
    return DONE


def _with_values_below_zero(arguments: Sequence[str]) -> list[str]:
    """`--bowl -5ml` as `--bowl=-5ml`: argparse takes a minus sign before a unit for an option."""
    joined: list[str] = []
    for argument in arguments:
        last = joined[-1] if joined else ""
        if re.match(r"-\.?\d", argument) and re.fullmatch(r"--[a-z][a-z-]*", last):
            joined[-1] = f"{last}={argument}"
        else:
            joined.append(argument)
    return joined


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="cupwright",
        description="From a fair blind table to words and decisions that hold up.",
        epilog="`cupwright COMMAND --help` tells more about one command.",
        allow_abbrev=False,
    )
    parser.add_argument("--version", action="version", version=f"cupwright {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    for room in _ROOMS:
        room.add_to(commands)
    return parser
