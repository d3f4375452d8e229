"""Planning: refuse a plan that cannot be poured, and lay a draft table from one that can."""

import math
import random
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime

from cupwright.core.plan.blind_codes import draw_codes
from cupwright.core.plan.blocks import require_linked
from cupwright.core.plan.names import checked_name, folded
from cupwright.core.plan.serving_order import serving_orders
from cupwright.core.plan.table import Blinding, Plan, Seat, Table
from cupwright.core.taste.sheet import Sheet
from cupwright.errors import Refused

MOST_COFFEES = 40
MOST_BOWLS_PER_SAMPLE = 10
MOST_BOWLS = 60
MOST_TASTERS = 200

# No 0 O 1 I: they are misread from a screen across a table. 32 letters, so 6 of them are 30 bits.
JOIN_LETTERS = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
JOIN_LENGTH = 6

# field of the plan, what it is called, lowest, highest, unit (none for what its name counts)
_RANGES = (
    ("bowl_ml", "The water in a bowl", 50, 1000, "mL"),
    ("grams_per_litre", "The ratio", 20, 120, "g/L"),
    ("scale_step_g", "The step of the scale", 0.01, 1, "g"),
    ("kettle_c", "The kettle temperature", 70, 100, "°C"),
    ("purge_g", "The coffee to purge the grinder", 0, 100, "g"),
    ("flight", "The number of samples in a flight", 2, 40, ""),
    ("pourers", "The number of people who pour", 1, 6, ""),
    ("pour_s", "The time to pour a bowl", 2, 120, "s"),
    ("break_s", "The time to break a bowl", 2, 120, "s"),
    ("skim_s", "The time to skim a bowl", 2, 120, "s"),
    ("altitude_m", "The altitude", -430, 5500, "m"),
    ("room_c", "The temperature of the room", 5, 45, "°C"),
    ("taste_from_c", "The temperature of the first taste", 40, 75, "°C"),
    ("swallowed", "The share that is swallowed", 0, 1, "of each spoon"),
)


def checked_plan(plan: Plan) -> Plan:
    """The plan with tidied names, if a table can be laid from it.

    Raises
    ------
    Refused
        One sentence for the first thing that is wrong: names, coffees, tasters, bowls, then amounts.
    """
    tidy = replace(plan, name=checked_name(plan.name, of="The table"), tasters=_checked_tasters(plan.tasters))
    _check_coffees(plan.coffees)
    _check_duplicates(plan)
    _check_bowls(plan)
    _check_samples_each(plan)
    for bounds in _RANGES:
        _check_range(plan, bounds)
    return tidy


def _check_coffees(coffees: Sequence[str]) -> None:
    if not coffees:
        raise Refused("The plan has no coffee.", todo="Pick at least one coffee.", about="coffees")
    if len(coffees) > MOST_COFFEES:
        raise Refused(
            f"The plan has {len(coffees)} coffees; a table takes at most {MOST_COFFEES}.",
            todo="Split the coffees over several tables.",
            about="coffees",
        )
    seen: set[str] = set()
    for number, coffee in enumerate(coffees, start=1):
        if coffee in seen:
            raise Refused(
                f"Coffee {number} of the plan is on the table already.",
                todo="Take it out; for repeats raise the bowls per sample.",
            )
        seen.add(coffee)


def _check_duplicates(plan: Plan) -> None:
    if not set(plan.duplicates) <= set(plan.coffees):
        raise Refused(
            "A coffee that is to stand under a second code is not on the table.",
            todo="Put it on the table first, or take the second code away.",
            about="duplicates",
        )
    if len(set(plan.duplicates)) < len(plan.duplicates):
        raise Refused(
            "A coffee is to stand under a second code twice.",
            todo="Two codes for one coffee are the most; for more repeats raise the bowls per sample.",
            about="duplicates",
        )


def _checked_tasters(tasters: Sequence[str]) -> tuple[str, ...]:
    if len(tasters) > MOST_TASTERS:
        raise Refused(
            f"The plan has {len(tasters)} tasters; a table seats at most {MOST_TASTERS}.",
            todo="Split the tasters over several tables.",
            about="tasters",
        )
    names = tuple(checked_name(name, of=f"Taster {number}") for number, name in enumerate(tasters, start=1))
    seen: set[str] = set()
    for name in names:
        if folded(name) in seen:
            raise Refused(
                f"Two tasters are called {name}.", todo="Tell them apart, as by an initial.", about="tasters"
            )
        seen.add(folded(name))
    return names


