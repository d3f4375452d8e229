"""Points: each taster's total for each coffee, and the lines by which it came about."""

from collections.abc import Sequence

from cupwright.core.analyse.answers import Answers
from cupwright.core.analyse.totals import Total, mean_of, totals
from cupwright.core.plan.table import Table
from cupwright.core.report.document import Block, Caveat, Cell, Column, Heading, Paragraph, TableBlock
from cupwright.core.report.wording import counted

# With more sheets than this the report would be a book of sums; the data have them all.
_MOST_EXPLAINED = 60
_COLUMNS = (
    Column("Coffee"),
    Column("Place"),
    Column("Taster"),
    Column("Total", 2, "right"),
    Column("From", 2, "right"),
    Column("To", 2, "right"),
)
_MEANS = (Column("Coffee"), Column("Mean of the totals", 2, "right"), Column("Sheets", 0, "right"))


def points_section(table: Table, answers: Answers) -> tuple[Block, ...]:
    """Means by coffee, totals by taster, how each total came about; nothing for a sheet without points."""
    if table.sheet.points is None:
        return ()
    found = totals(table, answers)
    heading = Heading("Points")
    if not found:
        return (heading, Paragraph("Nobody gave any points."))
    open_ones = sum(one.points.total is None for one in found)
    said = f"{counted(len(found), 'sheet')} with points"
    said += (
        f"; {counted(open_ones, 'sheet')} with something open, which a range stands for."
        if open_ones
        else "."
    )
    return (
        heading,
        Paragraph(said),
        _means(answers, found),
        _totals(answers, found),
        *_complaints(answers, found),
        *_lines(answers, found),
    )


def _means(answers: Answers, found: Sequence[Total]) -> TableBlock:
    rows: list[tuple[Cell, ...]] = []
    for coffee in answers.coffees:
        own = [one for one in found if one.coffee == coffee.id]
        rows.append((coffee.name, mean_of(own), sum(one.points.total is not None for one in own)))
    caption = "The mean over the sheets that add up; those with something open are left out of it."
    return TableBlock(_MEANS, tuple(rows), caption, "points-means")


def _totals(answers: Answers, found: Sequence[Total]) -> TableBlock:
    rows = tuple(
        (
            _coffee(answers, one),
            one.place,
            _taster(answers, one),
            None if one.points.total is None else float(one.points.total),
            float(one.points.low),
            float(one.points.high),
        )
        for one in found
    )
    return TableBlock(
        _COLUMNS, rows, "Every total; without one, the least and the most still possible.", "points"
    )


def _complaints(answers: Answers, found: Sequence[Total]) -> tuple[Block, ...]:
    return tuple(
        Caveat(f"{_taster(answers, one)} on {_coffee(answers, one)} ({one.place}): {complaint}")
        for one in found
        for complaint in one.points.complaints
        # That an answer is missing, the range says already.
        if not complaint.endswith("is missing.")
    )


def _lines(answers: Answers, found: Sequence[Total]) -> tuple[Block, ...]:
    if len(found) > _MOST_EXPLAINED:
        return ()
    rows = tuple(
        (f"{_taster(answers, one)}, {_coffee(answers, one)} ({one.place})", line)
        for one in found
        for line in one.points.lines
    )
    caption = "How each total came about."
    return (TableBlock((Column("Sheet"), Column("What was counted")), rows, caption, "points-lines"),)


def _coffee(answers: Answers, one: Total) -> str:
    return next(coffee.name for coffee in answers.coffees if coffee.id == one.coffee)


def _taster(answers: Answers, one: Total) -> str:
    return next(seat.name for seat in answers.seats if seat.id == one.seat)
