"""Where the data lie when nobody says so: the place the operating system keeps for a user's data."""

import os
import sys
from pathlib import Path

VARIABLE = "CUPWRIGHT_DATA"


def data_folder(given: str | None) -> str:
    """The folder (or database address) of --data, else of CUPWRIGHT_DATA, else the user's own."""
    return given or os.environ.get(VARIABLE) or str(_users_own())


def _users_own() -> Path:
    # XDG Base Directory Specification 0.8: $XDG_DATA_HOME, or ~/.local/share.
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home()) / "Cupwright"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "Cupwright"
    return Path(os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share") / "cupwright"
