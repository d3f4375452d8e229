"""The pour list: for the pourer's eyes alone, which coffee goes into which bowls."""

from collections.abc import Mapping
from dataclasses import dataclass

from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.table import Blinding, Table
from cupwright.core.reveal.seal import Key


@dataclass(frozen=True, slots=True)
class PourLine:
    """Weigh this coffee into the bowls that carry this code. `bowls` is how many carry it."""

    code: str
    coffee: Coffee
    bowls: int


def pour_list(table: Table, key: Key, coffees: Mapping[str, Coffee]) -> tuple[PourLine, ...]:
    """One line a code, grouped by coffee in the order of their names, so that each is ground once."""
    bowls = 1 if table.plan.blinding is Blinding.SHUFFLE else table.plan.bowls_per_sample
    lines = (PourLine(code, coffees[coffee_id], bowls) for code, coffee_id in key.pairs)
    return tuple(sorted(lines, key=lambda line: (line.coffee.name.casefold(), line.coffee.id, line.code)))
