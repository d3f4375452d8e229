"""One more: what one bowl of each sample, or one taster, more would change at a table, with sizes.

Error: the share by which a mean gets steadier holds for what differs independently from bowl to bowl, or
from taster to taster; what is common to them stays as it was.
Source: the error of a mean of n falls with the square root of n, a textbook result.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from cupwright.core.plan.balance import Balance, table_balance
from cupwright.core.plan.deviation import amount
from cupwright.core.plan.limits import sips
from cupwright.core.plan.table import Plan, Table
from cupwright.core.pour.caffeine import brew_strength, caffeine_mg
from cupwright.core.pour.recipe import Recipe, recipe
from cupwright.core.pour.table_sheet import people_for
from cupwright.errors import Refused

MOST_NAMED = 40  # a larger number of tasters is no advice

Lay = Callable[[Plan], Table]


@dataclass(frozen=True, slots=True)
class OneMore:
    """What one more of `what` ("bowl" or "taster") would change, as whole sentences."""

    what: str
    sentences: tuple[str, ...]


def one_more(table: Table, lay: Lay) -> tuple[OneMore, ...]:
    """What one bowl of each sample and one taster more would change.

    Parameters
    ----------
    lay : callable
        Lays a table from a plan and raises Refused where it cannot; the reason is then what is told.
    """
    plan = table.plan
    bowl = replace(plan, bowls_per_sample=plan.bowls_per_sample + 1)
    taster = replace(plan, tasters=(*plan.tasters, _new_name(plan.tasters)))
    return (
        OneMore("bowl", _told(table, bowl, lay, _of_bowl)),
        OneMore("taster", _told(table, taster, lay, _of_taster)),
    )


def _told(
    table: Table, plan: Plan, lay: Lay, say: Callable[[Table, Table], tuple[str, ...]]
) -> tuple[str, ...]:
    try:
        return say(table, lay(plan))
    except Refused as refused:
        return (str(refused),)


def _new_name(names: tuple[str, ...]) -> str:
    return f"Taster {max(len(names) + 1, *(len(name) for name in names)) if names else 1}+"


def _of_bowl(before: Table, after: Table) -> tuple[str, ...]:
    old, new = _recipe(before), _recipe(after)
    coffee, water = (
        new.total_coffee_g - old.total_coffee_g,
        (new.water_to_heat_ml - old.water_to_heat_ml) / 1000,
    )
    amounts = (
        f"{new.bowls - old.bowls} bowls more to pour: {amount(coffee, 0)} g of coffee and {amount(water)} L "
        f"of water more, about {amount(_caffeine(after) - _caffeine(before))} mg of caffeine more a taster."
    )
    steadier = _steadier("bowl to bowl", before.plan.bowls_per_sample)
    return (steadier, amounts, _people(before, after))


def _of_taster(before: Table, after: Table) -> tuple[str, ...]:
    steadier = (_steadier("taster to taster", len(before.seats)),) if before.seats else ()
    return (*steadier, *_evenness(table_balance(before), table_balance(after)), *_even_with(after))


def _steadier(differs: str, number: int) -> str:
    percent = amount(100 * (1 - math.sqrt(number / (number + 1))), 0)
    return f"What differs from {differs} weighs {percent} % less in a sample's mean."


def _recipe(table: Table) -> Recipe:
    return recipe(table.plan, len(table.plan.samples))


def _caffeine(table: Table) -> float:
    plan = table.plan
    taken = sips(plan, table.sheet, table.protocol)
    strength = brew_strength(plan.grams_per_litre).usual
    return caffeine_mg(taken.bowls, taken.rounds, plan.swallowed, spoon_ml=taken.spoon_ml, strength=strength)


def _people(before: Table, after: Table) -> str:
    old, new = people_for(before), people_for(after)
    if new == old:
        who = "One person" if new == 1 else f"{new} people"
        return f"{who} can still pour, break and skim them in time."
    return f"It takes {new} people to pour, break and skim them in time instead of {old}."


def _evenness(before: Balance, after: Balance) -> tuple[str, ...]:
    """How often what stands where then, without how near that is to the bound."""
    if after.sentences[:-1] == before.sentences[:-1]:
        return ("The serving orders stay as even as they are.",)
    return tuple(f"Then {said[0].lower()}{said[1:]}" for said in after.sentences[:-1])


def _even_with(table: Table) -> tuple[str, ...]:
    """The next number of tasters at which every place stands and follows equally often."""
    if table.plan.samples_each:
        return ()
    sizes = {len(flight) for flight in table.flights if len(flight) > 1}
    # One square of orders has as many tasters as places; an odd number of places takes two.
    square = math.lcm(*(size if size % 2 == 0 else 2 * size for size in sizes)) if sizes else 1
    wanted = -(-len(table.seats) // square) * square
    if wanted == len(table.seats) or wanted > MOST_NAMED:
        return ()
    return (f"With {wanted} tasters every sample can meet every place and every neighbour equally often.",)
