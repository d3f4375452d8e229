"""Plan: draft a table, change it, see what it needs, seal it."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime

from cupwright.core.flow import Step, move, require
from cupwright.core.plan.coffee import Coffee
from cupwright.core.plan.names import folded
from cupwright.core.plan.planning import checked_plan, laid
from cupwright.core.plan.shelf import checked_coffee
from cupwright.core.plan.table import Plan, Table
from cupwright.core.pour.brief import Brief
from cupwright.core.pour.brief import brief as brief_of
from cupwright.core.pour.outlook import Outlook, outlook
from cupwright.core.reveal.assignment import assign
from cupwright.core.reveal.seal import Key, commitment, seal
from cupwright.core.taste.sheet import Sheet
from cupwright.errors import NotFound, Refused
from cupwright.steps.ports import Tools, Work
from cupwright.steps.protocols import protocol_of
from cupwright.steps.sheets import fitting_sheet, sheet_of

NONCE_BITS = 256


def plan_table(tools: Tools, plan: Plan) -> Table:
    """Draft a table: draw its codes, seats and serving orders. Raises Refused, NotFound, Clash."""
    with tools.store.work() as work:
        table = _drafted(tools, work, plan)
    tools.announce(table.id, "plan")
    return table


def plan_with_coffees(
    tools: Tools, plan: Plan, coffees: Sequence[Coffee], twice: Sequence[str] = ()
) -> Table:
    """The same from coffees by name: one that is on the shelf is taken from there, any other is put there.

    `twice` are the names of those that also stand under a second code.
    """
    with tools.store.work() as work:
        shelf = {folded(coffee.name): coffee.id for coffee in work.coffees.all()}
        new = [replace(checked_coffee(c), id=tools.new_id()) for c in coffees if folded(c.name) not in shelf]
        work.coffees.add(new)
        shelf |= {folded(coffee.name): coffee.id for coffee in new}
        on_table = tuple(shelf[folded(coffee.name)] for coffee in coffees)
        duplicates = tuple(shelf[folded(name)] for name in twice)
        table = _drafted(tools, work, replace(plan, coffees=on_table, duplicates=duplicates))
    tools.announce(table.id, "plan")
    return table


def replan_table(tools: Tools, table_id: str, plan: Plan) -> Table:
    """Draft it anew; only while it is a draft."""
    with tools.store.work() as work:
        before = work.tables.get(table_id)
        require(before.step, Step.PLAN, to_do="change the plan")
        anew = _laid(tools, work, plan)
        table = replace(anew, id=before.id, created=before.created, join_code=before.join_code)
        work.tables.save(table)
        work.events.append(table.id, "planned anew", tools.now(), {"name": table.plan.name})
    tools.announce(table.id, "plan")
    return table


def list_tables(tools: Tools) -> tuple[Table, ...]:
    """Every table, the newest first."""
    with tools.store.reading() as work:
        return work.tables.all()


def get_table(tools: Tools, table_id: str) -> Table:
    """One table. Raises NotFound."""
    with tools.store.reading() as work:
        return work.tables.get(table_id)


def find_table(tools: Tools, name_or_id: str) -> Table:
    """The table of that name or, if none has it, of that id. Raises NotFound."""
    with tools.store.reading() as work:
        try:
            return work.tables.by_name(name_or_id) or work.tables.get(name_or_id)
        except NotFound:
            raise NotFound(
                f"There is no table '{name_or_id}'.", todo="'cupwright tables' lists those that are there."
            ) from None


def brief(tools: Tools, table_id: str) -> Brief:
    """What a table needs and the order of work."""
    with tools.store.reading() as work:
        table = work.tables.get(table_id)
        return brief_of(table, coffees_of(work, table), tasted_at(tools, table))


def preview_brief(tools: Tools, plan: Plan) -> Brief:
    """The same for a plan that is not kept yet, at once: whether its people can keep it, the outlook says."""
    with tools.store.reading() as work:
        table = _laid(tools, work, plan)
        return brief_of(table, coffees_of(work, table), tasted_at(tools, table), hands=False)


def preview_outlook(tools: Tools, plan: Plan) -> Outlook:
    """How a plan's table would run, and what one bowl or taster more would change; nothing is kept."""
    with tools.store.reading() as work:
        return outlook(_laid(tools, work, plan), lambda other: _laid(tools, work, other))


def tasted_at(tools: Tools, table: Table) -> datetime:
    """When a table was tasted, or now if it was not yet; in the time of this machine, as roast dates are."""
    started = table.clock.started_at
    return (tools.now() if started is None else datetime.fromtimestamp(started / 1000, UTC)).astimezone()


def seal_table(tools: Tools, table_id: str) -> Table:
    """Lay the coffees under the codes at random, seal the key, and open the table for tasters."""
    with tools.store.work() as work:
        draft = work.tables.get(table_id)
        step = move(draft.step, Step.POUR)
        table, key = sealed(tools, replace(draft, step=step))
        work.keys.put(table_id, key)
        work.tables.save(table)
        work.events.append(table_id, "sealed", tools.now(), {"commitment": table.commitment})
    tools.announce(table_id, "sealed")
    return table


def sealed(tools: Tools, table: Table) -> tuple[Table, Key]:
    """The table with its commitment, and the key drawn for it: the coffees under the codes by chance."""
    pairs = assign(table, table.plan.samples, rng=tools.rng)
    key = seal(pairs, f"{tools.rng.getrandbits(NONCE_BITS):064x}")
    return replace(table, commitment=commitment(key)), key


def delete_table(tools: Tools, table_id: str, *, confirm_name: str = "") -> None:
    """Put a table out of sight; one that is no draft any more only if its name is repeated."""
    with tools.store.work() as work:
        table = work.tables.get(table_id)
        if table.step is not Step.PLAN and confirm_name.strip() != table.plan.name:
            raise Refused(
                f"The table '{table.plan.name}' is sealed, so it is only removed if its name is repeated.",
                todo="Repeat the table's name exactly.",
            )
        work.events.append(table_id, "removed", tools.now(), {"name": table.plan.name})
        work.tables.remove(table_id, tools.now())
    tools.announce(table_id, "removed")


def coffees_of(work: Work, table: Table) -> dict[str, Coffee]:
    """Coffee id -> coffee, for the coffees of a table's plan."""
    return {coffee_id: work.coffees.get(coffee_id) for coffee_id in table.plan.coffees}


def table_of_join_code(work: Work, join_code: str) -> Table:
    """The table a join code leads to, however it was typed. Raises NotFound."""
    table = work.tables.by_join_code("".join(join_code.split()).upper())
    if table is None:
        raise NotFound("No table has that join code.", todo="Check the six characters on the desk's screen.")
    return table


def _drafted(tools: Tools, work: Work, plan: Plan) -> Table:
    table = _laid(tools, work, plan)
    work.tables.add(table)
    work.events.append(table.id, "planned", tools.now(), {"name": table.plan.name})
    return table


def _sheet(work: Work, plan: Plan) -> Sheet:
    return fitting_sheet(sheet_of(work, plan.sheet), len(plan.samples))


def _laid(tools: Tools, work: Work, plan: Plan) -> Table:
    checked = checked_plan(plan)
    for coffee_id in checked.coffees:
        work.coffees.get(coffee_id)
    protocol, sheet = protocol_of(work, checked.protocol), _sheet(work, checked)
    table = laid(
        checked, sheet, table_id=tools.new_id(), created=tools.now(), rng=tools.rng, ids=tools.new_id
    )
    return replace(table, protocol=protocol)
