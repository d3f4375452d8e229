"""The questions that scores answer, each over all attributes, in the order in which they are asked."""

from collections.abc import Sequence

from cupwright.core.analyse.score_analysis import ScoreAnalysis
from cupwright.core.report.document import Block


def score_questions(analyses: Sequence[ScoreAnalysis]) -> tuple[tuple[Block, ...], ...]:
    """One section a question; of an attribute that cannot answer it, the sentence why."""
    return ()
