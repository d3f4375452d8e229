"""Repeats: how far each taster's answers on one coffee lie apart, where it stood at several places."""

from cupwright.core.analyse.answers import Answers
from cupwright.core.analyse.repeats import Repeats, ScaleRepeats
from cupwright.core.report.document import Block, Caveat, Cell, Column, Heading, Paragraph, TableBlock
from cupwright.core.report.wording import between, level_name, listed

# With more rows than this the report would be a book of pairs; the data have them all.
_MOST_SHOWN = 60
_NUMBERS = (
    Column("Question"),
    Column("Coffee"),
    Column("Taster"),
    Column("Places"),
    Column("Answers"),
    Column("Apart", 2, "right"),
)
_WORDS = (
    Column("Coffee"),
    Column("Taster"),
    Column("Places"),
    Column("Words in both", 0, "right"),
    Column("Near", 0, "right"),
    Column("Alike, 0 to 1", 2, "right"),
)


def repeats_section(answers: Answers, found: Repeats) -> tuple[Block, ...]:
    """Each taster's pairs, how far a repeat scatters, and the words of both; nothing without any."""
    if not found.scales and not found.words:
        return ()
    caveat = (
        "The coffee was the same, the bowls were not: cooling, pouring and the bowl before count as scatter "
        "too. The intervals take the scatter as normal and as large for every taster. Standard deviation of "
        "a repeat: Dahlberg (1940); ISO 5725-2."
    )
    shown = _shown(found)
    return (
        Heading("The same coffee again"),
        *_spreads(shown),
        *_numbers(answers, shown),
        *_words(answers, found),
        Caveat(caveat),
    )


def _shown(found: Repeats) -> tuple[ScaleRepeats, ...]:
    """The totals alone where there are any: they say it in short, and the data have every scale."""
    return tuple(one for one in found.scales if one.field == "total" and not one.part) or found.scales


def _spreads(shown: tuple[ScaleRepeats, ...]) -> tuple[Paragraph, ...]:
    """One paragraph a scale; scales of which nothing can be said for one reason share theirs."""
    said: dict[str, list[str]] = {}
    for one in shown:
        said.setdefault(spread_in_words(one), []).append(one.label)
    return tuple(Paragraph(text, listed(labels)) for text, labels in said.items())


def spread_in_words(one: ScaleRepeats) -> str:
    """How far a repeat scatters on one scale, or why that cannot be said."""
    if one.spread is None:
        return one.why_not
    interval = f"{level_name(one.spread.level)} interval {between(one.spread, 2)}"
    return (
        f"One answer scatters by a standard deviation of {one.spread.estimate:.2f} ({interval}) when "
        f"the same taster meets the same coffee again; from {one.freedom} repeats."
    )


def _numbers(answers: Answers, shown: tuple[ScaleRepeats, ...]) -> tuple[Block, ...]:
    names = _names(answers)
    rows: list[tuple[Cell, ...]] = [
        (
            scale.label,
            names[one.coffee],
            one.name,
            listed(one.places),
            listed([f"{value:g}" for value in one.values]),
            one.apart,
        )
        for scale in shown
        for one in scale.repeats
    ]
    if not rows or len(rows) > _MOST_SHOWN:
        return ()
    return (TableBlock(_NUMBERS, tuple(rows), "One taster's answers on one coffee.", "repeats"),)


def _words(answers: Answers, found: Repeats) -> tuple[Block, ...]:
    names = _names(answers)
    rows: list[tuple[Cell, ...]] = [
        (names[one.coffee], one.name, listed(one.places), one.shared, one.near, one.share)
        for one in found.words
    ]
    if not rows or len(rows) > _MOST_SHOWN:
        return ()
    caption = "One taster's words for one coffee at two places: 1 if the same, near words counted in part."
    return (TableBlock(_WORDS, tuple(rows), caption, "repeated-words"),)


def _names(answers: Answers) -> dict[str, str]:
    return {coffee.id: coffee.name for coffee in answers.coffees}
