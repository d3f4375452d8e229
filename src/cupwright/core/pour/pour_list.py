"""The pour list: for the pourer's eyes alone, which coffee goes into which bowls."""

from collections.abc import Mapping
from dataclasses import dataclass

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Blinding, Table
from cupwright.core.pour.flights import poured_flights
from cupwright.core.reveal.seal import Key


@dataclass(frozen=True, slots=True)
class PourLine:
    """Weigh this coffee into the bowls that carry this code. `bowls` is how many carry it.

    `flight` counts from 1; where codes are shuffled nobody knows their flights, and it is 1 for all.
    """

    code: str
    coffee: Coffee
    bowls: int
    flight: int = 1


def pour_list(table: Table, key: Key, coffees: Mapping[str, Coffee]) -> tuple[PourLine, ...]:
    """One line a code, flight by flight, in each grouped by coffee in the order of their names.

    So each coffee is ground once for a flight, and nothing for the next before its turn.
    """
    bowls = 1 if table.plan.blinding is Blinding.SHUFFLE else table.plan.bowls_per_sample
    flight = {code: number for number, codes in enumerate(poured_flights(table), start=1) for code in codes}
    lines = (PourLine(code, coffees[coffee_id], bowls, flight.get(code, 1)) for code, coffee_id in key.pairs)
    return tuple(sorted(lines, key=_turn))


def _turn(line: PourLine) -> tuple[int, str, str, str]:
    return (line.flight, line.coffee.name.casefold(), line.coffee.id, line.code)
