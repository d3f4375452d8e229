"""Do 95 % intervals hold the truth 93 to 97 times in 100, and are p-values even under the null?

    .venv/bin/python bench/coverage.py [--quick] [--json] [--only FAMILY] [--panels 2000]

2,000 simulated panels for each family and size people use, from 3 coffees and 1 taster to 12 and 10.
"""

import argparse
import importlib
import json

from parts.covered import Covered

FAMILIES = (
    "components",
    "ordinal",
    "choices",
    "agreement",
    "tasters",
    "words",
    "maps",
    "ranks",
    "cooling",
    "cups",
    "across",
)


def main() -> None:
    """Simulate and print."""
    asked = _arguments()
    panels = asked.panels or (100 if asked.quick else 2000)
    found: list[Covered] = []
    for family in FAMILIES:
        if asked.only in ("", family):
            for one in importlib.import_module(f"parts.coverage_{family}").covered(panels):
                found.append(one)
                if not asked.json:
                    print(_line(one), flush=True)
    if asked.json:
        print(json.dumps({f"{one.name}, {one.size}": one.share for one in found}))


def _line(one: Covered) -> str:
    said = "" if one.holds else f"  outside {one.goal[0]:g} to {one.goal[1]:g}"
    return f"{one.name:44} {one.size:14} {one.share:.4f}  ({one.silent} of {one.panels} silent){said}"


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description="How often intervals hold the truth, in simulated panels.")
    parser.add_argument("--quick", action="store_true", help="100 panels each")
    parser.add_argument("--json", action="store_true", help="one line of JSON")
    parser.add_argument("--only", default="", choices=("", *FAMILIES), help="one family alone")
    parser.add_argument("--panels", type=int, default=0, help="panels each (2000)")
    return parser.parse_args()


if __name__ == "__main__":
    main()
