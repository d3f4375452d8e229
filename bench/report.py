"""How long the report of a large table takes: 1,896 tasters, 4 coffees, 27,000 answers.

    .venv/bin/python bench/report.py [--quick] [--json]

Every sample is a fresh process, imports included, and is set beside the least such a process could do: start
and import the same libraries. Both are run in turn, so that a slow moment meets both. A sample counts only
if other programs kept less than 0.12 of a core busy meanwhile (Linux; elsewhere all count), unless none was;
`noisy` is the number of samples that were disturbed. The figures are medians with their range.
"""

import argparse
import json
import os
import random
import statistics
import subprocess
import sys
import time
from datetime import UTC, datetime
from pathlib import Path

TASTERS, COFFEES, WROTE = 1_896, 4, 0.65
QUIET = 0.12
LIBRARIES = "import numpy, scipy.special, altair, vl_convert, jinja2, typst, rapidfuzz"
Figures = dict[str, float]


def main() -> None:
    """Measure and print, or be one of the measured processes."""
    parser = argparse.ArgumentParser(description="How long the report of a large table takes.")
    parser.add_argument("--quick", action="store_true", help="fewer rounds, under a minute")
    parser.add_argument("--json", action="store_true", help="one JSON object on the last line")
    parser.add_argument("--once", action="store_true", help=argparse.SUPPRESS)
    asked = parser.parse_args()
    if asked.once:
        print(json.dumps(one_report()))
        return
    figures = measure(rounds=3 if asked.quick else 11)
    if asked.json:
        print(json.dumps(figures))
    else:
        for name, value in figures.items():
            print(f"{name:28} {value:>10.3g}")


def measure(rounds: int) -> Figures:
    """Interleaved rounds of the report and of the bare imports, in seconds."""
    runs = {"report_s": [__file__, "--once"], "imports_s": ["-c", LIBRARIES]}
    taken = {name: [timed([sys.executable, *command])] for name, command in runs.items()}
    for _ in range(rounds - 1):
        for name, command in runs.items():
            taken[name].append(timed([sys.executable, *command]))
    figures: Figures = {"samples": 2 * rounds, "noisy": 0}
    for name, samples in taken.items():
        quiet = [seconds for seconds, others, _ in samples if others < QUIET]
        figures["noisy"] += len(samples) - len(quiet)
        # On a machine that is never quiet the figures are kept, and `noisy` says what they are worth.
        counted = quiet or [seconds for seconds, _, _ in samples]
        figures |= {
            name: statistics.median(counted),
            f"{name}_min": min(counted),
            f"{name}_max": max(counted),
        }
    figures["report_over_imports"] = figures["report_s"] / figures["imports_s"]
    steps: list[Figures] = [json.loads(answer) for _, _, answer in taken["report_s"]]
    return figures | {name: statistics.median(step[name] for step in steps) for name in steps[0]}


def timed(command: list[str]) -> tuple[float, float, str]:
    """Seconds a process took, how many cores other programs kept busy meanwhile, and what it said."""
    busy, own, start = busy_s(), children_s(), time.perf_counter()
    answer = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    seconds = time.perf_counter() - start
    return seconds, max(0.0, (busy_s() - busy) - (children_s() - own)) / seconds, answer


def busy_s() -> float:
    """CPU seconds of the whole machine since it started; 0 where that cannot be read."""
    counters = Path("/proc/stat")
    if not counters.exists():
        return 0.0
    user, nice, system, _idle, _wait, irq, soft, *_ = map(
        int, counters.read_text().split("\n")[0].split()[1:]
    )
    return (user + nice + system + irq + soft) / os.sysconf("SC_CLK_TCK")


def children_s() -> float:
    """CPU seconds of finished processes that this one started."""
    times = os.times()
    return times.children_user + times.children_system


def one_report() -> Figures:
    """Make one report and say how long its parts took, the making of the notes left out."""
    table, coffees, identities, notes = invented_table()
    start = time.perf_counter()
    from cupwright.core.analyse.answers import gather
    from cupwright.core.report.table_report import table_report
    from cupwright.core.words.lexicon import load_lexicon
    from cupwright.render.renderer import Renderer

    answers = gather(table, notes, identities, coffees, load_lexicon())
    gathered = time.perf_counter()
    document = table_report(table, coffees, identities, answers)
    reported = time.perf_counter()
    page = Renderer().html(document)
    shown = time.perf_counter()
    paper = Renderer().pdf(document)
    printed = time.perf_counter()
    assert page.count("<figure") >= COFFEES
    assert paper.startswith(b"%PDF-")
    return {
        "notes": len(notes),
        "gather_s": gathered - start,
        "analyse_s": reported - gathered,
        "html_s": shown - reported,
        "pdf_s": printed - shown,
    }


def invented_table():  # type: ignore[no-untyped-def]
    """A table of the size of a large home tasting, with words drawn unevenly from the lexicon."""
    from cupwright.core.flow import Step
    from cupwright.core.plan.coffee import Coffee
    from cupwright.core.plan.table import Blinding, Plan, Seat, Table
    from cupwright.core.taste.note import Note
    from cupwright.core.taste.sheet import Field, Kind, Moment, Pass, Sheet
    from cupwright.core.taste.stamp import Stamp
    from cupwright.core.words.lexicon import load_lexicon

    rng = random.Random(20261125)
    words = [synonym for concept in load_lexicon() for synonym in concept.synonyms]
    weights = [1 / (rank + 5) for rank in range(len(words))]
    codes = tuple("ABCD"[:COFFEES])
    lines = ("bitterness", "acidity", "liking")
    fields = (Field("note", Kind.WORDS, "Note"), *(Field(s, Kind.LINE, s, low=1, high=5) for s in lines))
    sheet = Sheet("b", 1, "Bench", (Pass("p", "Pass", "", Moment.COOL, fields),), liking=("p", "liking"))
    seats = tuple(Seat(f"s{n}", f"Taster {n}", codes) for n in range(TASTERS))
    plan = Plan("Bench", codes, blinding=Blinding.OPEN)
    table = Table("t", plan, sheet, datetime(2026, 11, 25, tzinfo=UTC), Step.REVEAL, codes, seats)

    def answers():  # type: ignore[no-untyped-def]
        if rng.random() < WROTE:
            yield "note", ", ".join(rng.choices(words, weights, k=rng.randint(1, 5)))
        yield from ((scale, float(rng.randint(1, 5))) for scale in lines)

    notes = [
        Note(f"{seat.id}{code}{field}", seat.id, code, "p", field, value, Stamp(1, "d"), 0)
        for seat in seats
        for code in codes
        for field, value in answers()
    ]
    return table, tuple(Coffee(code, f"Coffee {code}") for code in codes), {c: c for c in codes}, notes


if __name__ == "__main__":
    main()
