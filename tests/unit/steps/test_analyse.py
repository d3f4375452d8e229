"""Analyse: one taster's records over the opened tables."""

from dataclasses import replace

from tests.fakes.tools import bench
from tests.unit.steps.laying import tasting, written

from cupwright.core.plan.table import Table
from cupwright.steps.analyse import performance_of
from cupwright.steps.plan import plan_table, seal_table
from cupwright.steps.ports import Tools
from cupwright.steps.pour import start_clock
from cupwright.steps.reveal import open_key
from cupwright.steps.taste import write_notes

LIKED = {"Ada": (40.0, 52.0, 63.0), "Ben": (50.0, 60.0, 75.0)}


def opened_table(tools: Tools, table: Table) -> Table:
    """Ada likes everything about ten points less than Ben does."""
    for seat in table.seats:
        notes = [
            written(table, seat, number, place=place, part="verdict", field="liking", value=value)
            for number, (place, value) in enumerate(zip(table.places, LIKED[seat.name], strict=True), start=1)
        ]
        write_notes(tools, table.id, seat.id, notes)
    return open_key(tools, table.id)


def test_a_taster_has_one_record_an_attribute_over_all_opened_tables() -> None:
    tools = bench().tools
    monday = opened_table(tools, tasting(tools))
    tuesday = seal_table(tools, plan_table(tools, replace(monday.plan, name="Tuesday")).id)
    opened_table(tools, start_clock(tools, tuesday.id))

    (liking,) = performance_of(tools, "ada")

    assert liking.tables == 2
    assert liking.coffees == 6
    assert liking.bias.found is not None
    assert round(liking.bias.found.estimate) == -10


def test_a_table_that_is_still_being_tasted_tells_nothing() -> None:
    tools = bench().tools
    table = tasting(tools)
    seat = table.seats[0]
    write_notes(tools, table.id, seat.id, [written(table, seat, part="verdict", field="liking", value=50.0)])

    assert performance_of(tools, seat.name) == ()


def test_nobody_is_taken_for_somebody_else() -> None:
    tools = bench().tools
    opened_table(tools, tasting(tools))

    assert performance_of(tools, "Adam") == ()
    assert performance_of(tools, "Ben")[0].taster == "Ben"
