"""Joining: a known name gets its seat, a new one a new seat, a taken one a refusal."""

import random
from dataclasses import replace

import pytest
from tests.fakes.values import a_table

from cupwright.core.flow import Step
from cupwright.core.plan.planning import MOST_TASTERS
from cupwright.core.plan.table import Seat, Table
from cupwright.core.taste.joining import Seated, seated
from cupwright.errors import Clash, Refused, WrongStep

TABLE = a_table(step=Step.POUR)


def sit(name: str, table: Table = TABLE, taken: frozenset[str] = frozenset()) -> Seated:
    return seated(table, name, taken, seat_id="new", rng=random.Random(1))


def test_a_planned_name_gets_its_seat_and_the_table_stays_as_it_is() -> None:
    assert sit(" ada") == Seated(TABLE, TABLE.seats[0])


def test_a_new_name_gets_a_seat_with_an_order_over_every_place() -> None:
    found = sit("  Cleo  of the  hill ")

    assert (found.seat.id, found.seat.name) == ("new", "Cleo of the hill")
    assert sorted(found.seat.order) == sorted(TABLE.places)
    assert found.table == replace(TABLE, seats=(*TABLE.seats, found.seat))


def test_a_name_somebody_sits_under_is_refused() -> None:
    with pytest.raises(Clash, match="'Ada'"):
        sit("ADA", taken=frozenset({"seat-1-1"}))


def test_a_full_table_takes_planned_names_only() -> None:
    full = replace(TABLE, seats=tuple(Seat(f"s{n}", f"Taster {n}", ()) for n in range(MOST_TASTERS)))

    assert sit("taster 7", full).seat.id == "s7"
    with pytest.raises(Refused, match=str(MOST_TASTERS)):
        sit("Cleo", full)


@pytest.mark.parametrize("name", ["", "  ", "x" * 300, "a\x07b"])
def test_a_name_that_is_none_is_refused(name: str) -> None:
    with pytest.raises(Refused):
        sit(name)


@pytest.mark.parametrize("step", [Step.PLAN, Step.REVEAL])
def test_nobody_sits_down_at_a_draft_or_a_closed_table(step: Step) -> None:
    with pytest.raises(WrongStep):
        sit("Ada", replace(TABLE, step=step))


def test_a_late_taster_of_a_table_of_some_samples_each_gets_as_many() -> None:
    codes = ("204", "357", "472", "735", "842")
    plan = replace(TABLE.plan, coffees=tuple("abcde"), samples_each=2, flight=3)
    seats = (Seat("s1", "Ada", ("204", "357")), Seat("s2", "Ben", ("357", "472")))
    table = replace(TABLE, plan=plan, codes=codes, seats=seats)

    # the two that nobody has yet
    assert sit("Cleo", table).seat.order in {("735", "842"), ("842", "735")}


def test_a_late_order_is_the_one_that_was_missing() -> None:
    """Ada has 735 first and Ben 412: a third may have either, a fourth the other."""
    third = sit("Cleo")
    fourth = sit("Dora", third.table)

    assert {third.seat.order, fourth.seat.order} == {("412", "735"), ("735", "412")}
