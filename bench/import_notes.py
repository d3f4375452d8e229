"""How long a file of notes takes from its bytes to a table in the store.

    .venv/bin/python bench/import_notes.py [NOTES.csv] [--quick] [--json]

Without a file, an invented one is taken: 1,900 tasters on four coffees, three scales and two notes for every
three lines. The time is compared with the least such an import could do: parsing the CSV and inserting its
cells as bare rows in one durable transaction. Goal: under 10 s for 7,600 lines, and under 60 times the least.
"""

import argparse
import csv
import io
import json
import random
import sqlite3
import statistics
import sys
import tempfile
import time
from datetime import UTC, datetime
from pathlib import Path

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT))

from tests.fakes.tools import FakeArchive, FakePassphrases, FakeRender  # noqa: E402 - found from the root only

from cupwright.core.ids import time_ordered_id  # noqa: E402
from cupwright.core.taste.note_rows import NotesColumns  # noqa: E402
from cupwright.steps.import_notes import import_notes_file  # noqa: E402
from cupwright.steps.ports import Tools  # noqa: E402
from cupwright.store.opening import open_store  # noqa: E402
from cupwright.store.spreadsheet import FileRows  # noqa: E402

TASTERS = 1900
WORDS = ("cherry", "cocoa", "lemon", "tea", "smooth", "bitter", "nutty", "floral", "heavy", "thin", "sweet")


def main() -> None:
    """Measure and print."""
    asked = _arguments()
    data = asked.notes.read_bytes() if asked.notes else _invented()
    imports, least = [], []
    for _ in range(3 if asked.quick else 9):
        imports.append(_import(data))
        least.append(_least(data))
    figures = {
        "lines": data.count(b"\n") - 1,
        "import_seconds": statistics.median(imports),
        "import_seconds_least": min(imports),
        "import_seconds_most": max(imports),
        "bare_seconds": statistics.median(least),
        "import_to_bare": statistics.median(a / b for a, b in zip(imports, least, strict=True)),
    }
    if asked.json:
        print(json.dumps({name: round(value, 4) for name, value in figures.items()}))
    else:
        for name, value in figures.items():
            print(f"{name:24} {value:>10.4g}" if value < 1000 else f"{name:24} {value:>10,.0f}")


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="How long a file of notes takes to be imported.")
    parser.add_argument("notes", nargs="?", type=Path, help="a CSV file with columns taster, coffee and note")
    parser.add_argument("--quick", action="store_true", help="fewer rounds, well under a minute")
    parser.add_argument("--json", action="store_true", help="one JSON object on the last line")
    return parser.parse_args()


def _invented() -> bytes:
    """Always the same file."""
    rng = random.Random(7)
    lines = ["taster,coffee,bitterness,acidity,preference,note"]
    for taster in range(TASTERS):
        for coffee in "ABCD":
            scales = ",".join(str(rng.randint(1, 5)) for _ in range(3))
            note = " ".join(rng.sample(WORDS, rng.randint(1, 6))) if rng.random() < 2 / 3 else ""
            lines.append(f"T{taster},{coffee},{scales},{note}")
    return ("\n".join(lines) + "\n").encode()


def _import(data: bytes) -> float:
    rng = random.SystemRandom()
    with tempfile.TemporaryDirectory() as folder:
        store = open_store(folder)
        tools = Tools(
            store=store,
            now=lambda: datetime.now(UTC),
            rng=rng,
            new_id=lambda: time_ordered_id(time.time_ns() // 1_000_000, rng),
            render=FakeRender(),
            archive=FakeArchive(),
            spreadsheets=FileRows(),
            passphrases=FakePassphrases(),
        )
        begun = time.perf_counter()
        import_notes_file(tools, data, "notes.csv", NotesColumns(), "Notes")
        took = time.perf_counter() - begun
        store.close()
    return took


def _least(data: bytes) -> float:
    with tempfile.TemporaryDirectory() as folder:
        connection = sqlite3.connect(Path(folder) / "bare.sqlite3", isolation_level=None)
        for pragma in ("journal_mode = WAL", "synchronous = FULL"):
            connection.execute(f"PRAGMA {pragma}")
        connection.execute("CREATE TABLE cells (sequence INTEGER PRIMARY KEY, line INTEGER, value TEXT)")
        begun = time.perf_counter()
        lines = list(csv.reader(io.StringIO(data.decode("utf-8-sig"))))
        cells = [(number, cell) for number, line in enumerate(lines) for cell in line[2:] if cell]
        connection.execute("BEGIN IMMEDIATE")
        connection.executemany("INSERT INTO cells (line, value) VALUES (?, ?)", cells)
        connection.execute("COMMIT")
        took = time.perf_counter() - begun
        connection.close()
    return took


if __name__ == "__main__":
    main()
