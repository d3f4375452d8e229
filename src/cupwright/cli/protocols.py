"""`cupwright protocols`: the protocols there are, what each asks, and one's own."""

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from cupwright.cli.asking import Commands, command, with_json
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import read_text, say, say_json, say_rows

if TYPE_CHECKING:
    from cupwright.core.plan.protocol import Protocol
    from cupwright.steps.protocols import ListedProtocol


def add_to(commands: Commands) -> None:
    """Make the command known."""
    says = "List the protocols, show what one asks, or check and keep one of your own."
    parser = command(commands, "protocols", protocols, says=says)
    what = parser.add_mutually_exclusive_group()
    what.add_argument("--show", metavar="NAME", help="all that one asks, each with its source")
    what.add_argument("--file", metavar="NAME", help="print its file, to begin one of your own with")
    what.add_argument("--check", metavar="FILE.toml", type=Path, help="read a file without keeping it")
    what.add_argument("--keep", metavar="FILE.toml", type=Path, help="keep it, or its next version")
    what.add_argument("--remove", metavar="NAME", help="put one of your own out of sight")
    with_json(parser)


def protocols(joint: Joint, chosen: argparse.Namespace) -> None:
    """The one thing that was asked for, else the list."""
    if chosen.check:
        _check(chosen)
    elif chosen.keep:
        _keep(joint, chosen)
    elif chosen.remove:
        _remove(joint, chosen)
    elif chosen.show or chosen.file:
        _show(joint, chosen)
    else:
        _list(joint, chosen)


def _list(joint: Joint, chosen: argparse.Namespace) -> None:
    from cupwright.steps.protocols import list_protocols

    with joint.open_tools(data_folder(chosen.data)) as tools:
        listed = list_protocols(tools)
    if chosen.json:
        say_json([_data(one) for one in listed])
        return
    rows = [
        (one.protocol.name, str(one.protocol.version), _whose(one), one.protocol.about or one.protocol.title)
        for one in listed
    ]
    say_rows(("name", "version", "whose", "what it is"), rows)


def _show(joint: Joint, chosen: argparse.Namespace) -> None:
    from cupwright.steps.protocols import find_protocol

    with joint.open_tools(data_folder(chosen.data)) as tools:
        found = find_protocol(tools, chosen.show or chosen.file)
    if chosen.json:
        say_json(_data(found))
    elif chosen.file:
        say(found.text.rstrip("\n"))
    else:
        _say_protocol(found.protocol)


def _check(chosen: argparse.Namespace) -> None:
    from cupwright.core.toml_reader import LARGEST_FILE
    from cupwright.steps.protocols import read_protocol

    found = read_protocol(read_text(chosen.check, largest=LARGEST_FILE), chosen.check.name)
    if chosen.json:
        say_json(_data(found))
    else:
        _say_protocol(found.protocol)


def _keep(joint: Joint, chosen: argparse.Namespace) -> None:
    from cupwright.core.toml_reader import LARGEST_FILE
    from cupwright.steps.protocols import find_protocol, keep_protocol

    text = read_text(chosen.keep, largest=LARGEST_FILE)
    with joint.open_tools(data_folder(chosen.data)) as tools:
        kept = find_protocol(tools, keep_protocol(tools, text, chosen.keep.name).name)
    if chosen.json:
        say_json(_data(kept))
    else:
        say(f"Kept '{kept.protocol.name}', version {kept.protocol.version}.")
        say(f'\nNext: protocol = "{kept.protocol.name}" in the file of a table')


def _remove(joint: Joint, chosen: argparse.Namespace) -> None:
    from cupwright.steps.protocols import remove_protocol

    with joint.open_tools(data_folder(chosen.data)) as tools:
        remove_protocol(tools, chosen.remove)
    if chosen.json:
        say_json({"removed": chosen.remove})
    else:
        say(f"Removed '{chosen.remove}'. Tables that were laid by it keep it.")


def _say_protocol(protocol: "Protocol") -> None:
    from cupwright.core.plan.protocol_words import asks

    say(f"{protocol.name}, version {protocol.version}: {protocol.title}")
    if protocol.about:
        say(protocol.about)
    say("")
    for one in asks(protocol):
        say(f"{one.what}: {one.asks}")
        say(f"    {one.source}")


def _whose(listed: "ListedProtocol") -> str:
    return "own" if listed.own else "program"


def _data(listed: "ListedProtocol") -> dict[str, object]:
    from cupwright.core.plain import plain
    from cupwright.core.plan.protocol_file import protocol_as_data
    from cupwright.core.plan.protocol_words import asks, suggested

    protocol = listed.protocol
    return {
        "name": protocol.name,
        "version": protocol.version,
        "own": listed.own,
        "protocol": protocol_as_data(protocol),
        "asks": plain(asks(protocol)),
        "suggested": suggested(protocol),
    }
