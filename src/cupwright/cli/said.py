"""Said: how the command line answers: text or JSON on standard output, complaints on standard error."""

import os
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from cupwright.errors import CupwrightError, Refused


def say(text: str) -> None:
    """A line of the answer."""
    print(text)


def say_json(value: Any) -> None:
    """The answer as data, one document."""
    import json

    print(json.dumps(value, ensure_ascii=False, indent=2, allow_nan=False))


def say_rows(headings: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
    """A table in plain columns; numbers are already text."""
    widths = [max(len(row[i]) for row in (headings, *rows)) for i in range(len(headings))]
    for row in (headings, *rows):
        print("  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip())


def say_pairs(pairs: Mapping[str, str]) -> None:
    """Labels and values, one a line."""
    width = max(map(len, pairs), default=0)
    for label, value in pairs.items():
        print(f"{label.ljust(width)}  {value}")


def complain(error: CupwrightError) -> None:
    """The one sentence of a refusal."""
    print(error.sentence(), file=sys.stderr)


def complain_of_fault(fault: Exception) -> None:
    """What to do about a fault of the program itself; its details go to a file, never to the screen."""
    import tempfile
    import traceback

    handle, name = tempfile.mkstemp(prefix="cupwright-fault-", suffix=".txt")
    with os.fdopen(handle, "w", encoding="utf-8", errors="replace") as file:
        traceback.print_exception(fault, file=file)
    print(f"Cupwright met a fault of its own and stopped; the details are in {name}.", file=sys.stderr)


def write_file(path: Path, data: bytes) -> None:
    """Write a file wholly or not at all. Raises Refused if the place cannot be written."""
    import tempfile

    try:
        handle, draft = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(draft, 0o644)
        os.replace(draft, path)
    except OSError as fault:
        raise Refused(
            f"The file {path} cannot be written: {fault.strerror}.", todo="Choose another place."
        ) from None


def read_file(path: Path, *, largest: int) -> bytes:
    """The bytes of a file. Raises Refused if it cannot be read or has more than `largest` bytes."""
    try:
        if path.stat().st_size > largest:
            raise Refused(
                f"The file {path} has more than {largest // 1_000_000} MB.", todo="Give a smaller file."
            )
        return path.read_bytes()
    except OSError as fault:
        raise Refused(f"The file {path} cannot be read: {fault.strerror}.", todo="Check its name.") from None
