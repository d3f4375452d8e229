"""`cupwright analyse`: what was counted at a revealed table, or what a file of scores says."""

import argparse
from math import isfinite
from typing import TYPE_CHECKING

from cupwright.cli.asking import Commands, command, with_json
from cupwright.cli.blocks import say_blocks
from cupwright.cli.data_folder import data_folder
from cupwright.cli.joint import Joint
from cupwright.cli.judged import say_judged
from cupwright.cli.said import say, say_json, say_rows
from cupwright.cli.scores import analyse_scores, is_file, used_options, with_scores
from cupwright.cli.watch import Watch

if TYPE_CHECKING:
    from cupwright.core.analyse.answers import Answers
    from cupwright.core.analyse.estimate import Estimate
    from cupwright.core.analyse.summary import Analysis, ScaleSummary

_WORDS_SHOWN = 12


def add_to(commands: Commands) -> None:
    """Make the command known."""
    says = (
        "Which coffee, which taster, which word, and how sure: of a revealed table or a file of scores; "
        "--json holds every figure."
    )
    parser = command(commands, "analyse", analyse, says=says)
    parser.add_argument(
        "table",
        metavar="TABLE_OR_SCORES",
        help="the name of a table, or its id; or a file of scores: CSV, TSV or XLSX with the columns taster, "
        "coffee, attribute and value, and if you like repeat, position, temperature and table",
    )
    parser.add_argument(
        "--answers", action="store_true", help="every answer as a line of CSV, with how warm its cup was"
    )
    with_json(parser)
    with_scores(parser)


def analyse(joint: Joint, chosen: argparse.Namespace) -> None:
    """Every figure of the analysis."""
    if is_file(chosen.table):
        if chosen.answers:
            chosen.wrong_use("--answers is for a table, not for a file of scores")
        analyse_scores(joint, chosen)
        return
    if stray := used_options(chosen):
        chosen.wrong_use(f"{stray[0]} is for a file of scores, such as scores.csv, not for a table")
    from cupwright.core.analyse.as_data import analysis_as_data
    from cupwright.core.analyse.summary import analyse as analysed
    from cupwright.core.report.judged import judged, judged_as_data
    from cupwright.core.report.table_questions import bowls_of, table_analyses, table_questions
    from cupwright.steps.analyse import analysis
    from cupwright.steps.plan import find_table

    with joint.open_tools(data_folder(chosen.data)) as tools, Watch("Counting"):
        table = find_table(tools, chosen.table)
        answers = analysis(tools, table.id)
        if chosen.answers:
            _say_answers(answers, as_json=chosen.json)
            return
        found, beside = analysed(answers), judged(table, answers)
    if chosen.json:
        attributes = {one.name: one.as_data() for one in table_analyses(answers, beside.totals)}
        say_json(analysis_as_data(found) | judged_as_data(beside) | {"attributes": attributes})
    else:
        _say(found)
        say_judged(answers, beside)
        say_blocks(table_questions(answers, beside.totals, bowls=bowls_of(table)))


def _say_answers(answers: "Answers", *, as_json: bool) -> None:
    import csv
    import json
    import sys
    from dataclasses import fields

    from cupwright.core.analyse.answer_rows import AnswerRow, answer_rows
    from cupwright.core.plain import plain

    rows: list[dict[str, object]] = plain(answer_rows(answers))
    if as_json:
        say_json(rows)
        return
    to = csv.DictWriter(sys.stdout, [field.name for field in fields(AnswerRow)], lineterminator="\n")
    to.writeheader()
    for row in rows:
        # A colour or ticks are no text: as JSON in their cell.
        value = row["value"]
        to.writerow({**row, "value": value if isinstance(value, str) else json.dumps(value)})


def _say(found: "Analysis") -> None:
    per_coffee = (found.answers.coffees, found.wrote, found.had, found.words)
    for coffee, wrote, had, words in zip(*per_coffee, strict=True):
        counted = ", ".join(f"{word.label} {word.count}" for word in words[:_WORDS_SHOWN])
        more = len(words) - _WORDS_SHOWN
        rarer = f" and {more} rarer words" if more > 0 else ""
        say(f"{coffee.name} ({wrote} of {had} who had it wrote): {counted or 'no known word'}{rarer}")
    for scale in found.scales:
        say("")
        _say_scale(found, scale)


def _say_scale(found: "Analysis", scale: "ScaleSummary") -> None:
    level = f"{100 * found.level:g} % from"
    rows = [
        (coffee.name, str(mean.n), *_said(mean.mean))
        for coffee, mean in zip(found.answers.coffees, scale.means, strict=True)
    ]
    say_rows((scale.scale.field.label, "tasters", "mean", level, "to"), rows)
    if scale.agreement:
        icc, low, high = _said(scale.agreement.icc)
        say(f"Agreement {icc} ({low} to {high}), {scale.agreement.tasters} tasters")
    else:
        say(f"No agreement: {scale.why_not}")


def _said(estimate: "Estimate | None") -> tuple[str, str, str]:
    if estimate is None:
        return "-", "-", "-"
    numbers = (estimate.estimate, estimate.low, estimate.high)
    first, low, high = (f"{number:.2f}" if isfinite(number) else "-" for number in numbers)
    return first, low, high
