"""Assignment: coffees to codes by chance before the seal, and codes to places when the key is opened."""

import random
from collections.abc import Mapping, Sequence
from itertools import pairwise

from cupwright.core.plan.table import Blinding, Table
from cupwright.core.reveal.seal import Key
from cupwright.errors import Refused

# Enough to meet an assignment without repeats in a row if one in ten is such (missed once in 40,000 tables).
_DRAWS = 100


def assign(table: Table, coffees: Sequence[str], *, rng: random.Random) -> dict[str, str]:
    """Which coffee (by id) stands under which code: every assignment is equally likely.

    With a pourer each coffee gets one code; for a shuffle each bowl has its own, so each coffee gets
    as many as it has bowls. A table that is not blind pairs codes and coffees as they come. A hidden
    duplicate gets a code of its own: of assignments drawn one after the other, the first is taken in which
    the fewest tasters meet both codes in a row. The orders are not touched, for they must not tell.

    Raises
    ------
    Refused
        If the codes do not suffice exactly.
    """
    bowls = table.plan.bowls_per_sample if table.plan.blinding is Blinding.SHUFFLE else 1
    cups = [coffee for coffee in coffees for _ in range(bowls)]
    if not cups or len(cups) != len(table.codes):
        raise Refused(
            f"The table '{table.plan.name}' has {len(table.codes)} codes for {len(cups)} things to hide.",
            todo="Plan the table again.",
        )
    if table.plan.blinding is Blinding.OPEN:
        return dict(zip(table.codes, cups, strict=True))
    rng.shuffle(cups)
    if table.plan.blinding is Blinding.SHUFFLE or len(set(cups)) == len(cups):
        return dict(zip(table.codes, cups, strict=True))
    meetings = _meetings(table)
    drawn = [tuple(rng.sample(cups, len(cups))) for _ in range(_DRAWS)]
    best = min(drawn, key=lambda some: _repeats(dict(zip(table.codes, some, strict=True)), meetings))
    return dict(zip(table.codes, best, strict=True))


def _meetings(table: Table) -> list[tuple[str, str]]:
    """Every two places that a seat meets in a row, without a break between them."""
    flight_of = {place: number for number, flight in enumerate(table.flights) for place in flight}
    steps = (step for seat in table.seats for step in pairwise(seat.order))
    return [(one, next_one) for one, next_one in steps if flight_of.get(one) == flight_of.get(next_one)]


def _repeats(coffee_of: Mapping[str, str], meetings: Sequence[tuple[str, str]]) -> int:
    return sum(coffee_of[one] == coffee_of[next_one] for one, next_one in meetings)


def identities(table: Table, key: Key, placings: Mapping[str, str] | None) -> dict[str, str]:
    """Which coffee (by id) stood at which place, once the key is open.

    Parameters
    ----------
    placings : place -> code, or None
        What the labels under the bowls said; only after a shuffle.

    Raises
    ------
    Refused
        If the placings do not name every place and every code exactly once, or none are asked for.
    """
    coffee_of = key.coffee_of()
    if table.plan.blinding is Blinding.SHUFFLE:
        return {place: coffee_of[code] for place, code in _checked(placings or {}, table).items()}
    if placings:
        raise Refused(
            f"The bowls of the table '{table.plan.name}' were not shuffled.",
            todo="Open the key without naming what stood where: the codes already say it.",
        )
    return {code: coffee_of[code] for code in table.codes}


def _checked(placings: Mapping[str, str], table: Table) -> dict[str, str]:
    """The placings in the order of the places, if they pair places and codes one to one."""
    for place in placings:
        if place not in table.places:
            raise Refused(
                f"There is no position '{place[:40]}'.", todo=f"Positions run from 1 to {len(table.places)}."
            )
    seen: dict[str, str] = {}
    for place in table.places:
        code = placings.get(place, "")
        if not code:
            raise Refused(
                f"Position {place} has no code yet.", todo="Turn that bowl over and enter the code under it."
            )
        if code not in table.codes:
            raise Refused(
                f"There is no code '{code[:40]}' at this table, but position {place} has it.",
                todo="Look again under that bowl; beware of reading it upside down.",
            )
        if code in seen:
            raise Refused(
                f"Positions {seen[code]} and {place} have the same code {code}.",
                todo="Look again under both bowls.",
            )
        seen[code] = place
    return {place: placings[place] for place in table.places}
