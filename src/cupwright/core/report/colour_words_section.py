"""Which words go with which colours, over all tables of this installation."""

from collections.abc import Sequence

from cupwright.core.report.document import (
    Block,
    Caveat,
    Cell,
    Column,
    Figure,
    FigureKind,
    Heading,
    Paragraph,
    TableBlock,
)
from cupwright.core.report.wording import counted, quoted
from cupwright.core.words.colour import hex_of
from cupwright.core.words.colour_words import ColouredCup, FamilyColour, Shift, colours_of_families
from cupwright.core.words.lexicon import Lexicon
from cupwright.errors import TooFewObservations

_SHOWN = 8


def colour_words_section(cups: Sequence[ColouredCup], lexicon: Lexicon) -> tuple[Block, ...]:
    """Families of words whose cups have a colour of their own, or the sentence that says why there are none.

    Parameters
    ----------
    cups : sequence of ColouredCup
        Of all opened tables; nothing is said if there are none.
    """
    if not cups:
        return ()
    heading = Heading("Words and colours, over all tables", 2)
    try:
        found = [one for one in colours_of_families(cups, lexicon) if _says(one)]
    except TooFewObservations as few:
        return (heading, Paragraph(few.sentence()))
    seen = f"{counted(len(cups), 'cup')} of all opened tables were given a colour and words."
    if not found:
        none = "No family of words goes with a colour of its own beyond what chance could do."
        return (heading, Paragraph(f"{seen} {none}"))
    caveat = (
        "Of twenty families without any link about one shows one by luck. Whether word or colour came first, "
        "or both came from the coffee, cannot be told."
    )
    shown = found[:_SHOWN]
    return (heading, Paragraph(seen), _figure(shown), _table(shown), Caveat(caveat))


def _says(family: FamilyColour) -> bool:
    return family.lighter.sure or family.redder.sure or family.yellower.sure


def _figure(families: Sequence[FamilyColour]) -> Figure:
    rows: tuple[dict[str, Cell], ...] = tuple(
        {"group": one.label, "label": label, "colour": hex_of(colour)}
        for one in families
        for label, colour in (("with", one.colour), ("without", one.elsewhere))
    )
    said = "; ".join(f"{one.label}: {hex_of(one.colour)}, else {hex_of(one.elsewhere)}" for one in families)
    return Figure(
        kind=FigureKind.SWATCHES,
        rows=rows,
        alt=f"Mean colour of cups with a word of each family, then of all other cups. {said}.",
        caption="First the cups with a word of the family, then all others.",
        name="colour-words",
    )


def _table(families: Sequence[FamilyColour]) -> TableBlock:
    rows = tuple((quoted(one.label), one.cups, one.tasters, one.difference, _shifts(one)) for one in families)
    return TableBlock(
        columns=(
            Column("Family"),
            Column("Cups", 0, "right"),
            Column("Tasters", 0, "right"),
            Column("Difference", 1, "right"),
            Column("Against all other cups"),
        ),
        rows=rows,
        caption=(
            "Difference: CIEDE2000, about 1 is just seen. Shifts in OKLab (black to white is 1) with 95 % "
            "intervals from drawing tasters anew; only those that leave out 0."
        ),
        name="colour-words",
    )


def _shifts(family: FamilyColour) -> str:
    sides = (
        (family.lighter, "lighter", "darker"),
        (family.redder, "redder", "greener"),
        (family.yellower, "yellower", "bluer"),
    )
    return "; ".join(_shift(shift, more, less) for shift, more, less in sides if shift.sure)


def _shift(shift: Shift, more: str, less: str) -> str:
    name = more if shift.estimate > 0 else less
    low, high = sorted((abs(shift.low), abs(shift.high)))
    return f"{name} by {abs(shift.estimate):.2f} ({low:.2f} to {high:.2f})"
