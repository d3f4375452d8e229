"""The brief: what to have ready before a table begins, and what to watch for."""

from collections.abc import Mapping
from dataclasses import dataclass

from cupwright.core.plan.balance import Balance, table_balance
from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Blinding, Table
from cupwright.core.pour.order_of_work import Task, order_of_work
from cupwright.core.pour.recipe import Recipe, recipe
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

    `balance` is how even the serving orders are.
    """

    recipe: Recipe
    tasks: tuple[Task, ...]
    coffees: tuple[CoffeeNeed, ...]
    warnings: tuple[str, ...]
    balance: Balance


def brief(table: Table, coffees: Mapping[str, Coffee]) -> Brief:
    """The brief of a table.

    Parameters
    ----------
    coffees : mapping
        Coffee id -> coffee, for every coffee of the plan.
    """
    weighed = recipe(table.plan, len(table.plan.samples))
    needs = tuple(
        _need(coffees[coffee_id], weighed, table.plan.samples.count(coffee_id))
        for coffee_id in table.plan.coffees
    )
    short = tuple(_short(need) for need in needs if need.runs_short)
    warnings = (*weighed.warnings, *hands_warning(table), *short)
    return Brief(weighed, order_of_work(table, weighed), needs, warnings, table_balance(table))


def _bowls(table: Table) -> int:
    """How many bowls are poured; a table that is not blind has as many as its plan says."""
    if table.plan.blinding is Blinding.OPEN:
        return len(table.plan.samples) * table.plan.bowls_per_sample
    return len(table.bowls)


def _need(coffee: Coffee, weighed: Recipe, samples: int) -> CoffeeNeed:
    return CoffeeNeed(coffee.id, coffee.name, weighed.coffee_per_sample_g * samples, coffee.grams_left)


def _short(need: CoffeeNeed) -> str:
    return f"{need.name}: {need.grams:g} g are needed and {need.grams_left:g} g are on the shelf."
