"""Cups: is one bowl of a sample unlike its sisters, and what to do about it."""

from collections.abc import Sequence

from cupwright.core.analyse.one_cup_off import Bowl, SampleBowls
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
from cupwright.core.report.wording import chance, counted, listed

_TITLE = "One cup off"
_SURE = 0.05
_MOST_PICTURED = 60
_ADVICE = (
    "Taste it again with the others, without knowing which bowl it is. If it stands apart again, set it "
    "aside "
    "and score the coffee by its sisters, and say so; then brew the sample once more. A bowl that is off "
    "again "
    "and again belongs to the coffee: one bean can spoil a bowl, and that is a fault of the lot. A bowl that "
    "is off once may be a slip in dose, grind or pour. Do not drink on from a bowl that tastes of mould, "
    "solvent or "
    "cleaning agent."
)
_COLUMNS = (
    Column("Sample"),
    Column("Bowl", 0, "right"),
    Column("Apart from its sisters", 2, "right"),
    Column("Tasters", 0, "right"),
    Column("p in the sample", 4, "right"),
)


def cups_section(found: Sequence[SampleBowls], *, name: str = "cups") -> tuple[Block, ...]:
    """The bowls of each sample: an answer, a picture, the numbers, what to do.

    Parameters
    ----------
    found : sequence of SampleBowls
        Of `cups_off`; empty where nobody told bowls apart, or one taster alone did.
    """
    if not found:
        why = "No two tasters told the bowls of a sample apart, so nothing is to be set aside."
        return (Heading(_TITLE), Paragraph(why))
    off = [one for one in found if one.p_adjusted <= _SURE]
    return (
        Heading(_TITLE),
        Paragraph(_answer(found, off)),
        *([Paragraph(_ADVICE, "What to do")] if off or _suspected(found) else []),
        *_figure(found, name),
        _table(found, name),
        *_caveats(found),
    )


def bowl_in_words(one: SampleBowls) -> str:
    """The bowl that stands out most, as one sentence."""
    bowl = one.farthest
    if one.p_adjusted <= _SURE:
        return (
            f"Bowl {bowl.number} of {one.sample} is unlike its sisters{_by(one, bowl)} "
            f"({chance(one.p_adjusted)})."
        )
    if one.least_p > _SURE:
        return (
            f"Bowl {bowl.number} of {one.sample} stands out most{_by(one, bowl)}, but "
            f"{counted(one.tasters, 'taster')} "
            f"could not show it even in full agreement ({chance(one.least_p)} at best)."
        )
    return f"Whether a bowl of {one.sample} is unlike its sisters cannot be told ({chance(one.p_adjusted)})."


def _by(one: SampleBowls, bowl: Bowl) -> str:
    if one.marks:
        return ""
    return f", {abs(bowl.apart):.1f} points {'lower' if bowl.apart < 0 else 'higher'}"


def _suspected(found: Sequence[SampleBowls]) -> bool:
    return any(one.least_p > _SURE for one in found)


def _answer(found: Sequence[SampleBowls], off: Sequence[SampleBowls]) -> str:
    open_ones = [one for one in found if one not in off and one.least_p > _SURE]
    said = [bowl_in_words(one) for one in (*off, *open_ones)]
    if off:
        said.insert(len(off), "Taste " + ("it" if len(off) == 1 else "them") + " again with the others.")
    quiet = len(found) - len(off) - len(open_ones)
    if quiet:
        samples = listed([one.sample for one in found if one not in off and one not in open_ones])
        said.append(f"No bowl stands out beyond luck in {samples}.")
    return " ".join(said)


def _figure(found: Sequence[SampleBowls], name: str) -> list[Figure]:
    marked = [one for one in found if one.marks]
    scored = [one for one in found if not one.marks]
    figures = []
    if marked and sum(len(one.bowls) for one in marked) <= _MOST_PICTURED:
        rows = tuple(row for one in marked for row in _marks(one))
        figures.append(
            Figure(
                FigureKind.DOTS,
                rows,
                _alt(rows),
                "How many tasters marked each bowl",
                "",
                "",
                f"{name}-marks",
            )
        )
    if scored and sum(len(one.bowls) for one in scored) <= _MOST_PICTURED:
        points: tuple[dict[str, Cell], ...] = tuple(
            {"group": one.sample, "label": f"bowl {b.number}", "estimate": b.apart, "low": None, "high": None}
            for one in scored
            for b in one.bowls
        )
        said = listed([f"{row['group']} {row['label']} {row['estimate']:+.2f}" for row in points])
        title = "points from the mean of its sisters"
        alt = f"Each bowl against its sisters, in points: {said}."
        figures.append(Figure(FigureKind.INTERVALS, points, alt, "", title, "", f"{name}-scores"))
    return figures


def _marks(one: SampleBowls) -> list[dict[str, Cell]]:
    """How many tasters marked a bowl, out of those who answered."""
    return [
        {"label": f"{one.sample}, bowl {bowl.number}", "value": bowl.marked, "of": one.tasters}
        for bowl in one.bowls
    ]


def _alt(rows: Sequence[dict[str, Cell]]) -> str:
    said = [f"{row['label']} {row['value']} of {row['of']}" for row in rows]
    return f"Marks: {listed(said)}."


def _table(found: Sequence[SampleBowls], name: str) -> TableBlock:
    rows: list[tuple[Cell, ...]] = [
        (one.sample, bowl.number, bowl.apart, one.tasters, bowl.p) for one in found for bowl in one.bowls
    ]
    caption = (
        "Points from the mean of the other bowls, or for marks the share of tasters more than theirs; p "
        "guards "
        "against looking at every bowl of the sample."
    )
    return TableBlock(_COLUMNS, tuple(rows), caption, name)


def _caveats(found: Sequence[SampleBowls]) -> tuple[Caveat, ...]:
    how = (
        "every order was counted"
        if all(one.exact for one in found)
        else "orders were counted, or 9,999 drawn"
    )
    many = f"; Holm's adjustment for {counted(len(found), 'sample')}" if len(found) > 1 else ""
    return (
        Caveat(
            "If all bowls were alike, each taster's marks or scores could stand on them in any order; "
            f"{how}, and the bowl that stands out most compared{many}. It takes tasters who tasted the "
            "same bowls and "
            "did not hear each other. A bowl tasted cooler, or last, differs without being off."
        ),
    )
