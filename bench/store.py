"""How fast notes are made safe, and whether a killed writer loses any.

    .venv/bin/python bench/store.py [--quick] [--json]

Every cell is compared with the least that durability costs here: overwriting 4 KiB of a file and waiting for
fdatasync. Cells take turns in each round, so a busy neighbour slows all. A round counts only if less than
0.12 of a core was busy outside this process; how many did is reported, and if fewer than three did, all are
used.

Goals: single notes at 0.6 of the floor for a bare insert (the store does more: it looks for the note's id,
reads the last number, and maps rows); notes in batches of 100 at 12 times the single ones; no note lost.
A kill says nothing about a loss of power: the operating system's cache survives it.
"""

import argparse
import json
import os
import sqlite3
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT))

from tests.contract.crash import crash  # noqa: E402 - the tests are found from the root only
from tests.fakes.values import a_coffee, a_note, a_table  # noqa: E402

from cupwright.store.opening import open_store  # noqa: E402

BLOCK = os.urandom(4096)
BUSY_OUTSIDE = 0.12
TICK = os.sysconf("SC_CLK_TCK")


@dataclass(frozen=True, slots=True)
class Round:
    """Acts a second of each cell, and how many cores were busy elsewhere."""

    rates: dict[str, float]
    outside: float


def main() -> None:
    """Measure and print."""
    asked = _arguments()
    seconds, rounds, cycles = (0.3, 5, 60) if asked.quick else (2.0, 15, 2000)
    with tempfile.TemporaryDirectory() as folder:
        measured = _rounds(Path(folder), rounds, seconds)
        figures = _figures(measured)
        figures |= _crash_figures(Path(folder) / "crash", cycles)
    if asked.json:
        print(json.dumps({name: round(value, 4) for name, value in figures.items()}))
    else:
        for name, value in figures.items():
            print(f"{name:36} {value:>12,.4g}" if value < 1000 else f"{name:36} {value:>12,.0f}")


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="How fast notes are made safe, and whether any is lost.")
    parser.add_argument("--quick", action="store_true", help="fewer rounds and cycles, under a minute")
    parser.add_argument("--json", action="store_true", help="one JSON object on the last line")
    return parser.parse_args()


def _rounds(folder: Path, rounds: int, seconds: float) -> list[Round]:
    cells = {
        "floor": _overwrite(folder / "floor"),
        "bare_insert": _bare_insert(folder / "bare.sqlite3"),
        "store_1": _store(folder / "one", 1),
        "store_100": _store(folder / "hundred", 100),
    }
    measured = []
    for _ in range(rounds):
        begun, busy, own = time.perf_counter(), _busy(), time.process_time()
        rates = {name: _rate(act, seconds) for name, act in cells.items()}
        took = time.perf_counter() - begun
        outside = (_busy() - busy - (time.process_time() - own)) / took
        measured.append(Round(rates, outside))
    return measured


def _rate(act: Callable[[], None], seconds: float) -> float:
    begun, count = time.perf_counter(), 0
    while time.perf_counter() - begun < seconds:
        act()
        count += 1
    return count / (time.perf_counter() - begun)


def _busy() -> float:
    """Seconds that all cores together were busy since the machine started; waiting for a disk is not busy."""
    try:
        fields = Path("/proc/stat").read_text(encoding="ascii").split("\n", 1)[0].split()[1:]
    except OSError:
        return 0.0
    user, nice, system, _idle, _waiting, *interrupts = map(int, fields)
    return (user + nice + system + sum(interrupts[:2])) / TICK


def _overwrite(path: Path) -> Callable[[], None]:
    descriptor = os.open(path, os.O_CREAT | os.O_RDWR)
    os.write(descriptor, BLOCK)
    sync = getattr(os, "fdatasync", os.fsync)

    def act() -> None:
        os.pwrite(descriptor, BLOCK, 0)
        sync(descriptor)

    return act


def _bare_insert(path: Path) -> Callable[[], None]:
    connection = sqlite3.connect(path, isolation_level=None)
    for pragma in ("journal_mode = WAL", "synchronous = FULL"):
        connection.execute(f"PRAGMA {pragma}")
    connection.execute("CREATE TABLE notes (sequence INTEGER PRIMARY KEY, id TEXT UNIQUE, body TEXT)")
    numbers = iter(range(10**9))

    def act() -> None:
        connection.execute(
            "INSERT INTO notes (id, body) VALUES (?, ?)", (f"{next(numbers):040}", "cherry" * 20)
        )

    return act


def _store(folder: Path, batch: int) -> Callable[[], None]:
    store = open_store(folder)
    with store.work() as work:
        work.coffees.add([a_coffee(1), a_coffee(2)])
        work.tables.add(a_table())
    numbers = iter(range(10**9))

    def act() -> None:
        notes = [a_note(n, id=f"note-{n:035}") for n in (next(numbers) for _ in range(batch))]
        with store.work() as work:
            work.notes.add("table-1", notes, datetime.now(UTC))

    return act


def _figures(measured: list[Round]) -> dict[str, float]:
    quiet = [one for one in measured if one.outside < BUSY_OUTSIDE]
    used = quiet if len(quiet) >= 3 else measured
    ratio = lambda a, b: statistics.median(one.rates[a] / one.rates[b] for one in used)  # noqa: E731
    figures = {"rounds": len(measured), "rounds_quiet": len(quiet)}
    for name in measured[0].rates:
        rates = [one.rates[name] for one in used]
        figures[f"{name}_per_second"] = statistics.median(rates)
        figures[f"{name}_per_second_least"] = min(rates)
        figures[f"{name}_per_second_most"] = max(rates)
    return figures | {
        "bare_insert_to_floor": ratio("bare_insert", "floor"),
        "store_1_to_floor": ratio("store_1", "floor"),
        "store_1_to_bare_insert": ratio("store_1", "bare_insert"),
        "notes_100_to_notes_1": 100 * ratio("store_100", "store_1"),
    }


def _crash_figures(folder: Path, cycles: int) -> dict[str, float]:
    begun = time.perf_counter()
    tally = crash(folder, cycles, seed=20261125)
    took = time.perf_counter() - begun
    control = crash(folder.with_name("control"), 20, seed=1, early=True)
    return {
        "crash_cycles": tally.cycles,
        "crash_cycles_per_minute": 60 * tally.cycles / took,
        "crash_notes_acknowledged": tally.acknowledged,
        "crash_notes_lost": tally.lost,
        "crash_batches_torn": tally.torn,
        "crash_corrupt": tally.corrupt,
        "crash_control_notes_lost": control.lost,
    }


if __name__ == "__main__":
    main()
