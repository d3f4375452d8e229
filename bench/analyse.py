"""How fast the statistics are, each as a ratio to a general-purpose library on the same data in the same run.

    .venv/bin/python bench/analyse.py [--quick] [--json] [--only NAME]

Every part checks first that both sides give the same numbers (1e-6). Medians of turns in alternation.
"""

import argparse
import importlib
import json

PARTS = ("agreement", "components", "ordinal", "ranks", "overview", "across", "report")


def main() -> None:
    """Measure and print."""
    asked = _arguments()
    figures: dict[str, float] = {}
    for part in PARTS:
        if asked.only in ("", part):
            figures |= importlib.import_module(f"parts.analyse_{part}").figures(quick=asked.quick)
    if asked.json:
        print(json.dumps(figures))
    else:
        for name, value in figures.items():
            print(f"{name:44} {value:>12.5g}")


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="Statistics against general-purpose libraries, as ratios.")
    parser.add_argument("--quick", action="store_true", help="fewer turns")
    parser.add_argument("--json", action="store_true", help="one line of JSON")
    parser.add_argument("--only", default="", choices=("", *PARTS), help="one part alone")
    return parser.parse_args()


if __name__ == "__main__":
    main()
