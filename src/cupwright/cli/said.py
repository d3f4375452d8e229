"""Said: how the command line answers: text or JSON on standard output, complaints on standard error."""

import os
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from cupwright.errors import BadFile, CupwrightError, Place, Refused, TooLarge


def say(text: str) -> None:
    """A line of the answer, at once: whoever reads a log of the server waits for it."""
    print(text, flush=True)


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
        say(f"{label.ljust(width)}  {value}")


def complain_line(text: str) -> None:
    """A line for whoever sits at the terminal, beside the answer."""
    print(text, file=sys.stderr, flush=True)


def complain(error: CupwrightError) -> None:
    """The one sentence of a refusal."""
    complain_line(error.sentence())


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
    """The bytes of a file. Raises Refused if it cannot be read, TooLarge over `largest` bytes."""
    try:
        size = path.stat().st_size
        if size > largest:
            raise TooLarge(
                f"The file has {size / 1e6:.1f} MB; at most {largest / 1e6:g} MB are read.",
                todo="Give a smaller file.",
                where=Place(path.name),
            )
        return path.read_bytes()
    except OSError as fault:
        raise Refused(f"The file {path} cannot be read: {fault.strerror}.", todo="Check its name.") from None


def read_text(path: Path, *, largest: int) -> str:
    """The text of a file in UTF-8. Raises BadFile with the line that is in another encoding."""
    data = read_file(path, largest=largest)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        line = data.count(b"\n", 0, fault.start) + 1
        raise BadFile(
            "This line is not in UTF-8.", todo="Save the file as UTF-8.", where=Place(path.name, line)
        ) from None
