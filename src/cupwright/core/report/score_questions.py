"""The questions that scores answer, each over all attributes."""

from collections.abc import Callable, Mapping, Sequence

from cupwright.core.analyse.fixed_terms import CHOICES
from cupwright.core.analyse.friedman import Friedman
from cupwright.core.analyse.map_answers import scores_map
from cupwright.core.analyse.score_analysis import ScoreAnalysis, has_tables
from cupwright.core.analyse.scores import Scores
from cupwright.core.report.across_section import across_section
from cupwright.core.report.coffees_section import coffees_section
from cupwright.core.report.cooling_section import cooling_section
from cupwright.core.report.document import Block, Heading, Paragraph
from cupwright.core.report.effects_section import effects_section
from cupwright.core.report.map_section import map_section
from cupwright.core.report.ordinal_section import ordinal_section
from cupwright.core.report.panel_section import panel_section
from cupwright.core.report.question import question
from cupwright.core.report.ranks_section import ranks_section
from cupwright.core.report.tasters_section import tasters_section

Blocks = tuple[Block, ...]
Analyses = Sequence[ScoreAnalysis]
NO_ENDS: Mapping[str, tuple[float, float]] = {}
_EMPTY = "There is not a single score."


def coffees_question(analyses: Analyses, ends: Mapping[str, tuple[float, float]] = NO_ENDS) -> Blocks:
    """Question 1; `ends`: attribute -> lowest and highest point of its scale, where that is known."""

    def section(found: ScoreAnalysis, scores: Scores) -> Blocks:
        if found.comparison is None:
            return _silence(found, "coffees", "Too little to say which coffee stands highest.")
        return coffees_section(scores, ends=ends.get(found.name), level=found.level, found=found.comparison)

    return _asked("Which coffee stands highest, and by how much?", analyses, section)


def ordinal_question(analyses: Analyses) -> Blocks:
    """Beside question 1, on short scales: which coffee is higher if the steps may be worth anything."""

    def section(found: ScoreAnalysis, scores: Scores) -> Blocks:
        if found.ordinal is None:
            return _silence(found, "ordinal", "Too little to go by the order of answers alone.")
        return ordinal_section(scores, level=found.level, found=found.ordinal, by_points=found.comparison)

    short = [one for one in analyses if one.ordinal or "ordinal" in one.silent]
    return _asked("Does the answer hang on what the steps are worth?", short, section)


def effects_question(analyses: Analyses) -> Blocks:
    """Beside question 1: what else moved the scores; nothing where nothing else is known."""

    def section(found: ScoreAnalysis, _: Scores) -> Blocks:
        return effects_section(found.effects, [found.silent[one] for one in CHOICES if one in found.silent])

    asked = [one for one in analyses if one.effects or any(term in one.silent for term in CHOICES)]
    return _asked("Did order, warmth or the table move the scores?", asked, section)


def panel_question(analyses: Analyses) -> Blocks:
    """Question 2: how reliable one taster and the panel are, and what more tasters would bring."""

    def section(found: ScoreAnalysis, scores: Scores) -> Blocks:
        if found.iccs is None:
            return _silence(found, "icc", "Too little to say whether this panel can be relied on.")
        return panel_section(
            scores, level=found.level, iccs=found.iccs, order=found.kendall_w, alpha=found.alpha
        )

    return _asked("Can we rely on this panel?", analyses, section)


def tasters_question(analyses: Analyses) -> Blocks:
    """Question 3, for whoever leads the panel."""

    def section(found: ScoreAnalysis, _: Scores) -> Blocks:
        if found.tasters is None:
            return _silence(found, "tasters", "Too little to say how each taster is doing.")
        return tasters_section(found.tasters)

    return _asked("How is each taster doing?", analyses, section)


def cooling_question(analyses: Analyses) -> Blocks:
    """Question 7; nothing where no temperature is known."""

    def section(found: ScoreAnalysis, _: Scores) -> Blocks:
        if found.cooling is None:
            return _silence(found, "cooling", "Too little to say how it moves.")
        return cooling_section(found.cooling)

    timed = [one for one in analyses if one.scores is not None and one.scores.temperature is not None]
    return _asked("What happens as it cools?", timed, section)


def across_question(analyses: Analyses) -> Blocks:
    """Question 9; nothing of a single table."""

    def section(found: ScoreAnalysis, scores: Scores) -> Blocks:
        if found.across is None:
            return _silence(found, "across_tables", "Too little to compare coffees across tables.")
        return across_section(scores, level=found.level, found=found.across)

    return _asked(
        "How do coffees compare across tables?", [one for one in analyses if has_tables(one.scores)], section
    )


def _silence(found: ScoreAnalysis, part: str, said: str) -> Blocks:
    return (Heading(part), Paragraph(f"{said} {found.silent.get(part, '')}".strip()))


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
