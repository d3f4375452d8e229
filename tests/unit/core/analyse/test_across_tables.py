"""Across tables: what links, what is refused, and what must not matter."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.unit.core.analyse.seasons import drawn_season, season_of

from cupwright.core.analyse import linked_fit
from cupwright.core.analyse.across_tables import across_tables, tasters_across_tables
from cupwright.errors import NoSpread, NotFound, Refused, TooFewObservations, TooLarge

ROWS = drawn_season(seed=3)


def numbers(found):
    return {one.name: (one.estimate, one.low, one.high) for one in found.values}


def test_without_noise_coffees_that_never_met_are_compared_exactly():
    levels = {("t1", "Ada"): 0.0, ("t1", "Bo"): -3.0, ("t2", "Ada"): 5.0, ("t2", "Bo"): 1.0}
    true = {"link": 80.0, "north": 84.0, "south": 79.0}
    noise = iter(0.01 * np.random.default_rng(1).normal(size=8))
    rows = [
        (table, taster, coffee, true[coffee] + level + next(noise))
        for (table, taster), level in levels.items()
        for coffee in (("link", "north") if table == "t1" else ("link", "south"))
    ]

    found = across_tables(season_of(rows))

    assert found.difference("north", "south").estimate == pytest.approx(5.0, abs=0.05)
    assert found.groups == (("link", "north", "south"),)


def test_coffees_that_nothing_links_are_in_groups_of_their_own():
    rows = [*ROWS, *(("far", f"taster {n}", coffee, 80.0 + n) for n in range(3) for coffee in ("X", "Y"))]

    found = across_tables(season_of(rows))

    assert found.groups[1:] == (("X", "Y"),)
    assert {one.group for one in found.values if one.name in ("X", "Y")} == {2}
    with pytest.raises(Refused, match="Nothing links X to L1"):
        found.difference("X", "L1")


def test_a_coffee_that_stood_alone_has_no_value():
    found = across_tables(season_of([*ROWS, ("far", "taster 1", "X", 81.0)]))

    (alone,) = (one for one in found.values if one.name == "X")
    assert (alone.estimate, alone.low, alone.high, alone.scores) == (None, None, None, 1)
    assert found.ranked[-1].name == "X"


def test_tasters_who_keep_their_level_link_tables_that_share_no_coffee():
    rows = [row for row in ROWS if not row[2].startswith("L")]

    assert len(across_tables(season_of(rows)).groups) == 4
    assert len(across_tables(season_of(rows), levels="table").groups) == 4
    assert len(across_tables(season_of(rows), levels="taster").groups) == 1


def test_repeats_are_averaged_and_do_not_feign_more_tasters():
    rows = [*ROWS, *ROWS]

    assert numbers(across_tables(season_of(rows))) == numbers(across_tables(season_of(ROWS)))


def test_coffees_that_move_between_tables_make_intervals_wider():
    still, moving = (
        across_tables(season_of(drawn_season(tables=8, tasters=6, moving=moving, seed=5)))
        for moving in (0.0, 2.0)
    )

    assert moving.errors.variance_between_tables > 1.0
    wide, narrow = (found.difference("T0-0", "T5-0") for found in (moving, still))
    assert wide.high - wide.low > 1.5 * (narrow.high - narrow.low)


def test_one_link_alone_does_not_show_whether_coffees_move():
    found = across_tables(season_of(drawn_season(linking=1)))

    assert found.errors.moved is None
    assert found.errors.variance_between_tables is None


def test_the_level_of_a_taster_does_not_depend_on_which_coffees_they_met():
    true = {"good": 90.0, "fair": 80.0, "poor": 70.0}
    met = {"Ada": ("good", "fair"), "Bo": ("good", "fair", "poor"), "Cy": ("fair", "poor")}
    noise = iter(0.1 * np.random.default_rng(4).normal(size=40))
    rows = [
        (table, taster, coffee, true[coffee] + (2 if taster == "Ada" else 0) + next(noise))
        for table in ("t1", "t2")
        for taster, coffees in met.items()
        for coffee in coffees
    ]

    found = tasters_across_tables(season_of(rows))

    assert found.difference("Ada", "Cy").estimate == pytest.approx(2.0, abs=0.3)
    assert found.difference("Bo", "Cy").estimate == pytest.approx(0.0, abs=0.3)


def test_scores_that_all_fit_are_not_called_exact():
    rows = [
        (table, taster, coffee, 80.0 + points)
        for table in ("t1", "t2")
        for taster in ("Ada", "Bo")
        for coffee, points in (("A", 0), ("B", 1), ("C", 3))
    ]

    found = across_tables(season_of(rows)).difference("C", "A")

    assert found.estimate == pytest.approx(3.0)
    assert found.high - found.low > 0.3


def test_what_cannot_be_answered_is_refused():
    one_each = [("t1", "Ada", "A", 1.0), ("t1", "Ada", "B", 2.0)]

    with pytest.raises(TooFewObservations):
        across_tables(season_of(one_each))
    with pytest.raises(TooFewObservations):
        across_tables(season_of([("t1", "Ada", "A", 1.0), ("t2", "Ada", "A", 2.0)]))
    with pytest.raises(NoSpread):
        across_tables(season_of([(*row[:3], 80.0) for row in ROWS]))
    with pytest.raises(Refused):
        across_tables(season_of(ROWS), levels="bowl")
    with pytest.raises(Refused, match="side by side"):
        across_tables(season_of([(f"t{n}", "Ada", f"{n % 3}", float(n)) for n in range(6)]))
    with pytest.raises(TooLarge):
        across_tables(season_of([("t", "Ada", f"{n}", float(n)) for n in range(4001)]))
    with pytest.raises(NotFound):
        across_tables(season_of(ROWS)).difference("L1", "nowhere")


def test_data_for_export_hold_the_values_and_no_matrices():
    data = across_tables(season_of(ROWS)).as_data()

    assert set(data) == {"values", "groups", "errors", "levels", "level"}
    assert len(data["values"]) == 10


@given(st.integers(0, 10**6), st.sampled_from(["sitting", "table", "taster"]))
@settings(max_examples=20, deadline=None)
def test_the_order_of_rows_and_the_names_of_tasters_and_tables_do_not_matter(seed, levels):
    rng = np.random.default_rng(seed)
    shuffled = [ROWS[at] for at in rng.permutation(len(ROWS))]
    renamed = [("t" + table[::-1], taster[::-1], coffee, value) for table, taster, coffee, value in shuffled]

    found, again = (numbers(across_tables(season_of(rows), levels=levels)) for rows in (ROWS, renamed))

    for name, values in found.items():
        assert again[name] == pytest.approx(values)


@given(st.floats(-1e3, 1e3), st.floats(0.01, 100))
@settings(max_examples=20, deadline=None)
def test_a_shift_moves_estimates_along_and_a_unit_stretches_differences(shift, unit):
    found = across_tables(season_of(ROWS))
    again = across_tables(season_of([(*row[:3], shift + unit * row[3]) for row in ROWS]))

    for one, other in zip(found.values, again.values, strict=True):
        assert other.estimate == pytest.approx(shift + unit * one.estimate, abs=1e-6)
        assert other.high - other.low == pytest.approx(unit * (one.high - one.low), rel=1e-6)


@given(st.lists(st.floats(-20, 20), min_size=12, max_size=12))
@settings(max_examples=20, deadline=None)
def test_a_sitting_s_own_level_changes_no_comparison(levels):
    keys = sorted({row[:2] for row in ROWS})
    level = dict(zip(keys, levels, strict=True))
    found = across_tables(season_of(ROWS)).difference("T0-0", "T3-1")

    shifted = [(*row[:3], row[3] + level[row[:2]]) for row in ROWS]

    again = across_tables(season_of(shifted)).difference("T0-0", "T3-1")
    assert (again.estimate, again.low, again.high) == pytest.approx((found.estimate, found.low, found.high))


def test_large_tables_worked_out_one_by_one_give_what_small_ones_give(monkeypatch):
    rng = np.random.default_rng(8)
    holed = [row for row in drawn_season(tables=5, tasters=4, linking=3, moving=0.5) if rng.random() > 0.2]
    small = across_tables(season_of(holed))

    monkeypatch.setattr(linked_fit, "_WIDE", 0)

    large = across_tables(season_of(holed))
    assert numbers(large)["L1"] == pytest.approx(numbers(small)["L1"])
    assert large.errors.moved == pytest.approx(small.errors.moved)
    assert large.errors.weight == pytest.approx(small.errors.weight)
