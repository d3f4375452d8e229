"""A file of scores: read, analysed, reported. Nothing of it is kept."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from cupwright.core.analyse.score_analysis import FileAnalysis, analyse_file
from cupwright.core.analyse.score_file import score_file
from cupwright.core.report.score_report import score_report
from cupwright.errors import Refused
from cupwright.steps.ports import Tools

FORMATS = ("html", "pdf", "json")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What of a file, and how. `named`: role -> heading; no `attributes` means all; no `seed` a fixed one."""

    named: Mapping[str, str] = field(default_factory=dict)
    wide: bool = False
    attributes: tuple[str, ...] = ()
    level: float = 0.95
    draws: int = 2000
    seed: int | None = None


def scores_of_file(tools: Tools, data: bytes, file: str, wanted: Wanted) -> FileAnalysis:
    """Every statistic of every attribute. Raises BadFile, TooLarge, Refused."""
    read = score_file(tools.spreadsheets.columns(data, file), named=wanted.named, wide=wanted.wide)
    rng = None if wanted.seed is None else np.random.default_rng(wanted.seed)
    return analyse_file(read, attributes=wanted.attributes, level=wanted.level, draws=wanted.draws, rng=rng)


def score_report_as(tools: Tools, found: FileAnalysis, form: str) -> bytes:
    """The report of it as the bytes of a file; `form` is "html", "pdf" or "json"."""
    if form not in FORMATS:
        raise Refused(f"There is no report as '{form}'.", todo=f"Choose one of {', '.join(FORMATS)}.")
    document = score_report(found)
    if form == "pdf":
        return tools.render.pdf(document)
    if form == "html":
        return tools.render.html(document).encode()
    return json.dumps(tools.render.data(document), ensure_ascii=False, indent=2, allow_nan=False).encode()
