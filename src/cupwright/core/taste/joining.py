"""Joining: which seat a taster who gives a name gets."""

import random
from collections.abc import Collection
from dataclasses import dataclass, replace

from cupwright.core.flow import Step, require
from cupwright.core.plan.serving_order import random_orders
from cupwright.core.plan.table import Seat, Table
from cupwright.errors import Clash, Refused

LONGEST_SEAT_NAME = 80
MOST_SEATS = 200


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
        Draws the serving order of a new seat.

    Raises
    ------
    WrongStep
        Unless the table is sealed and not yet revealed.
    Refused
        For an empty or overlong name, or a full table.
    Clash
        If somebody sits on the seat of that name.
    """
    require(table.step, Step.POUR, Step.TASTE, to_do="take a seat")
    wanted = _checked_name(name)
    seat = next((s for s in table.seats if s.name.casefold() == wanted.casefold()), None)
    if seat is None:
        return _new_seat(table, wanted, seat_id, rng)
    if seat.id in taken:
        raise Clash(
            f"Somebody sits at this table as '{seat.name}' already.",
            todo="Choose another name, or have the desk free that seat.",
        )
    return Seated(table, seat)


def _new_seat(table: Table, name: str, seat_id: str, rng: random.Random) -> Seated:
    if len(table.seats) >= MOST_SEATS:
        raise Refused(f"This table has {MOST_SEATS} seats and all are named.", todo="Open a second table.")
    seat = Seat(seat_id, name, random_orders(table.places, 1, rng=rng)[0])
    return Seated(replace(table, seats=(*table.seats, seat)), seat)


def _checked_name(name: str) -> str:
    tidy = " ".join(name.split())
    if not tidy:
        raise Refused("A taster needs a name.", todo="Type your name, or a word you will know yourself by.")
    if len(tidy) > LONGEST_SEAT_NAME:
        raise Refused(f"That name is {len(tidy)} characters long; {LONGEST_SEAT_NAME} fit.", todo="Shorten it.")
    return tidy
