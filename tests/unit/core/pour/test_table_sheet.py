"""A table's own run sheet: its plan's hands, its protocol's times, its flights, its clock."""

from dataclasses import replace
from typing import Any

from tests.fakes.values import a_table

from cupwright.core.plan.protocol_file import builtin_protocol
from cupwright.core.plan.table import Blinding, Table
from cupwright.core.pour.clock import Clock
from cupwright.core.pour.hands import Hands
from cupwright.core.pour.table_sheet import (
    cues_of,
    flights_of,
    hands_of,
    hands_warning,
    lateness,
    schedule_of,
)
from cupwright.core.pour.timing import CueKind

CODES = tuple(str(code) for code in range(310, 320))


def a_wide_table(**plan: Any) -> Table:
    """Ten samples of as many coffees."""
    table = a_table()
    coffees = tuple(f"coffee-{number}" for number in range(10))
    return replace(table, plan=replace(table.plan, coffees=coffees, **plan), codes=CODES)


def test_bowls_of_a_flight_are_those_of_its_places():
    assert flights_of(a_wide_table(flight=4, bowls_per_sample=2)) == (6, 6, 8)
    assert flights_of(a_wide_table(flight=10)) == (10,)


def test_a_table_that_is_not_blind_is_one_flight_of_all_its_bowls():
    open_table = replace(a_wide_table(blinding=Blinding.OPEN, bowls_per_sample=1), codes=())

    assert flights_of(open_table) == (10,)


def test_hands_are_the_plans():
    plan = a_wide_table(pourers=3, pour_s=11.0, break_s=12.0, skim_s=13.0).plan

    assert hands_of(plan) == Hands(3, 11.0, 12.0, 13.0)


def test_the_protocols_times_decide_what_is_done():
    brews = replace(a_wide_table(), protocol=builtin_protocol("brew"), clock=Clock(0))

    assert {cue.kind for cue in cues_of(brews)} == {CueKind.POUR, CueKind.TASTE}


def test_too_few_hands_are_a_warning_and_the_sheet_goes_by_as_many_as_it_takes():
    table = a_wide_table(flight=10, bowls_per_sample=2)

    (warning,) = hands_warning(table)
    assert "One person can keep 12 bowls" in warning
    assert schedule_of(table).people == 2
    assert hands_warning(a_wide_table(flight=10, bowls_per_sample=2, pourers=2)) == ()


def test_what_cannot_be_kept_is_said_with_the_place_of_its_bowl():
    late = Clock(0, done=(("break", 0, 355_000),))
    single = replace(a_wide_table(flight=2, bowls_per_sample=1), clock=late)
    double = replace(a_wide_table(flight=2, bowls_per_sample=2), clock=late)

    assert lateness(single, cues_of(single)) == (
        "Bowl 310 was broken at 5:45, 45 s late: set it aside, or taste it knowing that.",
        "Bowl 311 will be broken at 5:40, 40 s late: let a second person break, or set it aside.",
    )
    assert lateness(double, cues_of(double))[1].startswith("310, bowl 2, will be broken at 5:40")


def test_a_clock_that_does_not_run_asks_for_nothing():
    assert cues_of(a_wide_table()) == ()
