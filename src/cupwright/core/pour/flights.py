"""Flights as people meet them: who tastes what before the next break, and who would have one sample alone."""

from collections.abc import Sequence
from dataclasses import dataclass

from cupwright.core.plan.table import Blinding, Table


@dataclass(frozen=True, slots=True)
class FlightOfSeat:
    """Flight `number` (from 1) of a table, and this taster's order in it."""

    number: int
    order: tuple[str, ...]


def flights_of_order(table: Table, order: Sequence[str]) -> tuple[FlightOfSeat, ...]:
    """An order parted by the table's flights; flights of which it has no place are left out."""
    parted = (
        FlightOfSeat(number, tuple(place for place in order if place in flight))
        for number, flight in enumerate(table.flights, start=1)
    )
    return tuple(one for one in parted if one.order)


def poured_flights(table: Table) -> tuple[tuple[str, ...], ...]:
    """The places of each flight in pouring order; a table that is not blind is poured as one."""
    return () if table.plan.blinding is Blinding.OPEN else table.flights


def lone_warning(table: Table) -> tuple[str, ...]:
    """One sentence if some flight leaves anybody with a single sample; empty if none does.

    A table of one sample has nothing to compare anyway and gets none.
    """
    flights = poured_flights(table)
    if len(flights) < 2:
        return ()
    alone = "one sample alone, which cannot be compared with any other"
    for number, flight in enumerate(flights, start=1):
        if len(flight) == 1:
            return (f"Flight {number} is {alone}; change how many samples a flight has.",)
    seats = sum(
        any(len(one.order) == 1 for one in flights_of_order(table, seat.order)) for seat in table.seats
    )
    who = "One taster has" if seats == 1 else f"{seats} tasters have"
    todo = "change how many samples a flight has or each taster gets"
    return (f"{who} a flight of {alone}; {todo}.",) if seats else ()
