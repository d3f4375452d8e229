"""The colours tasters gave each coffee."""

from cupwright.core.analyse.answers import Answers
from cupwright.core.analyse.coloured_cups import picked_colour
from cupwright.core.report.document import (
    Block,
    Cell,
    Column,
    Figure,
    FigureKind,
    Heading,
    Paragraph,
    TableBlock,
)
from cupwright.core.report.wording import counted
from cupwright.core.taste.sheet import Kind
from cupwright.core.words.colour import OKLab, hex_of
from cupwright.core.words.colour_consensus import Consensus, consensus

_SHOWN = 48


def colours_section(answers: Answers) -> tuple[Block, ...]:
    """Every colour as it was picked, side by side, and how far the picks lie apart."""
    if not _asked(answers):
        return ()
    heading = Heading("Colours")
    picked = {coffee.id: _of_coffee(answers, coffee.id) for coffee in answers.coffees}
    if not any(picked.values()):
        return (heading, Paragraph("Nobody picked a colour."))
    count = len(answers.of_kind(Kind.COLOUR))
    sentence = (
        f"Tasters picked {counted(count, 'colour')} that the coffees have for them. There is no right one."
    )
    together = {coffee: consensus([colour for _, colour in some]) for coffee, some in picked.items() if some}
    return (
        heading,
        Paragraph(sentence),
        _figure(answers, picked),
        _middles(answers, together),
        _spreads(answers, together),
    )


def _asked(answers: Answers) -> bool:
    return any(field.kind is Kind.COLOUR for part in answers.sheet.passes for field in part.fields)


def _of_coffee(answers: Answers, coffee: str) -> list[tuple[str, OKLab]]:
    """(taster, colour), dark colours first."""
    names = {seat.id: seat.name for seat in answers.seats}
    given = [answer for answer in answers.of_kind(Kind.COLOUR) if answer.coffee == coffee]
    return sorted(
        ((names[one.seat], picked_colour(one)) for one in given), key=lambda pair: (pair[1].l, pair[0])
    )


def _figure(answers: Answers, picked: dict[str, list[tuple[str, OKLab]]]) -> Figure:
    rows: tuple[dict[str, Cell], ...] = tuple(
        {"group": coffee.name, "label": taster, "colour": hex_of(colour)}
        for coffee in answers.coffees
        for taster, colour in picked[coffee.id][:_SHOWN]
    )
    said = "; ".join(f"{row['group']}, {row['label']}: {row['colour']}" for row in rows[:_SHOWN])
    cut = any(len(colours) > _SHOWN for colours in picked.values())
    return Figure(
        kind=FigureKind.SWATCHES,
        rows=rows,
        alt=f"Colours picked for each coffee, from dark to light. {said}.",
        caption=f"From dark to light{f', the first {_SHOWN} of each' if cut else ''}.",
        name="colours",
    )


def _middles(answers: Answers, together: dict[str, Consensus]) -> Figure:
    rows: tuple[dict[str, Cell], ...] = tuple(
        {"group": coffee.name, "label": "middle", "colour": hex_of(together[coffee.id].colour)}
        for coffee in answers.coffees
        if coffee.id in together
    )
    said = "; ".join(f"{row['group']}: {row['colour']}" for row in rows)
    return Figure(
        kind=FigureKind.SWATCHES,
        rows=rows,
        alt=f"The middle of the colours picked for each coffee. {said}.",
        caption="The middle of all picks of a coffee. Of opposite hues it is grey, which nobody picked.",
        name="colours-middle",
    )


def _spreads(answers: Answers, together: dict[str, Consensus]) -> TableBlock:
    rows = tuple(
        (coffee.name, middle.count, hex_of(middle.colour), middle.spread if middle.count > 1 else None)
        for coffee in answers.coffees
        if (middle := together.get(coffee.id))
    )
    return TableBlock(
        columns=(
            Column("Coffee"),
            Column("Colours", 0, "right"),
            Column("Middle"),
            Column("Spread", 0, "right"),
        ),
        rows=rows,
        caption="Spread: typical distance from the middle of the picks (CIEDE2000; black to white is 100).",
        name="colours",
    )
