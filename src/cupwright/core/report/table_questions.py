"""The questions of an opened table: coffees, panel, tasters, words, map, ranks, picks, cooling, cups."""

from collections import Counter
from collections.abc import Sequence

from cupwright.core.analyse.answers import Answers
from cupwright.core.analyse.answers_map import answers_map
from cupwright.core.analyse.marked_bowls import marked_bowls
from cupwright.core.analyse.one_cup_off import cups_off
from cupwright.core.analyse.score_analysis import ScoreAnalysis, analyse_scores
from cupwright.core.analyse.scores import Scores
from cupwright.core.analyse.table_ranks import table_ranks
from cupwright.core.analyse.table_scores import (
    liking_label,
    scale_ends,
    scale_steps,
    table_scores,
    taster_names,
)
from cupwright.core.analyse.tasters import taster_performance
from cupwright.core.analyse.totals import Total
from cupwright.core.plan.table import Table
from cupwright.core.report.cooling_questions import colours_cooling_question, words_cooling_question
from cupwright.core.report.cups_section import cups_section
from cupwright.core.report.document import Block
from cupwright.core.report.gathered import gathered
from cupwright.core.report.map_section import map_section
from cupwright.core.report.own_performance import own_performance
from cupwright.core.report.preference_section import preference_question
from cupwright.core.report.score_questions import (
    coffees_question,
    cooling_question,
    effects_question,
    ordinal_question,
    panel_question,
    ranks_question,
    tasters_question,
)
from cupwright.core.report.word_map_section import word_map_section
from cupwright.core.report.words_hold_section import words_hold_section
from cupwright.core.taste.sheet import CUP_KINDS

# Of a crowd nobody reads a line each.
_MOST_TASTERS = 60


def table_questions(
    answers: Answers, totals: Sequence[Total] = (), *, bowls: int = 1, level: float = 0.95
) -> tuple[Block, ...]:
    """Every question as a section: a sentence, a picture, the numbers, the method; silences in one line."""
    analyses = table_analyses(answers, totals, level=level)
    orders = [(one.label, one.scores) for one in table_ranks(answers) if one.scores is not None]
    whole = answers_map(answers)
    return gathered(
        (
            coffees_question(analyses, scale_ends(answers)),
            ordinal_question(analyses),
            effects_question(analyses),
            panel_question(analyses),
            tasters_question(analyses),
            words_hold_section(answers, level=level),
            word_map_section(whole, level=level),
            map_section(whole, level=level),
            ranks_question(analyses, orders),
            preference_question([*_liking(answers, analyses), *orders], level=level),
            cooling_question(analyses),
            words_cooling_question(answers, level=level),
            colours_cooling_question(answers, level=level),
            _cups(answers, bowls),
        )
    )


def own_question(
    answers: Answers, seat: str, totals: Sequence[Total] = (), *, level: float = 0.95
) -> tuple[Block, ...]:
    """What a table says of one taster, for that taster alone: no other name and no other number."""
    name = taster_names(answers)[seat]
    own = [
        (label, found)
        for label, scores in table_scores(answers, totals).items()
        for found in taster_performance(scores, level=level, only=name)
    ]
    return own_performance(own)


def _liking(answers: Answers, analyses: Sequence[ScoreAnalysis]) -> list[tuple[str, Scores]]:
    """Overall liking puts coffees in an order of preference; no other scale does."""
    label = liking_label(answers)
    return [(one.name, one.scores) for one in analyses if one.name == label and one.scores is not None]


def _cups(answers: Answers, bowls: int) -> tuple[Block, ...]:
    """Nothing where no question asks of single bowls."""
    asked = any(field.kind in CUP_KINDS for part in answers.sheet.passes for field in part.fields)
    return cups_section(cups_off(marked_bowls(answers, bowls))) if asked and bowls > 1 else ()


def bowls_of(table: Table) -> int:
    """How many bowls each sample of a table has: the least of its places."""
    counts = Counter(place for place, _ in table.bowls)
    return min(counts.values(), default=1)


def table_analyses(
    answers: Answers, totals: Sequence[Total] = (), *, level: float = 0.95
) -> tuple[ScoreAnalysis, ...]:
    """The analysis of every scale that somebody answered, and of the totals."""
    scales = table_scores(answers, totals)
    steps = scale_steps(answers)
    return tuple(
        analyse_scores(name, scores, level=level, step=steps.get(name, 0.0), most_tasters=_MOST_TASTERS)
        for name, scores in scales.items()
    )
