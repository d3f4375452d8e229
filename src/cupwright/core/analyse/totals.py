"""Totals: what each taster's sheet gives each sample of an opened table."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from cupwright.core.analyse.answers import Answers
from cupwright.core.plan.table import Table
from cupwright.core.taste.note import Value
from cupwright.core.taste.points import Points, points


@dataclass(frozen=True, slots=True)
class Total:
    """One taster's points for one place, whose coffee is known by now."""

    seat: str
    name: str
    place: str
    coffee: str
    points: Points


def totals(table: Table, answers: Answers) -> tuple[Total, ...]:
    """Every sheet on which something that counts was answered, by coffee, place and seat.

    Nothing if the table's sheet makes no points.
    """
    rule = table.sheet.points
    if rule is None:
        return ()
    counts = {(term.part, term.field) for term in (*rule.add, *rule.subtract)}
    given: dict[tuple[str, str], dict[tuple[str, str], Value]] = defaultdict(dict)
    for one in answers.given:
        if (one.part, one.field) in counts:
            given[one.place, one.seat][one.part, one.field] = one.value
    cups = {place: sum(bowl_place == place for bowl_place, _ in table.bowls) for place in table.places}
    return tuple(
        Total(
            seat.id,
            seat.name,
            place,
            coffee.id,
            points(table.sheet, given[place, seat.id], cups=cups[place], place=place),
        )
        for coffee, places in zip(answers.coffees, answers.places, strict=True)
        for place in places
        for seat in answers.seats
        if (place, seat.id) in given
    )


def mean_of(found: Sequence[Total]) -> float | None:
    """The mean of the totals that are settled; None without any."""
    settled = [float(one.points.total) for one in found if one.points.total is not None]
    return sum(settled) / len(settled) if settled else None
