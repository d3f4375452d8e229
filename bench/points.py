"""How long `cupwright points` takes to add up a file of filled-in sheets and to explain every total.

    .venv/bin/python bench/points.py [LOTS.csv] [--quick] [--json]

Without a file, an invented one is taken, shaped like public tables of lab scores: averages to two decimals,
the total beside them, columns of other things. A file needs the fields of the hundred-point sheet as its
headings. The time is compared with the least that adding up could take: parsing the CSV and one exact sum a
row, unchecked and unexplained. Goal: 1,340 rows under 1 s, and under 40 times the least.
"""

import argparse
import csv
import io
import json
import random
import statistics
import sys
import time
from decimal import Decimal
from pathlib import Path

from cupwright.core.taste import counted
from cupwright.core.taste.points_columns import Columns
from cupwright.core.taste.points_rows import file_points
from cupwright.core.taste.sheet_file import builtin_sheet
from cupwright.store.spreadsheet import FileRows

ROWS = 1340
JUDGED = ("fragrance_aroma", "flavour", "aftertaste", "acidity", "body", "balance", "overall")
COUNTED = ("uniformity", "clean_cup", "sweetness")
FIELDS = (*JUDGED, *COUNTED)


def main() -> None:
    """Measure and print."""
    asked = _arguments()
    data = asked.lots.read_bytes() if asked.lots else _invented()
    took, least, lines = [], [], 0
    for _ in range(5 if asked.quick else 15):
        seconds, lines = _points(data)
        took.append(seconds)
        least.append(_least(data))
    figures = {
        "lines": lines,
        "points_seconds": statistics.median(took),
        "points_seconds_least": min(took),
        "points_seconds_most": max(took),
        "bare_seconds": statistics.median(least),
        "points_to_bare": statistics.median(a / b for a, b in zip(took, least, strict=True)),
    }
    if asked.json:
        print(json.dumps({name: round(value, 4) for name, value in figures.items()}))
    else:
        for name, value in figures.items():
            print(f"{name:24} {value:>10.4g}" if value < 1000 else f"{name:24} {value:>10,.0f}")


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="How long a file of filled-in sheets takes to be added up.")
    parser.add_argument("lots", nargs="?", type=Path, help="a CSV file with the fields as headings")
    parser.add_argument("--quick", action="store_true", help="fewer rounds, a few seconds")
    parser.add_argument("--json", action="store_true", help="one JSON object on the last line")
    return parser.parse_args()


def _invented() -> bytes:
    """Always the same file."""
    rng = random.Random(7)
    written = io.StringIO()
    to = csv.writer(written)
    to.writerow((*FIELDS, "total", "place", "remarks"))
    for number in range(ROWS):
        tasters = rng.choice((1, 3, 4, 6))
        quarters = [Decimal(sum(rng.randint(26, 34) for _ in range(tasters))) / 4 / tasters for _ in JUDGED]
        cups = [Decimal(sum(rng.choice((10, 10, 10, 8)) for _ in range(tasters))) / tasters for _ in COUNTED]
        cells = [f"{one:.2f}" for one in (*quarters, *cups, sum(quarters) + sum(cups))]
        to.writerow((*cells, f"Lot {number}, upper", "clean, sweet \u2013 washed"))
    return written.getvalue().encode()


def _points(data: bytes) -> tuple[float, int]:
    """Seconds, and the lines that explain the totals; the sums have to agree with the file."""
    # What one file leaves behind must not help the next.
    counted._of_text.cache_clear()
    begun = time.perf_counter()
    found = file_points(
        FileRows().read(data, "lots.csv"), builtin_sheet("hundred-point"), Columns(given="total")
    )
    took = time.perf_counter() - begun
    wrong = [row.row for row in found.rows if row.complaints]
    if wrong and len(wrong) == len(found.rows):
        sys.exit("No row adds up: is it a file of the hundred-point sheet?")
    return took, sum(len(row.points.lines) for row in found.rows)


def _least(data: bytes) -> float:
    begun = time.perf_counter()
    rows = csv.DictReader(io.StringIO(data.decode("utf-8-sig")))
    for row in rows:
        sum(Decimal(row[name]) for name in FIELDS)
    return time.perf_counter() - begun


if __name__ == "__main__":
    main()
