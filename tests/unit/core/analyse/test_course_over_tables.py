"""Course over tables: a drift is found, a table's level is none, and silence where nothing links."""

import numpy as np
import pytest
from tests.unit.core.analyse.seasons import drawn_season, season_of

from cupwright.core.analyse.course_over_tables import coffee_course, taster_course
from cupwright.errors import NotFound, Refused, TooFewObservations


def test_a_coffee_that_loses_a_point_a_table_is_drifting():
    found = coffee_course(season_of(drawn_season(tables=6, tasters=6, linking=3, drift=-1.0)), "L1")

    assert found.is_drifting
    assert found.slope.low <= -1.0 <= found.slope.high
    assert [point.table for point in found.points] == ["t0", "t1", "t2", "t3", "t4", "t5"]


def test_tables_that_score_higher_and_higher_are_not_taken_for_a_drift():
    rows = drawn_season(tables=6, tasters=4, linking=3, seed=2)
    rising = [(*row[:3], row[3] + 3 * int(row[0][1:])) for row in rows]

    found, again = (coffee_course(season_of(some), "L1") for some in (rows, rising))

    assert again.slope.estimate == pytest.approx(found.slope.estimate)
    assert not again.is_drifting


def test_one_odd_batch_is_no_drift():
    rows = [
        (*row[:3], row[3] + 6 * (row[0] == "t2" and row[2] == "L1"))
        for row in drawn_season(tables=4, tasters=8, linking=3, noise=0.3)
    ]

    found = coffee_course(season_of(rows), "L1")

    assert max(found.points, key=lambda point: point.estimate).table == "t2"
    assert not found.is_drifting


def test_time_is_counted_as_it_is_given():
    scores = season_of(drawn_season(linking=3))
    tables, days = (coffee_course(scores, "L1", when=when) for when in (None, (0.0, 7.0, 14.0, 21.0)))

    assert days.slope.estimate == pytest.approx(tables.slope.estimate / 7)
    assert [point.when for point in days.points] == [0.0, 7.0, 14.0, 21.0]


def test_tables_given_out_of_order_come_in_the_order_of_time():
    found = coffee_course(season_of(drawn_season(linking=3)), "L1", when=(3.0, 1.0, 2.0, 0.0))

    assert [point.table for point in found.points] == ["t3", "t1", "t2", "t0"]


def test_with_two_tables_and_one_other_link_there_is_no_slope_but_a_sentence():
    found = coffee_course(season_of(drawn_season(tables=2)), "L1")

    assert found.slope is None
    assert not found.is_drifting
    assert "cannot be told" in found.why_not
    assert len(found.points) == 2


def test_a_taster_whose_level_rises_against_the_others_is_found():
    rows = [
        (*row[:3], row[3] + 0.8 * int(row[0][1:]) * (row[1] == "taster 1"))
        for row in drawn_season(tables=6, tasters=5, noise=0.5)
    ]
    level = np.random.default_rng(1).normal(size=6)
    still = [(*row[:3], row[3] + level[int(row[0][1:])]) for row in rows]

    found = taster_course(season_of(still), "taster 1")

    assert found.name == "taster 1"
    assert found.slope.estimate == pytest.approx(0.8, abs=0.6)


def test_what_cannot_be_followed_is_refused():
    rows = drawn_season(linking=1)

    with pytest.raises(Refused, match="Nothing but coffee L1"):
        coffee_course(season_of(rows), "L1")
    with pytest.raises(TooFewObservations, match="was at 1"):
        coffee_course(season_of(rows), "T0-0")
    with pytest.raises(NotFound):
        coffee_course(season_of(rows), "nowhere")
    with pytest.raises(Refused, match="as many times"):
        coffee_course(season_of(rows), "L1", when=(1.0, 2.0))
    with pytest.raises(Refused, match="one time"):
        coffee_course(season_of(drawn_season(linking=3)), "L1", when=(1.0,) * 4)


def test_tables_that_nothing_else_links_are_left_out_by_name():
    rows = drawn_season(linking=2)
    rows = [row for row in rows if not (row[0] == "t3" and row[2] == "L2")]

    found = coffee_course(season_of(rows), "L1")

    assert found.unlinked == ("t3",)
    assert len(found.points) == 3
