"""Joining: which seat a taster who gives a name gets."""

import random
from collections.abc import Collection
from dataclasses import dataclass, replace

from cupwright.core.flow import Step, require
from cupwright.core.plan.names import checked_name, folded
from cupwright.core.plan.planning import MOST_TASTERS
from cupwright.core.plan.serving_order import next_order
from cupwright.core.plan.table import Seat, Table
from cupwright.errors import Clash, Refused


@dataclass(frozen=True, slots=True)
class Seated:
    """A taster's seat and the table it stands at."""

    table: Table
    seat: Seat


def seated(table: Table, name: str, taken: Collection[str], *, seat_id: str, rng: random.Random) -> Seated:
    """The seat of that name, or a new one.

    Parameters
    ----------
    name : str
        As the taster gives it; letter case and outer blanks do not count.
    taken : collection of str
        Ids of the seats somebody sits on.
    seat_id : str
        Id of a new seat, if one is needed.
    rng : Random
        Draws the serving order of a new seat, as balanced as can be beside those already drawn.

    Raises
    ------
    WrongStep
        Unless the table is sealed and not yet revealed.
    Refused
        For a name that is empty, overlong or unprintable, or a full table.
    Clash
        If somebody sits on the seat of that name.
    """
    require(table.step, Step.POUR, Step.TASTE, to_do="take a seat")
    wanted = checked_name(name, of="The taster")
    seat = next((s for s in table.seats if folded(s.name) == folded(wanted)), None)
    if seat is None:
        return _new_seat(table, wanted, seat_id, rng)
    if seat.id in taken:
        raise Clash(
            f"Somebody sits at this table as '{seat.name}' already.",
            todo="Choose another name, or have the desk free that seat.",
        )
    return Seated(table, seat)


def _new_seat(table: Table, name: str, seat_id: str, rng: random.Random) -> Seated:
    if len(table.seats) >= MOST_TASTERS:
        raise Refused(f"This table has all the {MOST_TASTERS} seats it can.", todo="Open a second table.")
    drawn = [seat.order for seat in table.seats]
    order = next_order(table.flights, drawn, each=table.plan.samples_each, rng=rng)
    seat = Seat(seat_id, name, order)
    return Seated(replace(table, seats=(*table.seats, seat)), seat)
