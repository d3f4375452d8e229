"""What moved the scores beside coffees and tasters: order, warmth, the coffee before, the table."""

from collections.abc import Sequence

from cupwright.core.analyse.fixed_terms import FixedTerm
from cupwright.core.report.document import (
    Block,
    Caveat,
    Column,
    Figure,
    FigureKind,
    Heading,
    Paragraph,
    TableBlock,
)
from cupwright.core.report.wording import capital, level_name, listed

_COLUMNS = (
    Column("Term"),
    Column("Points", 3, "right"),
    Column("From", 3, "right"),
    Column("To", 3, "right"),
    Column("Standard error", 3, "right"),
    Column("Degrees of freedom", 1, "right"),
)
_MOST_SAID = 3
_UNITS = {"position": "a place later", "temperature": "a kelvin warmer"}


def effects_section(found: Sequence[FixedTerm], silent: Sequence[str] = ()) -> tuple[Block, ...]:
    """Each term by itself; `silent` are the sentences of those that could not be had."""
    heading = Heading("What else moved the scores")
    if not found:
        return (heading, Paragraph(" ".join(dict.fromkeys(silent)) or "Nothing else is known."))
    return (
        heading,
        Paragraph(_answer(found)),
        _figure(found),
        TableBlock(
            _COLUMNS,
            tuple((_called(one), one.estimate, one.low, one.high, one.error, one.freedom) for one in found),
            "Points for each unit of a term, beside coffees and tasters; each kind of term by itself.",
            "effects",
        ),
        *(Paragraph(said) for said in dict.fromkeys(silent)),
        Caveat(
            "Intervals are Student's with Satterthwaite's degrees of freedom, one at a time. Where all "
            "tasters met the coffees in one order, its effect cannot be told from theirs."
        ),
    )


def _answer(found: Sequence[FixedTerm]) -> str:
    moved = [one for one in found if one.low > 0 or one.high < 0]
    if not moved:
        return "Nothing of it for sure: each may have done nothing."
    moved.sort(key=lambda one: -abs(one.estimate / one.error))
    said = [f"{_called(one)} {one.estimate:+.2f} ({one.low:.2f} to {one.high:.2f})" for one in moved]
    more = [f"{len(said) - _MOST_SAID} more"] if len(said) > _MOST_SAID else []
    return (
        f"{capital(listed(said[:_MOST_SAID] + more))}, in points with {level_name(found[0].level)} "
        "intervals; what is not named may have done nothing."
    )


def _called(one: FixedTerm) -> str:
    return _UNITS.get(one.name, one.name.replace("carry_over", "after"))


def _figure(found: Sequence[FixedTerm]) -> Figure:
    said = "; ".join(f"{_called(one)} {one.estimate:.2f} ({one.low:.2f} to {one.high:.2f})" for one in found)
    return Figure(
        FigureKind.INTERVALS,
        tuple(
            {"label": _called(one), "estimate": one.estimate, "low": one.low, "high": one.high}
            for one in found
        ),
        f"What else moved the scores: {said}.",
        x_title="points",
        name="effects",
    )
