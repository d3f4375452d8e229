"""The clock beyond its start: a schedule for any hands, acts that are marked, a start that is taken back."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cupwright.core.flow import Step, move, require
from cupwright.core.plan.protocol import Protocol
from cupwright.core.plan.table import Table
from cupwright.core.pour.clock import Clock
from cupwright.core.pour.hands import Hands
from cupwright.core.pour.laid import Schedule
from cupwright.core.pour.run_sheet import ASIDE
from cupwright.core.pour.schedule import largest, schedule
from cupwright.core.pour.timing import CueKind
from cupwright.errors import NotFound, Refused, TooLarge, WrongStep
from cupwright.steps.ports import Tools
from cupwright.steps.pour import now_ms, require_mark
from cupwright.steps.protocols import find_protocol

MOST_PEOPLE = 20
MOST_SCHEDULED = 200


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A schedule, and the most bowls of one flight that the same hands can keep."""

    schedule: Schedule
    largest: int


def laid_out(tools: Tools, hands: Hands, flights: Sequence[int], protocol: str) -> LaidOut:
    """A schedule for hands and bowls that belong to no table. Raises Refused if they cannot be kept."""
    if sum(flights) > MOST_SCHEDULED or hands.people > MOST_PEOPLE:
        raise TooLarge(f"At most {MOST_SCHEDULED} bowls and {MOST_PEOPLE} people are scheduled.")
    return laid_for_protocol(find_protocol(tools, protocol).protocol, hands, flights)


def laid_for_protocol(protocol: Protocol, hands: Hands, flights: Sequence[int]) -> LaidOut:
    """The same by a protocol's times."""
    timing = protocol.timing
    return LaidOut(schedule(sum(flights), hands, timing, flights), largest(hands, timing))


def mark_act(tools: Tools, table_id: str, kind: str, bowl: int, at: int | None = None) -> Table:
    """A bowl (index in pouring order from 0) was poured, broken, skimmed or set aside now, or at `at` ms."""
    with tools.store.work() as work:
        before = work.tables.get(table_id)
        require(before.step, Step.TASTE, to_do="mark what was done")
        _require_kind(before, kind)
        moment = now_ms(tools) if at is None else at
        require_mark(before, bowl, moment, now_ms(tools))
        clock = before.clock
        clock = clock.poured(bowl, moment) if kind == CueKind.POUR else clock.marked(kind, bowl, moment)
        table = replace(before, clock=clock)
        work.tables.save(table)
    tools.announce(table_id, "clock")
    return table


def take_back_mark(tools: Tools, table_id: str, kind: str, bowl: int) -> Table:
    """That was marked by mistake. Raises NotFound if it was not marked."""
    with tools.store.work() as work:
        before = work.tables.get(table_id)
        require(before.step, Step.TASTE, to_do="take back a mark")
        table = replace(before, clock=before.clock.unmarked(kind, bowl))
        if table == before:
            raise NotFound("There is no such mark.", todo="Reload the page.")
        work.tables.save(table)
    tools.announce(table_id, "clock")
    return table


def take_back_start(tools: Tools, table_id: str) -> Table:
    """The clock was started by mistake. Raises WrongStep once anything else is marked."""
    with tools.store.work() as work:
        before = work.tables.get(table_id)
        require(before.step, Step.TASTE, to_do="take back the start of the clock")
        if before.clock != Clock(before.clock.started_at):
            raise WrongStep("The table is being poured.", todo="Take back its marks first, or let it run.")
        table = replace(before, step=move(before.step, Step.POUR), clock=Clock())
        work.tables.save(table)
        work.events.append(table_id, "clock taken back", tools.now(), {"started_at": before.clock.started_at})
    tools.announce(table_id, "clock")
    return table


def _require_kind(table: Table, kind: str) -> None:
    known = [*(str(act) for act in table.protocol.acts if act is not CueKind.TASTE), ASIDE]
    if kind not in known:
        raise Refused(f"There is no act '{kind}' at this table.", todo=f"Choose one of {', '.join(known)}.")
