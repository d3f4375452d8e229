"""Alone: one server at a time on a data folder, by a lock that the system lets go of when a process ends."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from cupwright.errors import Clash, Refused

LOCK_NAME = "server.lock"


@contextmanager
def alone_in(folder: Path) -> Iterator[None]:
    """Hold the folder's lock for as long as the block lasts.

    Raises
    ------
    Clash
        If another process holds it.
    Refused
        If the folder cannot be written.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        file = open(folder / LOCK_NAME, "a+", encoding="utf-8")  # noqa: SIM115 - closed by the with below
    except OSError as fault:
        raise Refused(
            f"The data folder {folder} cannot be used: {fault.strerror}.", todo="Choose another with --data."
        ) from None
    with file:
        if not _locked(file):
            raise Clash(
                f"Cupwright runs already on the data in {folder}.",
                todo="Stop it first, or choose another folder with --data.",
            )
        yield


def _locked(file: IO[str]) -> bool:
    """Try to lock; never wait."""
    try:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
