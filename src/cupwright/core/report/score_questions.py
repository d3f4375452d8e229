"""The questions that scores answer, each over all attributes, in the order in which they are asked."""

from collections.abc import Callable, Sequence

from cupwright.core.analyse.score_analysis import ScoreAnalysis
from cupwright.core.analyse.scores import Scores
from cupwright.core.report.document import Block, Heading, Paragraph
from cupwright.core.report.question import question
from cupwright.core.report.ranks_section import ranks_section

Blocks = tuple[Block, ...]
_EMPTY = "There is not a single score."


def score_questions(analyses: Sequence[ScoreAnalysis]) -> tuple[Blocks, ...]:
    """One section a question; of an attribute that cannot answer it, the sentence why."""
    return (_asked("Do the coffees differ in rank?", analyses, _ranks),)


def _asked(
    title: str, analyses: Sequence[ScoreAnalysis], section: Callable[[ScoreAnalysis, Scores], Blocks]
) -> Blocks:
    parts = [
        (one.name, (Heading(title), Paragraph(_EMPTY)) if one.scores is None else section(one, one.scores))
        for one in analyses
    ]
    return question(title, parts)


def _ranks(found: ScoreAnalysis, scores: Scores) -> Blocks:
    return ranks_section(scores, level=found.level, resamples=found.draws)
