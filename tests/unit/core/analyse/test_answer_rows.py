"""Answers as rows, each with the warmth of its cup."""

from dataclasses import replace

from tests.fakes.values import a_coffee, a_note, a_table
from tests.unit.core.analyse.tables import small_lexicon

from cupwright.core.analyse.answer_rows import answer_rows
from cupwright.core.analyse.answers import gather
from cupwright.core.pour.clock import Clock
from cupwright.core.pour.cup_temperature import cup_temperature
from cupwright.core.reveal.comparison import compare
from cupwright.core.taste.note import FROM_PAPER
from cupwright.core.taste.sheet import WHOLE_TABLE, Field, Kind, Moment, Over, Pass
from cupwright.core.taste.stamp import Stamp

START = 1_790_000_000_000
MINUTE = 60_000
TABLE = replace(a_table(), clock=Clock(START))
COFFEES = (a_coffee(1), a_coffee(2))
PLACES = {"412": "coffee-1", "735": "coffee-2"}


def test_a_row_tells_who_wrote_what_of_which_coffee_and_how_warm_it_was():
    late = a_note(1, written_at=START + 20 * MINUTE)
    dry = a_note(2, place="735", part="fragrance", written_at=START - 5 * MINUTE)

    first, second = answer_rows(gather(TABLE, [late, dry], PLACES, COFFEES, small_lexicon()))

    cup = cup_temperature(TABLE, "412", START + 20 * MINUTE)
    assert cup is not None
    assert (first.coffee, first.cup_c, first.cup_low_c) == ("Lot 2", None, None)
    assert (second.taster, second.place, second.coffee) == ("Ada", "412", "Lot 1")
    assert (second.value, second.cup_c) == (late.value, cup.celsius)
    assert (second.cup_low_c, second.cup_high_c) == (cup.low, cup.high)


def test_what_was_typed_in_from_paper_has_a_time_but_no_warmth():
    paper = a_note(1, written_at=START + 20 * MINUTE, stamp=Stamp(1, f"{FROM_PAPER}0a1b"))

    (row,) = answer_rows(gather(TABLE, [paper], PLACES, COFFEES, small_lexicon()))

    assert (row.written_at, row.value) == (START + 20 * MINUTE, paper.value)
    assert (row.cup_c, row.cup_low_c, row.cup_high_c) == (None, None, None)


def test_what_was_asked_once_of_the_whole_table_is_a_row_without_a_coffee():
    order = Field("order", Kind.RANK, "Order")
    once = Pass("order", "Order", "In which order?", Moment.COOL, (order,), over=Over.TABLE)
    table = replace(TABLE, sheet=replace(TABLE.sheet, passes=(*TABLE.sheet.passes, once)))
    ranks = {"412": 1.0, "735": 2.0}
    asked = {"place": WHOLE_TABLE, "part": "order", "field": "order"}
    notes = [
        a_note(1, value=ranks, written_at=START + 20 * MINUTE, **asked),
        a_note(2, written_at=START + 9 * MINUTE),
    ]

    first, second = answer_rows(gather(table, notes, PLACES, COFFEES, small_lexicon()))

    assert (first.place, first.coffee) == ("412", "Lot 1")
    assert (second.place, second.coffee, second.part, second.field) == (WHOLE_TABLE, "", "order", "order")
    assert (second.taster, second.value, second.cup_c) == ("Ada", ranks, None)


def test_a_table_without_a_clock_has_answers_without_warmth():
    (row,) = answer_rows(gather(a_table(), [a_note()], PLACES, COFFEES, small_lexicon()))

    assert row.cup_c is None


def test_the_comparison_carries_the_warmth_beside_the_text():
    note = a_note(1, written_at=START + 9 * MINUTE)
    coffees = {one.id: one for one in COFFEES}

    compared = compare(TABLE, [note], PLACES, coffees, small_lexicon())

    (written,) = compared.coffees[0].tasters[0].written
    assert written.cup_c == cup_temperature(TABLE, "412", START + 9 * MINUTE)


def test_the_comparison_gives_no_warmth_to_what_came_from_paper():
    note = a_note(1, written_at=START + 9 * MINUTE, stamp=Stamp(1, f"{FROM_PAPER}0a1b"))

    compared = compare(TABLE, [note], PLACES, {one.id: one for one in COFFEES}, small_lexicon())

    (written,) = compared.coffees[0].tasters[0].written
    assert written.cup_c is None
