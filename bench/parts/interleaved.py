"""Ratios that can be trusted: both sides in turns in one run, and only while the machine is otherwise quiet.

A turn is quiet if less than QUIET of a core was busy outside this process meanwhile; when none was, the
figures say so by `quiet` 0 rather than not being there.
"""

import os
import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

QUIET = 0.12
TICKS = os.sysconf("SC_CLK_TCK")


@dataclass(frozen=True)
class Compared:
    """Seconds a call of ours and of theirs, their ratio (medians), and how many turns were quiet."""

    ours: float
    theirs: float
    ratio: float
    low: float
    high: float
    turns: int
    quiet: int

    def figures(self, name: str) -> dict[str, float]:
        """Flat, under a name."""
        return {f"{name}_{key}": value for key, value in vars(self).items()}


def interleaved(
    ours: Callable[[], object], theirs: Callable[[], object], *, turns: int = 7, calls: int = 1
) -> Compared:
    """Time `calls` of ours and one of theirs by turns; the first turn warms up and does not count.

    Quiet turns alone are used if there are three of them, else all.
    """
    ours(), theirs()
    taken = [_turn(ours, theirs, calls) for _ in range(turns)]
    calm = [turn for turn in taken if turn[2] < QUIET]
    used = calm if len(calm) >= 3 else taken
    ratios = [theirs_s / ours_s for ours_s, theirs_s, _ in used]
    return Compared(
        statistics.median(turn[0] for turn in used),
        statistics.median(turn[1] for turn in used),
        statistics.median(ratios),
        min(ratios),
        max(ratios),
        len(taken),
        len(calm),
    )


def _turn(ours: Callable[[], object], theirs: Callable[[], object], calls: int) -> tuple[float, float, float]:
    began, busy, own = time.perf_counter(), _busy_ticks(), time.process_time()
    for _ in range(calls):
        ours()
    middle = time.perf_counter()
    theirs()
    ended = time.perf_counter()
    elsewhere = (_busy_ticks() - busy) / TICKS - (time.process_time() - own)
    return (middle - began) / calls, ended - middle, max(0.0, elsewhere) / (ended - began)


def _busy_ticks() -> int:
    """Ticks that all cores together were busy, from the kernel's own count; 0 where there is none."""
    stat = Path("/proc/stat")
    if not stat.exists():
        return 0
    user, nice, system, _idle, _wait, irq, soft, *_rest = map(
        int, stat.read_text().split("\n", 1)[0].split()[1:]
    )
    return user + nice + system + irq + soft
