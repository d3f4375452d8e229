"""Kill a writer at random points and count the notes it called safe that are gone.

The writer is a forked process, killed by SIGKILL: it can tidy up nothing. What this cannot show is a loss of
power: a killed process leaves the operating system's cache whole, so FULL and NORMAL look alike here.
"""

import multiprocessing
import os
import random
import signal
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from multiprocessing.connection import Connection
from pathlib import Path

from sqlalchemy import text
from tests.fakes.values import a_coffee, a_note, a_table

from cupwright.store.opening import open_store

BATCH = 3
LONGEST_LIFE_S = 0.1

_fork = multiprocessing.get_context("fork")


@dataclass(frozen=True, slots=True)
class Tally:
    """What came of all cycles. `torn` counts batches of which only a part was kept."""

    cycles: int
    acknowledged: int
    lost: int
    torn: int
    corrupt: int


def crash(
    folder: Path, cycles: int, *, seed: int, early: bool = False, on_cycle: Callable[[], None] = lambda: None
) -> Tally:
    """Start a writer, let it run for a moment, kill it, reopen, compare; again and again.

    Parameters
    ----------
    early : bool
        Have the writer acknowledge before it keeps: the fault that has to be caught.
    """
    rng = random.Random(seed)
    _lay(folder)
    acknowledged: set[int] = set()
    lost: set[int] = set()
    torn = corrupt = following = 0
    for _ in range(cycles):
        acknowledged |= _killed_run(folder, following, early, rng.uniform(0, LONGEST_LIFE_S))
        kept, healthy = _reopened(folder)
        lost |= acknowledged - kept
        torn += len(kept) % BATCH
        corrupt += not healthy
        # A number that was lost is not written again, or a later cycle would hide the loss.
        following = max(kept | acknowledged) + 1
        following += -following % BATCH
        on_cycle()
    return Tally(cycles, len(acknowledged), len(lost), torn, corrupt)


def _lay(folder: Path) -> None:
    store = open_store(folder)
    with store.work() as work:
        work.coffees.add([a_coffee(1), a_coffee(2)])
        work.tables.add(a_table())
    store.close()


def _write_forever(folder: Path, number: int, early: bool, said: Connection) -> None:
    store = open_store(folder)
    while True:
        if early:
            said.send(number)
        with store.work() as work:
            batch = [a_note(n) for n in range(number, number + BATCH)]
            work.notes.add("table-1", batch, datetime.now(UTC))
        if not early:
            said.send(number)
        number += BATCH


def _killed_run(folder: Path, following: int, early: bool, lives: float) -> set[int]:
    """The numbers the writer called safe before it was killed; at least one batch."""
    heard, said = _fork.Pipe(duplex=False)
    writer = _fork.Process(target=_write_forever, args=(folder, following, early, said))
    writer.start()
    said.close()
    starts = [heard.recv()]
    dies = time.monotonic() + lives
    while time.monotonic() < dies:
        # Read all the while: a full pipe would stop the writer in the middle of an acknowledgement.
        if heard.poll(max(0.0, dies - time.monotonic())):
            starts.append(heard.recv())
    assert writer.pid is not None
    os.kill(writer.pid, signal.SIGKILL)
    writer.join()
    starts += _rest(heard)
    return {number for start in starts for number in range(start, start + BATCH)}


def _rest(heard: Connection) -> list[int]:
    """What was still in the pipe; a last message that the kill cut short counts as unsaid."""
    said = []
    try:
        while True:
            said.append(heard.recv())
    except (EOFError, OSError):
        heard.close()
        return said


def _reopened(folder: Path) -> tuple[set[int], bool]:
    store = open_store(folder)
    with store.reading() as work:
        kept = {numbered.note.stamp.counter for numbered in work.notes.of("table-1")}
    with store.engine.connect() as connection:
        healthy = connection.execute(text("PRAGMA integrity_check")).scalar() == "ok"
    store.close()
    return kept, healthy
