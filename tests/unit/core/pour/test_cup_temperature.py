"""The temperature of a cup at a moment."""

from dataclasses import replace

import pytest
from tests.fakes.values import a_table

from cupwright.core.pour.clock import Clock
from cupwright.core.pour.cooling_report import cooling_of_plan, cooling_of_table
from cupwright.core.pour.cup_temperature import CupTemperatures, cup_temperature

START = 1_790_000_000_000
MINUTE = 60_000
TABLE = replace(a_table(), clock=Clock(START))


def test_a_dry_cup_a_forgotten_one_and_a_table_without_a_clock_have_no_temperature():
    assert cup_temperature(a_table(), "412", START) is None
    assert cup_temperature(TABLE, "412", START - 5_000) is None
    assert cup_temperature(TABLE, "735", START) is None  # poured after the first
    assert cup_temperature(TABLE, "412", START + 7 * 60 * MINUTE) is None
    assert cup_temperature(TABLE, "999", START + MINUTE) is None


def test_a_cup_poured_later_is_warmer_at_the_same_moment():
    first, second = (cup_temperature(TABLE, place, START + 9 * MINUTE) for place in ("412", "735"))

    assert first is not None
    assert second is not None
    assert first.celsius < second.celsius
    assert first.low < first.celsius < first.high


def test_a_marked_pour_moves_the_temperature_of_its_cup():
    late = replace(TABLE, clock=TABLE.clock.poured(0, START + 2 * MINUTE))

    before, after = (cup_temperature(one, "412", START + 9 * MINUTE) for one in (TABLE, late))

    assert before is not None
    assert after is not None
    assert after.celsius > before.celsius + 1


def test_a_place_of_several_bowls_is_told_over_all_of_them():
    table = replace(TABLE, plan=replace(TABLE.plan, bowls_per_sample=3))
    cups = CupTemperatures(table)

    whole = cups.at([("412", START + 9 * MINUTE)])[0]
    alone = [cups.cooling.at((START + 9 * MINUTE - cups.poured[bowl]) / 1000) for bowl in range(3)]

    assert whole is not None
    assert whole.celsius == pytest.approx(sum(one.celsius for one in alone) / 3, abs=1e-6)
    assert whole.low == pytest.approx(min(one.low for one in alone), abs=1e-6)
    assert whole.high == pytest.approx(max(one.high for one in alone), abs=1e-6)


def test_many_moments_at_once_are_what_each_is_alone():
    moments = [("412", START + k * MINUTE) for k in (-1, 1, 9, 30)] + [("735", START + 9 * MINUTE)]

    together = CupTemperatures(TABLE).at(moments)

    for moment, found in zip(moments, together, strict=True):
        alone = cup_temperature(TABLE, *moment)
        assert (found is None) == (alone is None)
        if found and alone:
            assert found.celsius == pytest.approx(alone.celsius, abs=1e-6)


def test_readings_of_one_bowl_tell_of_all():
    read = replace(TABLE, clock=TABLE.clock.read(1, START + 10 * MINUTE, 64.0))

    before, after = (cup_temperature(one, "412", START + 10 * MINUTE) for one in (TABLE, read))

    assert before is not None
    assert after is not None
    assert after.celsius < before.celsius - 1
    assert after.high - after.low < before.high - before.low


def test_the_report_of_a_table_holds_curve_rounds_and_readings():
    read = replace(TABLE, clock=TABLE.clock.read(1, START + 10 * MINUTE, 64.0))

    report = cooling_of_table(read)

    assert len(report.minutes) == len(report.celsius) == len(report.low) == len(report.high) == 91
    assert [(one.place, one.number, one.celsius) for one in report.readings] == [("735", 1, 64.0)]
    assert report.readings[0].minutes == 10 - (CupTemperatures(read).poured[1] - START) / MINUTE
    assert report.doubt == ""
    assert "very hot" in report.caution


def test_a_doubtful_reading_is_named():
    wrong = replace(TABLE, clock=TABLE.clock.read(1, START + 10 * MINUTE, 30.0))
    two = replace(wrong, clock=wrong.clock.read(0, START + 10 * MINUTE, 66.0))

    assert "does not fit" in cooling_of_table(wrong).doubt
    assert "do not go together" in cooling_of_table(two).doubt


def test_a_plan_alone_has_a_report_too_and_a_later_start_is_minded():
    later = cooling_of_plan(replace(TABLE.plan, taste_from_c=55.0), TABLE.protocol)

    assert later.readings == ()
    assert later.caution == ""
