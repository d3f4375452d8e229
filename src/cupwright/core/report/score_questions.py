"""The questions that scores answer, each over all attributes."""

from collections.abc import Callable, Sequence

from cupwright.core.analyse.answers_map import scores_map
from cupwright.core.analyse.friedman import Friedman
from cupwright.core.analyse.score_analysis import ScoreAnalysis
from cupwright.core.analyse.scores import Scores
from cupwright.core.report.document import Block, Heading, Paragraph
from cupwright.core.report.map_section import map_section
from cupwright.core.report.question import question
from cupwright.core.report.ranks_section import ranks_section

Blocks = tuple[Block, ...]
Analyses = Sequence[ScoreAnalysis]
_EMPTY = "There is not a single score."


def ranks_question(analyses: Analyses, orders: Sequence[tuple[str, Scores]] = ()) -> Blocks:
    """Question 6, by each taster's own order alone; `orders` are those that were asked for as such."""

    def section(found: ScoreAnalysis, scores: Scores) -> Blocks:
        tested = found.ranks if isinstance(found.ranks, Friedman) else None
        return ranks_section(scores, level=found.level, resamples=found.draws, found=tested)

    asked = [(label, ranks_section(scores)) for label, scores in orders]
    return _asked("Do the coffees differ in rank?", analyses, section, before=asked)


def scores_map_question(analyses: Analyses, *, level: float) -> Blocks:
    """Question 5; nothing of a single attribute, whose map would be a line."""
    scored = {one.name: one.scores for one in analyses if one.scores is not None}
    return map_section(scores_map(scored), level=level) if len(scored) > 1 else ()


def _asked(
    title: str,
    analyses: Analyses,
    section: Callable[[ScoreAnalysis, Scores], Blocks],
    *,
    before: Sequence[tuple[str, Blocks]] = (),
) -> Blocks:
    """One section over all attributes; of one without a score, that sentence."""
    parts = [
        (one.name, (Heading(title), Paragraph(_EMPTY)) if one.scores is None else section(one, one.scores))
        for one in analyses
    ]
    return question(title, [*before, *parts])
