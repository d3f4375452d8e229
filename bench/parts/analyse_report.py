"""A whole report of a season's panel: 12 coffees x 10 tasters x 10 attributes x 2 repeats, in one process.

Everything that `cupwright analyse` says of it, with 2,000 draws wherever chance is used, from the columns in
memory to the finished document. The bound is 0.5 s; there is no other program to compare with.
"""

import statistics
import time

import numpy as np

from cupwright.core.analyse.score_analysis import FileAnalysis, analyse_file
from cupwright.core.analyse.score_file import ScoreFile
from cupwright.core.analyse.scores import Scores, scores_of
from cupwright.core.report.score_report import score_report

COFFEES, TASTERS, ATTRIBUTES, REPEATS, DRAWS = 12, 10, 10, 2, 2000


def figures(*, quick: bool) -> dict[str, float]:
    """Median seconds of the analysis, of the document, and of both."""
    file = panel()
    first = analyse_file(file, draws=DRAWS)
    _check(first)
    turns = [_turn(file) for _ in range(3 if quick else 9)]
    analysed, written = (statistics.median(turn[part] for turn in turns) for part in (0, 1))
    return {
        "report_analysis_seconds": analysed,
        "report_document_seconds": written,
        "report_seconds": statistics.median(sum(turn) for turn in turns),
        "report_seconds_bound": 0.5,
    }


def panel(seed: int = 5) -> ScoreFile:
    """An invented panel: coffees differ, tasters have levels and tastes of their own, steps of a quarter."""
    chance = np.random.default_rng(seed)
    attributes = {f"attribute {n + 1}": _scores(chance) for n in range(ATTRIBUTES)}
    return ScoreFile("panel.csv", attributes, (), dict.fromkeys(attributes, 0), ())


def _scores(chance: np.random.Generator) -> Scores:
    coffees = chance.normal(0, 0.7, (COFFEES, 1, 1))
    tasters = chance.normal(0, 0.5, (1, TASTERS, 1))
    tastes = chance.normal(0, 0.3, (COFFEES, TASTERS, 1))
    rest = chance.normal(0, 0.4, (COFFEES, TASTERS, REPEATS))
    return scores_of(np.round(4 * (7 + coffees + tasters + tastes + rest)) / 4)


def _turn(file: ScoreFile) -> tuple[float, float]:
    began = time.perf_counter()
    found = analyse_file(file, draws=DRAWS)
    middle = time.perf_counter()
    score_report(found)
    return middle - began, time.perf_counter() - middle


def _check(found: FileAnalysis) -> None:
    silent = {name: dict(one.silent) for name, one in found.attributes.items() if one.silent}
    if silent:
        raise SystemExit(f"A full panel must leave nothing unsaid: {silent}")
