"""`cupwright serve`: run the program for browsers and phones."""

import argparse
import os
from pathlib import Path
from typing import TYPE_CHECKING

from cupwright import __version__
from cupwright.cli.asking import Commands, command
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint, Listening, Wish
from cupwright.cli.said import read_file, say, say_pairs

if TYPE_CHECKING:
    from cupwright.steps.ports import Tools

PASSPHRASE_VARIABLE = "CUPWRIGHT_PASSPHRASE"
LARGEST_PASSPHRASE_FILE = 10_000
EVERYWHERE = "0.0.0.0"

# 40 bits, typed once; the limit on wrong tries makes guessing hopeless. No letters that look alike.
WORD_LETTERS = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
WORD_LENGTH = 8

_NO_NETWORK = "This machine is on no network that phones could reach; join one and start again.\n"


def add_to(commands: Commands) -> None:
    """Make the command known."""
    parser = command(commands, "serve", serve, says="Run the program for browsers and phones.")
    parser.add_argument("--host", metavar="ADDRESS", help="where to listen (127.0.0.1; with --lan all)")
    parser.add_argument("--port", metavar="NUMBER", type=_port, default=8000, help="(else 8000)")
    parser.add_argument("--lan", action="store_true", help="let phones in; the desk asks for a passphrase")
    parser.add_argument(
        "--demo", action="store_true", help="open with an invented scenario, in a data folder of its own"
    )
    parser.add_argument(
        "--passphrase-file",
        metavar="FILE",
        type=Path,
        help=f"set the desk's passphrase from a file's first line (or give it in ${PASSPHRASE_VARIABLE})",
    )


def serve(joint: Joint, chosen: argparse.Namespace) -> None:
    """Listen until stopped."""
    data = data_folder(chosen.data, demo=chosen.demo)
    host = _host(chosen)
    with joint.open_tools(data, alone=True) as tools:
        if chosen.demo:
            _load_demo(tools)
        word = _prepare_desk(tools, chosen) if chosen.lan else ""
        wish = Wish(host=host, port=chosen.port, lan=chosen.lan, word_hash=_hash(word) if word else "")
        joint.serve(tools, wish, lambda listening: _greet(listening, data, chosen.lan, word))


def _host(chosen: argparse.Namespace) -> str:
    if chosen.lan:
        return chosen.host or EVERYWHERE
    host = chosen.host or "127.0.0.1"
    if not _is_loopback(host):
        chosen.wrong_use(f"--host {host} opens the program to a network: say --lan too")
    return str(host)


def _is_loopback(host: str) -> bool:
    import ipaddress

    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def _load_demo(tools: "Tools") -> None:
    from cupwright.steps.demo import load_demo
    from cupwright.steps.plan import list_tables

    if not list_tables(tools):
        load_demo(tools)
    else:
        say("This folder holds tables already, so the demo is not loaded again.\n")


def _prepare_desk(tools: "Tools", chosen: argparse.Namespace) -> str:
    """Set the passphrase if one was given; without any, draw the one-time word and return it."""
    from cupwright.steps.desk import passphrase_is_set, set_passphrase

    given = _given_passphrase(chosen)
    if given:
        set_passphrase(tools, given)
    if passphrase_is_set(tools):
        return ""
    return "".join(tools.rng.choices(WORD_LETTERS, k=WORD_LENGTH))


def _given_passphrase(chosen: argparse.Namespace) -> str:
    if chosen.passphrase_file:
        data = read_file(chosen.passphrase_file, largest=LARGEST_PASSPHRASE_FILE)
        return data.decode("utf-8", "replace").partition("\n")[0].strip()
    return os.environ.get(PASSPHRASE_VARIABLE, "")


def _hash(word: str) -> str:
    import hashlib

    return hashlib.sha256(word.encode()).hexdigest()


def _greet(listening: Listening, data: str, lan: bool, word: str) -> None:
    say(f"Cupwright {__version__}\n")
    phones = {"Phones": "  ".join(listening.elsewhere)} if listening.elsewhere else {}
    say_pairs({"Open": listening.here, **phones, "Data": data, "Stop": "press Ctrl+C"})
    if lan:
        say("")
        say(_qr(f"{listening.elsewhere[0]}/#/join") if phones else _NO_NETWORK)
        say(_about_the_desk(word))


def _about_the_desk(word: str) -> str:
    if not word:
        return "The desk asks for its passphrase."
    return (
        "The desk has no passphrase yet and stays locked until it has. Open the address above, type this\n"
        f"one-time word, and choose a passphrase:  {word[:4]} {word[4:]}"
    )


def _qr(text: str) -> str:
    import io

    import segno

    out = io.StringIO()
    segno.make_qr(text, error="m").terminal(out, compact=True, border=2)
    return out.getvalue()


def _port(text: str) -> int:
    if not (text.isascii() and text.isdigit() and int(text) <= 65535):
        raise argparse.ArgumentTypeError(f"'{text}' is no port: give a number from 0 (any free one) to 65535")
    return int(text)
