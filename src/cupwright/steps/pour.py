"""Pour: what goes into which bowl, the labels and sheets on paper, and the clock."""

from dataclasses import replace
from typing import TYPE_CHECKING

from cupwright.core.flow import Step, move, require
from cupwright.core.plan.table import Table
from cupwright.core.pour.clock import Clock
from cupwright.core.pour.labels import label_sheet
from cupwright.core.pour.paper import to_print
from cupwright.core.pour.pour_list import PourLine
from cupwright.core.pour.pour_list import pour_list as lines_of
from cupwright.core.pour.run_sheet import Cue
from cupwright.core.pour.table_sheet import cues_of
from cupwright.core.reveal.diary import POUR_LIST_SEEN
from cupwright.core.reveal.sight import Role, Thing, require_sight
from cupwright.errors import NotFound, Refused
from cupwright.steps.plan import coffees_of
from cupwright.steps.ports import Tools

if TYPE_CHECKING:
    from cupwright.core.pour.cooling_report import CoolingReport

EARLIEST_MARK_MS = 60_000
PAPER_SIZES = ("a4", "letter")


def pour_list(tools: Tools, table_id: str) -> tuple[PourLine, ...]:
    """Which coffee goes under which code: for the pourer alone, and each look is written down."""
    return _looked_at(tools, table_id)[1]


def pour_list_paper(tools: Tools, table_id: str, size: str = "a4") -> bytes:
    """The same as a PDF, with the doses; printing it is a look too."""
    _require_size(size)
    return tools.render.pour_list_pdf(*_looked_at(tools, table_id), size)


def labels(tools: Tools, table_id: str, size: str = "a4") -> bytes:
    """The labels of the bowls as a PDF; from the seal on."""
    _require_size(size)
    with tools.store.reading() as work:
        table = work.tables.get(table_id)
    require(table.step, Step.POUR, Step.TASTE, Step.REVEAL, to_do="print labels")
    return tools.render.labels_pdf(label_sheet(table), size)


def paper_sheet(tools: Tools, table_id: str, size: str = "a4", seat: str = "") -> bytes:
    """The table's sheet as a PDF to fill in by hand; for one seat, by its name or id, if one is named."""
    _require_size(size)
    with tools.store.reading() as work:
        table = work.tables.get(table_id)
    return tools.render.paper_sheet_pdf(to_print(table, seat), size)


def start_clock(tools: Tools, table_id: str) -> Table:
    """The first pour begins now."""
    with tools.store.work() as work:
        before = work.tables.get(table_id)
        require(before.step, Step.POUR, to_do="start the clock")
        table = replace(before, step=move(before.step, Step.TASTE), clock=Clock(started_at=now_ms(tools)))
        work.tables.save(table)
        work.events.append(table_id, "clock started", tools.now(), {"started_at": table.clock.started_at})
    tools.announce(table_id, "clock")
    return table


def mark_pour(tools: Tools, table_id: str, bowl: int, at: int | None = None) -> Table:
    """A bowl (index in pouring order from 0) was really poured now, or at `at` ms since 1970."""
    with tools.store.work() as work:
        before = work.tables.get(table_id)
        require(before.step, Step.TASTE, to_do="mark a pour")
        moment = now_ms(tools) if at is None else at
        require_mark(before, bowl, moment, now_ms(tools))
        table = replace(before, clock=before.clock.poured(bowl, moment))
        work.tables.save(table)
    tools.announce(table_id, "clock")
    return table


def note_reading(tools: Tools, table_id: str, bowl: int, celsius: float, at: int | None = None) -> Table:
    """A thermometer in a bowl (index in pouring order from 0) shows so many °C now, or did at `at` ms."""
    # It needs the numerical library, which takes longer to load than the rest of the server.
    from cupwright.core.pour.reading import checked_reading

    with tools.store.work() as work:
        before = work.tables.get(table_id)
        require(before.step, Step.TASTE, to_do="note a temperature")
        moment = now_ms(tools) if at is None else at
        checked_reading(before, bowl, moment, celsius, now_ms(tools))
        table = replace(before, clock=before.clock.read(bowl, moment, celsius))
        work.tables.save(table)
    tools.announce(table_id, "clock")
    return table


def drop_reading(tools: Tools, table_id: str, bowl: int, at: int) -> Table:
    """A reading was taken by mistake. Raises NotFound."""
    with tools.store.work() as work:
        before = work.tables.get(table_id)
        require(before.step, Step.TASTE, to_do="take back a temperature")
        table = replace(before, clock=before.clock.unread(bowl, at))
        if table == before:
            raise NotFound("There is no such reading.", todo="Reload the page.")
        work.tables.save(table)
    tools.announce(table_id, "clock")
    return table


def cooling(tools: Tools, table_id: str) -> "CoolingReport":
    """How the bowls of a table cool; from the plan alone while nothing was read."""
    from cupwright.core.pour.cooling_report import cooling_of_table

    with tools.store.reading() as work:
        return cooling_of_table(work.tables.get(table_id))


def run_sheet(tools: Tools, table_id: str) -> tuple[Cue, ...]:
    """What to do with each bowl at which moment; nothing before the clock is started."""
    with tools.store.reading() as work:
        table = work.tables.get(table_id)
    return cues_of(table)


def now_ms(tools: Tools) -> int:
    """The server's clock in ms since 1970."""
    return int(tools.now().timestamp() * 1000)


def _looked_at(tools: Tools, table_id: str) -> tuple[Table, tuple[PourLine, ...]]:
    with tools.store.work() as work:
        table = work.tables.get(table_id)
        require_sight(Role.POURER, table.step, Thing.IDENTITIES)
        work.events.append(table_id, POUR_LIST_SEEN, tools.now(), {"step": str(table.step)})
        lines = lines_of(table, work.keys.get(table_id), coffees_of(work, table))
    tools.announce(table_id, POUR_LIST_SEEN)
    return table, lines


def _require_size(size: str) -> None:
    if size not in PAPER_SIZES:
        raise Refused(f"There is no paper size '{size}'.", todo=f"Choose one of {', '.join(PAPER_SIZES)}.")


def require_mark(table: Table, bowl: int, at: int, now: int) -> None:
    """Refuse a mark for no bowl, or from before the start or the future; moments in ms since 1970."""
    if not 0 <= bowl < len(table.bowls):
        raise Refused(f"There is no bowl {bowl + 1}; this table has {len(table.bowls)}.")
    started = table.clock.started_at or now
    if not started - EARLIEST_MARK_MS <= at <= now + EARLIEST_MARK_MS:
        raise Refused(
            "An act cannot lie before the clock was started or in the future.",
            todo="Mark it with the server's time.",
        )
