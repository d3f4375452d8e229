"""What could not be read: how far the counts of words can be trusted to hold what was written."""

from cupwright.core.analyse.coverage import Coverage
from cupwright.core.report.document import Block, Column, Heading, Paragraph, TableBlock
from cupwright.core.report.wording import capital, counted, percent

_WORDS, _NOTES = 15, 10


def reading_section(coverage: Coverage) -> tuple[Block, ...]:
    """Counts of empty, read and unread notes, and what stopped the reading."""
    blocks: list[Block] = [Heading("What could not be read"), Paragraph(how_much_was_read(coverage))]
    if coverage.written:
        blocks.append(
            Paragraph(
                f"There were {counted(coverage.asked, 'chance')} to write (tasters x places x questions in "
                f"words); {coverage.empty:,} of them stayed empty. Every note is kept word for word; reading "
                "is an interpretation beside it."
            )
        )
    if coverage.unread_words:
        blocks.append(
            _table(coverage.unread_words[:_WORDS], "Word", "Words most often not known.", "unread-words")
        )
    if coverage.unread_notes:
        caption = "Notes in which nothing was known, the commonest first."
        blocks.append(_table(coverage.unread_notes[:_NOTES], "Note", caption, "unread-notes"))
    return tuple(blocks)


def how_much_was_read(coverage: Coverage) -> str:
    """One sentence on the share of notes that could be read."""
    if not coverage.written:
        return "Nobody wrote anything in words."
    notes = capital(counted(coverage.written, "note")) + (" was" if coverage.written == 1 else " were")
    if not coverage.unread:
        return f"{notes} written, and at least one known word was found in each."
    return (
        f"{notes} written; in {coverage.unread:,} of them ({percent(coverage.unread / coverage.written)}) "
        "no known word was found."
    )


def _table(rows: tuple[tuple[str, int], ...], title: str, caption: str, name: str) -> TableBlock:
    return TableBlock((Column(title), Column("Notes", 0, "right")), rows, caption, name)
