"""What compared the places of the table at once: orders of all places, and the odd one out."""

from collections import defaultdict

from cupwright.core.analyse.answers import Answers, Given
from cupwright.core.report.document import Block, Cell, Column, Heading, Paragraph, TableBlock
from cupwright.core.report.wording import counted
from cupwright.core.taste.sheet import Field, Kind

_RANKS = (
    Column("Coffee"),
    Column("Place"),
    Column("Sum of ranks", 1, "right"),
    Column("Mean rank", 2, "right"),
    Column("Tasters", 0, "right"),
)
_PICKED = (Column("Place"), Column("Coffee"), Column("Picked by", 0, "right"), Column("of", 0, "right"))


def compared_section(answers: Answers) -> tuple[Block, ...]:
    """Ranks and picks by place; nothing if the sheet compares no places."""
    blocks: list[Block] = []
    for part in answers.sheet.passes:
        for field in part.fields:
            given = [one for one in answers.compared if (one.part, one.field) == (part.id, field.id)]
            if field.kind is Kind.RANK:
                blocks += [Heading(field.label), *_ranked(answers, given)]
            elif field.kind is Kind.ODD:
                blocks += [Heading(field.label), *_picked(answers, field, given)]
    return tuple(blocks)


def odd_place(answers: Answers) -> str | None:
    """The one place whose coffee stands nowhere else, among at least three; None if there is no such."""
    places = [place for held in answers.places for place in held]
    odd = [held[0] for held in answers.places if len(held) == 1]
    return odd[0] if len(odd) == 1 and len(places) > 2 else None


def midranks(order: dict[str, float]) -> dict[str, float]:
    """Ranks from 1, places that share a number sharing the mean of the ranks they take up together."""
    ranks: dict[str, float] = {}
    before = 0
    for number in sorted(set(order.values())):
        tied = [place for place, own in order.items() if own == number]
        ranks |= dict.fromkeys(tied, before + (len(tied) + 1) / 2)
        before += len(tied)
    return ranks


def _ranked(answers: Answers, given: list[Given]) -> tuple[Block, ...]:
    places = [place for held in answers.places for place in held]
    whole = [one.value for one in given if isinstance(one.value, dict) and one.value.keys() == set(places)]
    left_out = len(given) - len(whole)
    if not whole:
        return (Paragraph("Nobody put all places in an order."),)
    ranks: dict[str, list[float]] = defaultdict(list)
    for order in whole:
        for place, rank in midranks(order).items():
            ranks[place].append(rank)
    rows: list[tuple[Cell, ...]] = [
        (_coffee(answers, place), place, sum(own), sum(own) / len(own), len(own))
        for place, own in ranks.items()
    ]
    said = f"{counted(len(whole), 'taster')} put all places in an order; the first has rank 1."
    if left_out:
        said += f" {counted(left_out, 'order')} without all places left out."
    caption = "Places that share a rank count with the mean of the ranks they take up."
    table = TableBlock(_RANKS, tuple(sorted(rows, key=lambda row: float(row[2] or 0))), caption, "ranks")
    return (Paragraph(said), table)


def _picked(answers: Answers, field: Field, given: list[Given]) -> tuple[Block, ...]:
    if not given:
        return (Paragraph("Nobody chose an odd one."),)
    places = [place for held in answers.places for place in held]
    odd = odd_place(answers)
    rows = tuple(
        (place, _coffee(answers, place), sum(one.value == place for one in given), len(given))
        for place in places
    )
    table = TableBlock(_PICKED, rows, "Who picked which place.", field.id.replace("_", "-"))
    if odd is None:
        return (Paragraph(f"{counted(len(given), 'taster')} picked a place."), table)
    right = sum(one.value == odd for one in given)
    said = (
        f"{right} of {counted(len(given), 'taster')} picked {odd}, which was the odd one; "
        f"by guessing alone one in {len(places)} would."
    )
    return (Paragraph(said), table)


def _coffee(answers: Answers, place: str) -> str:
    rows = zip(answers.coffees, answers.places, strict=True)
    return next(coffee.name for coffee, held in rows if place in held)
