"""How long a slow phone takes to read a note, reckoned from Node's time on this machine.

    .venv/bin/python bench/client_reading.py [NOTES.csv] [--quick] [--json]

NOTES.csv needs a column `note`; without one, notes are put together from the lexicon. A slow phone is taken
as SLOWER times slower than one core here (common practice for phones of the lower end, no source). In each
round the lexicon is compiled anew and all notes are read in order, so that each word is met for the first
time once a round. A note's time is the median over the rounds, which leaves out what other programs on this
machine take; `first_round` leaves nothing out, the program's own warming up neither.
"""

import argparse
import json
import statistics
import subprocess
import tempfile
from collections.abc import Sequence
from pathlib import Path

from parts.notes import INVENTED, invented_notes, notes_of

ROOT = Path(__file__).parents[1]
SLOWER = 6
BOUND_MS = 5.0


def main() -> None:
    """Bundle the client's reader, run it, print the figures."""
    parser = argparse.ArgumentParser(description="How long a slow phone takes to read a note.")
    parser.add_argument("notes", nargs="?", type=Path, help="a CSV file with a column 'note'")
    parser.add_argument("--quick", action="store_true", help="fewer rounds, some seconds")
    parser.add_argument("--json", action="store_true", help="one JSON object on the last line")
    asked = parser.parse_args()
    notes = notes_of(asked.notes) if asked.notes else invented_notes(INVENTED)
    figures = _figures(*_timed(notes, 3 if asked.quick else 9))
    if asked.json:
        print(json.dumps({name: round(value, 4) for name, value in figures.items()}))
        return
    for name, value in figures.items():
        print(f"{name:28} {value:>10.3f}")


def _timed(notes: Sequence[str], rounds: int) -> tuple[list[float], list[list[float]]]:
    """Milliseconds of Node: of each compiling, and of each note in each round."""
    with tempfile.TemporaryDirectory() as folder:
        program, texts = Path(folder) / "read_file.mjs", Path(folder) / "notes.json"
        texts.write_text(json.dumps(notes), encoding="utf-8")
        bundler = ROOT / "client/node_modules/.bin/rolldown"
        options = ["--format", "esm", "--platform", "node", "--file", str(program)]
        source = str(ROOT / "bench/read_file.ts")
        subprocess.run([bundler, source, *options], check=True, capture_output=True, cwd=ROOT / "client")
        run = subprocess.run(
            ["node", program, texts, str(rounds)], capture_output=True, text=True, check=True
        )
    told = json.loads(run.stdout)
    return told["compiled"], told["took"]


def _figures(compiled: Sequence[float], took: Sequence[Sequence[float]]) -> dict[str, float]:
    typical = sorted(statistics.median(times) for times in zip(*took, strict=True))
    first = sorted(took[0])
    return {
        "notes": float(len(first)),
        "phone_ms_mean": SLOWER * statistics.fmean(typical),
        "phone_ms_99th": SLOWER * _share(typical, 0.99),
        "phone_ms_longest": SLOWER * typical[-1],
        "bound_ms": BOUND_MS,
        "first_round_ms_mean": SLOWER * statistics.fmean(first),
        "first_round_ms_99th": SLOWER * _share(first, 0.99),
        "phone_compiles_ms": SLOWER * compiled[0],
    }


def _share(ordered: Sequence[float], share: float) -> float:
    return ordered[int(share * len(ordered))]


if __name__ == "__main__":
    main()