def _check_bowls(plan: Plan) -> None:
    if plan.bowls_per_sample < 1:
        raise Refused(
            f"The plan has {plan.bowls_per_sample} bowls per sample.",
            todo="Plan at least 1 bowl per sample.",
            about="bowls_per_sample",
        )
    if plan.bowls_per_sample > MOST_BOWLS_PER_SAMPLE:
        raise Refused(
            f"The plan has {plan.bowls_per_sample} bowls per sample; {MOST_BOWLS_PER_SAMPLE} are the most.",
            todo="Plan fewer bowls per sample.",
            about="bowls_per_sample",
        )
    bowls = len(plan.samples) * plan.bowls_per_sample
    if bowls > MOST_BOWLS:
        raise Refused(
            f"The plan has {bowls} bowls; a table holds at most {MOST_BOWLS}.",
            todo="Plan fewer bowls per sample, or split the coffees over several tables.",
            about="bowls_per_sample",
        )


def _check_samples_each(plan: Plan) -> None:
    most, each = len(plan.samples), plan.samples_each
    if each and not 2 <= each <= most:
        raise Refused(
            f"Each taster is to get {each} of {most} samples.",
            todo=f"Give 2 to {most}, or 0 for all of them." if most > 1 else "Give 0 for all of them.",
            about="samples_each",
        )
    if not 0 < each < most:
        return
    if plan.blinding is Blinding.SHUFFLE and plan.bowls_per_sample > 1:
        raise Refused(
            "After a shuffle nobody knows which bowls are one sample, so every taster gets all of them.",
            todo="Plan one bowl per sample or put codes on the bowls.",
            about="samples_each",
        )
    if plan.tasters:
        require_linked(most, len(plan.tasters), each)


def _check_range(plan: Plan, bounds: tuple[str, str, float, float, str]) -> None:
    field, what, low, high, unit = bounds
    value = getattr(plan, field)
    allowed = f"{low:g} to {high:g} {unit}".rstrip()
    todo = f"Give {allowed}."
    if not math.isfinite(value):
        raise Refused(f"{what} is not a finite number.", todo=todo, about=field)
    if not low <= value <= high:
        given = f"{value:.10g} {unit}".rstrip()
        complaint = f"{what} is {given}; {allowed} can be planned."
        raise Refused(complaint, todo=todo, about=field)


def laid(
    plan: Plan,
    sheet: Sheet,
    *,
    table_id: str,
    created: datetime,
    rng: random.Random,
    ids: Callable[[], str],
) -> Table:
    """A draft table: codes, seats with their orders, and a join code.

    Parameters
    ----------
    plan : Plan
        Already checked by `checked_plan`.
    rng : random.Random
        Draws the join code always, and the codes and orders when `plan.seed` is 0. Any other seed
        fixes the codes and orders, so a plan can be laid again exactly. Which coffee stands under
        which code is drawn elsewhere and never follows from the seed.
    ids : callable
        Makes the id of a seat.
    """
    draw = random.Random(plan.seed) if plan.seed else rng
    draft = Table(table_id, plan, sheet, created, codes=_codes(plan, draw), join_code=join_code(rng))
    orders = serving_orders(draft.flights, len(plan.tasters), each=plan.samples_each, rng=draw)
    seats = tuple(Seat(ids(), name, order) for name, order in zip(plan.tasters, orders, strict=True))
    return replace(draft, seats=seats)


def _codes(plan: Plan, draw: random.Random) -> tuple[str, ...]:
    """One code a sample; one a bowl where bowls are shuffled; plain numbers where nothing is hidden."""
    match plan.blinding:
        case Blinding.CODES:
            return draw_codes(len(plan.samples), rng=draw)
        case Blinding.SHUFFLE:
            return draw_codes(len(plan.samples) * plan.bowls_per_sample, rng=draw)
        case Blinding.OPEN:
            return tuple(str(number) for number in range(1, len(plan.samples) + 1))


def join_code(rng: random.Random) -> str:
    """What tasters type to find the table: 6 characters of 32 that are not mistaken for each other."""
    return "".join(rng.choices(JOIN_LETTERS, k=JOIN_LENGTH))
