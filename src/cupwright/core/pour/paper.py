"""Paper: whose sheets are printed at once."""

from dataclasses import replace

from cupwright.core.plan.names import folded
from cupwright.core.plan.table import Table
from cupwright.errors import NotFound, TooLarge

# Setting one takes about 20 ms and 2 MB (measured, idle); a 60-place table of 200 took minutes and 7 GB.
MOST_FORMS = 400


def to_print(table: Table, seat: str = "") -> Table:
    """The table with all its seats, or with the one of that name or id.

    Raises
    ------
    NotFound
        If there is no such seat.
    TooLarge
        If all seats together have more than `MOST_FORMS` places to be filled in.
    """
    if seat:
        found = tuple(one for one in table.seats if seat == one.id or folded(seat) == folded(one.name))
        if not found:
            raise NotFound(f"Nobody called '{seat[:40]}' has a seat at this table.", todo="Check the name.")
        return replace(table, seats=found[:1])
    forms = sum(len(one.order) for one in table.seats)
    if forms > MOST_FORMS:
        raise TooLarge(
            f"{len(table.seats)} tasters at {len(table.places)} places have {forms} forms to fill in; "
            f"{MOST_FORMS} are printed at once.",
            todo="Print the sheet of one taster at a time.",
        )
    return table
