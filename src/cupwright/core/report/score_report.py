"""The report of a file of scores: question by question, each over all its attributes."""

from cupwright.core.analyse.score_analysis import FileAnalysis
from cupwright.core.report.document import Block, Document, Heading, Paragraph
from cupwright.core.report.gathered import gathered
from cupwright.core.report.score_questions import (
    across_question,
    coffees_question,
    cooling_question,
    effects_question,
    ordinal_question,
    panel_question,
    ranks_question,
    scores_map_question,
    tasters_question,
)


def score_report(found: FileAnalysis) -> Document:
    """The document of a file's analysis."""
    scored = [one.scores for one in found.attributes.values() if one.scores is not None]
    coffees = {name for scores in scored for name in scores.coffees}
    tasters = {name for scores in scored for name in scores.tasters}
    return Document(
        title=found.file,
        subtitle="Report of a file of scores",
        facts=(
            ("Scores", f"{sum(map(len, scored)):,}"),
            ("Coffees", f"{len(coffees):,}"),
            ("Tasters", f"{len(tasters):,}"),
            ("Attributes", str(len(found.attributes))),
        ),
        blocks=(*score_questions(found), *_remarks(found)),
    )


def score_questions(found: FileAnalysis) -> tuple[Block, ...]:
    """Every question as a section; the silent ones in one line."""
    analyses = tuple(found.attributes.values())
    return gathered(
        (
            coffees_question(analyses),
            ordinal_question(analyses),
            effects_question(analyses),
            panel_question(analyses),
            tasters_question(analyses),
            scores_map_question(analyses, level=found.level),
            ranks_question(analyses),
            cooling_question(analyses),
            across_question(analyses),
        ),
        reasons=True,
    )


def _remarks(found: FileAnalysis) -> tuple[Block, ...]:
    if not found.remarks:
        return ()
    return (Heading("How the file was read"), *(Paragraph(remark) for remark in found.remarks))
