"""The outlook of a plan: how its table would run, and what one more bowl or taster would change."""

from dataclasses import dataclass

from cupwright.core.plan.table import Table
from cupwright.core.pour.laid import Schedule
from cupwright.core.pour.one_more import Lay, OneMore, one_more
from cupwright.core.pour.table_sheet import hands_warning, schedule_of
from cupwright.errors import Refused


@dataclass(frozen=True, slots=True)
class Outlook:
    """`schedule` has as many people as it takes, or is None where nobody can keep it.

    `warnings` say in whole sentences what the plan's own people cannot keep.
    """

    schedule: Schedule | None
    warnings: tuple[str, ...]
    one_more: tuple[OneMore, ...]


def outlook(table: Table, lay: Lay) -> Outlook:
    """The outlook of a table; `lay` lays another plan, as for `one_more`."""
    return Outlook(_schedule(table), hands_warning(table), one_more(table, lay))


def _schedule(table: Table) -> Schedule | None:
    try:
        return schedule_of(table)
    except Refused:
        return None
