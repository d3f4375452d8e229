"""A table's orders of places as scores: the first has the highest."""

from dataclasses import dataclass

import numpy as np

from cupwright.core.analyse.answers import Answers, Given
from cupwright.core.analyse.scores import Scores, scores_of
from cupwright.core.taste.sheet import Kind


@dataclass(frozen=True, slots=True)
class TableRanks:
    """One question that asked for an order. `scores` count from the last place; None if nobody gave a whole
    order."""

    part: str
    field: str
    label: str
    scores: Scores | None


def table_ranks(answers: Answers) -> tuple[TableRanks, ...]:
    """The questions of a sheet that ask for an order of all places, in the order of the sheet.

    Returns
    -------
    tuple of TableRanks
        A score is the number of places less the place's number in the order, so that more is better; places
        that share a number share a score. A coffee at several places has one score for each.
    """
    return tuple(
        TableRanks(part.id, field.id, field.label, _scores(answers, part.id, field.id))
        for part in answers.sheet.passes
        for field in part.fields
        if field.kind is Kind.RANK
    )


def _scores(answers: Answers, part: str, field: str) -> Scores | None:
    places = {place for held in answers.places for place in held}
    orders = [
        (one.seat, order)
        for one in answers.compared
        if (one.part, one.field) == (part, field) and (order := _order(one)).keys() == places
    ]
    if not orders or not places:
        return None
    names = {seat.id: seat.name for seat in answers.seats}
    most = max(map(len, answers.places))
    values = np.full((len(answers.coffees), len(orders), most), np.nan)
    for column, (_, order) in enumerate(orders):
        for row, held in enumerate(answers.places):
            values[row, column, : len(held)] = [len(places) - order[place] for place in held]
    return scores_of(
        values,
        coffees=[coffee.name for coffee in answers.coffees],
        tasters=[names[seat] for seat, _ in orders],
    )


def _order(given: Given) -> dict[str, float]:
    return (
        {str(place): float(number) for place, number in given.value.items()}
        if isinstance(given.value, dict)
        else {}
    )
