"""`cupwright backup` and `restore`: a copy of everything, and back."""

import argparse
from pathlib import Path

from cupwright.cli.asking import Commands, command
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import say
from cupwright.cli.watch import Watch


def add_to(commands: Commands) -> None:
    """Make the commands known."""
    parser = command(commands, "backup", backup, says="Copy everything into one file; the server may run.")
    parser.add_argument("file", metavar="FILE", type=Path)
    parser = command(commands, "restore", restore, says="Put a copy in place; the server must be stopped.")
    parser.add_argument("file", metavar="FILE", type=Path)
    parser.add_argument("--overwrite", action="store_true", help="replace what the data folder holds")


def backup(joint: Joint, chosen: argparse.Namespace) -> None:
    """A checked copy, wholly or not at all."""
    from cupwright.steps.backup import backup as copy_to

    with joint.open_tools(data_folder(chosen.data)) as tools, Watch("Copying"):
        written = copy_to(tools, chosen.file)
    say(f"Wrote {written}.")


def restore(joint: Joint, chosen: argparse.Namespace) -> None:
    """Everything as it was when the copy was made."""
    from cupwright.steps.backup import restore as restore_from

    with joint.open_tools(data_folder(chosen.data), alone=True) as tools, Watch("Restoring"):
        restore_from(tools, chosen.file, overwrite=chosen.overwrite)
    say(f"Restored {chosen.file}.")
