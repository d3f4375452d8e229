"""The report of a season: every attribute across all opened tables, and what each coffee was given."""

from cupwright.core.analyse.overview import overview
from cupwright.core.analyse.season_columns import SeasonColumns
from cupwright.core.report.across_section import across_section
from cupwright.core.report.document import Block, Column, Document, Heading, Paragraph, TableBlock
from cupwright.core.report.question import question

_COLUMNS = (
    Column("Coffee"),
    Column("Attribute"),
    Column("Scores", 0, "right"),
    Column("Mean", 2, "right"),
    Column("Spread", 2, "right"),
)


def season_report(columns: SeasonColumns, *, level: float = 0.95) -> Document:
    """All attributes across tables, then plain means; for whoever leads the panel."""
    whole = columns.scores
    return Document(
        title="Season",
        subtitle="All opened tables together",
        facts=(
            ("Tables", f"{len(columns.tables):,}"),
            ("Scores", f"{len(whole):,}"),
            ("Coffees", f"{len(whole.coffees):,}"),
            ("Tasters", f"{len(whole.tasters):,}"),
        ),
        blocks=(*_across(columns, level), *_means(columns)),
    )


def _across(columns: SeasonColumns, level: float) -> tuple[Block, ...]:
    if len(columns.tables) < 2:
        said = "There is one opened table only; its own analysis says what can be said."
        return (Heading("How do coffees compare across tables?"), Paragraph(said))
    scored = [
        (name, scores) for name in columns.scores.attributes if (scores := columns.of(name)) is not None
    ]
    parts = [(name, across_section(scores, level=level)) for name, scores in scored]
    return question("How do coffees compare across tables?", parts)


def _means(columns: SeasonColumns) -> tuple[Block, ...]:
    rows = tuple(tuple(row.values()) for row in overview(columns.scores).rows())
    caption = (
        "Plain means of all scores, whoever gave them at whichever table; the values above allow for both."
    )
    return (Heading("What was each coffee given?"), TableBlock(_COLUMNS, rows, caption, "season-means"))
