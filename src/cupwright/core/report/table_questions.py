"""The questions of an opened table: coffees, panel, tasters, words, map, ranks, cooling, cups."""

from collections.abc import Sequence

from cupwright.core.analyse.answers import Answers
from cupwright.core.analyse.answers_map import answers_map
from cupwright.core.analyse.answers_map import answers_map
from cupwright.core.analyse.score_analysis import ScoreAnalysis, analyse_scores
from cupwright.core.analyse.table_ranks import table_ranks
from cupwright.core.analyse.table_scores import table_scores
from cupwright.core.analyse.totals import Total
from cupwright.core.report.document import Block
from cupwright.core.report.gathered import gathered
from cupwright.core.report.map_section import map_section
from cupwright.core.report.map_section import map_section
from cupwright.core.report.score_questions import ranks_question
from cupwright.core.report.word_map_section import word_map_section
from cupwright.core.report.words_hold_section import words_hold_section

# Of a crowd nobody reads a line each.
_MOST_TASTERS = 60


def table_questions(
    answers: Answers, totals: Sequence[Total] = (), *, level: float = 0.95
) -> tuple[Block, ...]:
    """Every question as a section: a sentence, a picture, the numbers, the method; silences in one line."""
    analyses = table_analyses(answers, totals, level=level)
    orders = [(one.label, one.scores) for one in table_ranks(answers) if one.scores is not None]
    return gathered(
        (
            words_hold_section(answers, level=level),
            map_section(answers_map(answers), level=level),
            ranks_question(analyses, orders),
        )
    )


def table_analyses(
    answers: Answers, totals: Sequence[Total] = (), *, level: float = 0.95
) -> tuple[ScoreAnalysis, ...]:
    """The analysis of every scale that somebody answered, and of the totals."""
    scales = table_scores(answers, totals)
    return tuple(
        analyse_scores(name, scores, level=level, most_tasters=_MOST_TASTERS)
        for name, scores in scales.items()
    )
