"""`cupwright analyse SCORES.csv`: every statistic of a file, in sentences, as data or as a report."""

import argparse
from math import isfinite
from pathlib import Path

from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.said import read_file, say, say_json, write_file
from cupwright.cli.watch import Watch

LARGEST_SCORE_FILE = 100_000_000
ENDINGS = frozenset({".csv", ".tsv", ".txt", ".xlsx"})
FORMS = ("pdf", "html", "json")
MOST_DRAWS = 1_000_000

_OPTIONS = ("report", "attribute", "map", "wide", "level", "draws", "seed")


def is_file(name: str) -> bool:
    """Whether a file is meant rather than a table."""
    path = Path(name)
    return path.suffix.lower() in ENDINGS or path.is_file()


def with_scores(parser: argparse.ArgumentParser) -> None:
    """The options of a file of scores."""
    options = parser.add_argument_group("a file of scores")
    options.add_argument(
        "--report", metavar="FILE", type=Path, help="write it to a file that ends in .pdf, .html or .json"
    )
    options.add_argument(
        "--attribute", metavar="NAME", action="append", default=[], help="only this one; may be repeated"
    )
    options.add_argument(
        "--map",
        metavar="COLUMN=HEADING",
        action="append",
        default=[],
        help="which heading holds taster, coffee, attribute, value, repeat, position, temperature or table",
    )
    options.add_argument("--wide", action="store_true", help="every other column is an attribute")
    options.add_argument("--level", metavar="SHARE", type=float, help="coverage of the intervals (0.95)")
    options.add_argument("--draws", metavar="N", type=int, help="draws wherever chance is used (2000)")
    options.add_argument("--seed", metavar="N", type=int, help="where chance begins (always the same)")


def used_options(chosen: argparse.Namespace) -> list[str]:
    """The options of a file of scores that were given."""
    return [f"--{name}" for name in _OPTIONS if getattr(chosen, name) not in (None, [], False)]


def analyse_scores(joint: Joint, chosen: argparse.Namespace) -> None:
    """Read the file, analyse each attribute, and answer as asked."""
    from cupwright.steps.score_files import Wanted, score_report_as, scores_of_file

    form = _form(chosen)
    wanted = Wanted(
        named=_named(chosen),
        wide=chosen.wide,
        attributes=tuple(chosen.attribute),
        level=_level(chosen),
        draws=_draws(chosen),
        seed=_seed(chosen),
    )
    path = Path(chosen.table)
    data = read_file(path, largest=LARGEST_SCORE_FILE)
    with joint.open_tools(data_folder(chosen.data)) as tools, Watch("Analysing"):
        found = scores_of_file(tools, data, path.name, wanted)
        if form:
            write_file(chosen.report, score_report_as(tools, found, form))
    if chosen.json:
        say_json(found.as_data())
    elif form:
        say(f"Wrote {chosen.report}.")
    else:
        from cupwright.cli.blocks import say_blocks
        from cupwright.core.report.score_report import score_report

        document = score_report(found)
        say(document.title)
        for label, value in document.facts:
            say(f"{label}: {value}")
        say_blocks(document.blocks)


def _form(chosen: argparse.Namespace) -> str:
    if chosen.report is None:
        return ""
    form = chosen.report.suffix.lower().removeprefix(".")
    if form not in FORMS:
        chosen.wrong_use(f"a report ends in .pdf, .html or .json, not '{chosen.report.name}'")
    return str(form)


def _named(chosen: argparse.Namespace) -> dict[str, str]:
    named: dict[str, str] = {}
    for pair in chosen.map:
        role, sign, heading = pair.partition("=")
        if not sign or not role.strip() or not heading.strip():
            chosen.wrong_use(f"--map takes COLUMN=HEADING, not '{pair}'")
        named[role.strip().casefold()] = heading.strip()
    return named


def _level(chosen: argparse.Namespace) -> float:
    level: float = 0.95 if chosen.level is None else chosen.level
    if not isfinite(level) or not 0.5 <= level < 1:
        chosen.wrong_use(f"--level is a share from 0.5 to below 1, such as 0.95, not {level:g}")
    return level


def _draws(chosen: argparse.Namespace) -> int:
    draws: int = 2000 if chosen.draws is None else chosen.draws
    if not 100 <= draws <= MOST_DRAWS:
        chosen.wrong_use(f"--draws is a number from 100 to {MOST_DRAWS}, not {draws}")
    return draws


def _seed(chosen: argparse.Namespace) -> int | None:
    seed: int | None = chosen.seed
    if seed is not None and seed < 0:
        chosen.wrong_use(f"--seed is 0 or more, not {seed}")
    return seed
