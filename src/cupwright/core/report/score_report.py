"""The report of a file of scores: question by question, each over all its attributes."""

from cupwright.core.analyse.score_analysis import FileAnalysis
from cupwright.core.report.document import Block, Document, Heading, Paragraph
from cupwright.core.report.gathered import gathered
from cupwright.core.report.score_questions import score_questions


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
        blocks=(*gathered(score_questions(tuple(found.attributes.values()))), *_remarks(found)),
    )


def _remarks(found: FileAnalysis) -> tuple[Block, ...]:
    if not found.remarks:
        return ()
    return (Heading("How the file was read"), *(Paragraph(remark) for remark in found.remarks))
