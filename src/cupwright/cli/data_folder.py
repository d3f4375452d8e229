"""Where the data lie when nobody says so: the place the operating system keeps for a user's data."""

import os
import sys
from pathlib import Path

VARIABLE = "CUPWRIGHT_DATA"


def data_folder(given: str | None, *, demo: bool = False) -> str:
    """The folder (or database address) of --data, else of CUPWRIGHT_DATA, else the user's own.

    The demo has a folder of its own beside it: its coffees are invented and belong on nobody's shelf.
    """
    own = _users_own()
    return given or os.environ.get(VARIABLE) or str(own.with_name(f"{own.name}-demo") if demo else own)


def _users_own() -> Path:
    # XDG Base Directory Specification 0.8: $XDG_DATA_HOME, or ~/.local/share.
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home()) / "Cupwright"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "Cupwright"
    return Path(os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share") / "cupwright"
