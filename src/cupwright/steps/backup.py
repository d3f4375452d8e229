"""Backup: a copy of everything, and back."""

from pathlib import Path

from cupwright.steps.ports import Tools


def backup(tools: Tools, path: Path) -> Path:
    """Write a checked copy while the program runs. Raises Clash if the file is there already."""
    return tools.archive.backup(path)


def restore(tools: Tools, path: Path, *, overwrite: bool = False) -> None:
    """Put a copy in place; something that is kept already is only replaced if that was asked for."""
    tools.archive.restore(path, overwrite=overwrite)
