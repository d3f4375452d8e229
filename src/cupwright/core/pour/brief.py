"""The brief: what to have ready before a table begins, and what to watch for."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime

from cupwright.core.plan.balance import Balance, table_balance
from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.deviation import Deviation
from cupwright.core.plan.deviations import deviations
from cupwright.core.plan.limits import Caution, limits
from cupwright.core.plan.table import Table
from cupwright.core.pour.flights import lone_warning
from cupwright.core.pour.order_of_work import Task, order_of_work
from cupwright.core.pour.recipe import Recipe, recipe
from cupwright.core.pour.standard import RecipeStandard
from cupwright.core.pour.table_sheet import hands_warning


@dataclass(frozen=True, slots=True)
class CoffeeNeed:
    """How many grams of one coffee the table takes, and how many are on the shelf (None: not known)."""

    coffee_id: str
    name: str
    grams: float
    grams_left: float | None

    @property
    def runs_short(self) -> bool:
        """Whether the shelf is known to hold too little."""
        return self.grams_left is not None and self.grams_left < self.grams


@dataclass(frozen=True, slots=True)
class Brief:
    """Everything for the table, in the order it is needed. `warnings` are whole sentences.

    `balance` is how even the serving orders are, `deviations` where the plan leaves its protocol, `limits`
    what it asks of the people at the table.
    """

    recipe: Recipe
    tasks: tuple[Task, ...]
    coffees: tuple[CoffeeNeed, ...]
    warnings: tuple[str, ...]
    balance: Balance
    deviations: tuple[Deviation, ...]
    limits: tuple[Caution, ...]


def brief(
    table: Table, coffees: Mapping[str, Coffee], at: datetime | None = None, *, hands: bool = True
) -> Brief:
    """The brief of a table.

    Parameters
    ----------
    coffees : mapping
        Coffee id -> coffee, for every coffee of the plan.
    at : datetime, optional
        When the table is tasted, in its own time zone; without it no rest since the roast is known.
    hands : bool
        Whether to warn where the plan's people cannot keep its bowls; that alone can take a second.
    """
    plan = table.plan
    weighed = recipe(plan, len(plan.samples), standard=_standard(table))
    needs = tuple(
        _need(coffees[coffee_id], weighed, plan.samples.count(coffee_id)) for coffee_id in plan.coffees
    )
    short = tuple(_short(need) for need in needs if need.runs_short)
    warnings = (
        *weighed.warnings,
        *(hands_warning(table) if hands else ()),
        *lone_warning(table),
        *short,
    )
    return Brief(
        recipe=weighed,
        tasks=order_of_work(table, weighed),
        coffees=needs,
        warnings=warnings,
        balance=table_balance(table),
        deviations=deviations(
            plan,
            table.protocol,
            coffees=[coffees[coffee_id] for coffee_id in plan.coffees],
            sheet=table.sheet,
            at=at,
        ),
        limits=limits(plan, table.sheet, table.protocol),
    )


def _standard(table: Table) -> RecipeStandard:
    """The protocol's tolerance of the dose alone: all else that a plan leaves is told as a deviation."""
    return replace(table.protocol.standard, grams_per_litre=None, pour_c=None, bowl_ml=None)


def _need(coffee: Coffee, weighed: Recipe, samples: int) -> CoffeeNeed:
    return CoffeeNeed(coffee.id, coffee.name, weighed.coffee_per_sample_g * samples, coffee.grams_left)


def _short(need: CoffeeNeed) -> str:
    return f"{need.name}: {need.grams:g} g are needed and {need.grams_left:g} g are on the shelf."
