"""Tasters and bowls for a difference in points."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.plan.noncentral_t import chance_beyond
from cupwright.core.plan.panel_size import (
    ASSUMED_SPREAD,
    Spread,
    detectable,
    difference_power,
    needed_panels,
    panel_reach,
    standard_error,
)
from cupwright.errors import Refused, TooFewObservations

spreads = st.builds(Spread, st.floats(0.1, 3), st.floats(0.1, 3))
tasters = st.integers(2, 60)


@given(st.floats(0.05, 5), st.floats(0.05, 2), tasters, spreads)
def test_power_rises_with_the_difference(points, more, panel, spread):
    assert difference_power(points + more, panel, spread) >= difference_power(points, panel, spread) - 1e-12


@given(st.floats(0.05, 5), tasters, spreads)
def test_power_rises_with_tasters_and_with_bowls(points, panel, spread):
    now = difference_power(points, panel, spread)

    assert difference_power(points, panel + 1, spread) >= now - 1e-12
    assert difference_power(points, panel, spread, repeats=2) >= now - 1e-12


@given(tasters, spreads, st.floats(0.001, 0.5))
def test_without_a_difference_power_is_the_error(panel, spread, alpha):
    assert difference_power(0, panel, spread, alpha=alpha) == pytest.approx(alpha, abs=1e-12)


@given(tasters, spreads, st.floats(0.1, 0.99))
def test_the_detectable_difference_is_found_as_often_as_wanted(panel, spread, power):
    assert difference_power(detectable(panel, spread, power=power), panel, spread) == pytest.approx(
        power, abs=1e-7
    )


@given(st.floats(0.5, 4), spreads, st.sampled_from([0.8, 0.9]))
def test_the_number_of_tasters_is_the_smallest(points, spread, power):
    for one in needed_panels(points, spread, most_repeats=3, power=power).panels:
        assert difference_power(points, one.tasters, spread, repeats=one.repeats) == one.power >= power
        if one.tasters > 2:
            assert difference_power(points, one.tasters - 1, spread, repeats=one.repeats) < power


@given(st.floats(0.5, 4), spreads)
def test_more_bowls_never_take_more_tasters_and_never_beat_endless_ones(points, spread):
    needed = needed_panels(points, spread)

    counts = [one.tasters for one in needed.panels]
    assert counts == sorted(counts, reverse=True)
    assert needed.at_best <= counts[-1]


def test_bowls_do_nothing_about_what_a_taster_likes():
    only_liking = needed_panels(1, Spread(1.0, 0.0))

    assert len({one.tasters for one in only_liking.panels}) == 1
    assert only_liking.at_best == only_liking.panels[0].tasters


def test_a_panel_that_bowls_can_help_is_told_how_many():
    reach = panel_reach(2.0, 6, Spread(0.5, 1.2), repeats=2)

    assert reach.repeats_needed == 4
    assert difference_power(2.0, 6, Spread(0.5, 1.2), repeats=4) >= 0.9
    assert difference_power(2.0, 6, Spread(0.5, 1.2), repeats=3) < 0.9


def test_a_panel_that_bowls_cannot_help_is_told_so():
    reach = panel_reach(1.0, 8, ASSUMED_SPREAD)

    assert reach.repeats_needed is None
    assert reach.power < reach.best_power < 0.9


def test_more_coffees_on_the_table_tell_more_about_the_spread():
    few, many = (difference_power(2, 5, ASSUMED_SPREAD, coffees=k) for k in (2, 8))

    assert many > few


def test_a_difference_hidden_by_nothing_is_always_found():
    assert difference_power(0.1, 2, Spread(0.0, 1.0), repeats=math.inf) == 1
    assert needed_panels(0.1, Spread(0.0, 1.0)).at_best == 2


@pytest.mark.parametrize("points", [40, 500, 1000])
@pytest.mark.parametrize("panel", [2, 3, 4, 30])
def test_a_huge_difference_is_as_good_as_always_found(points, panel):
    assert difference_power(points, panel, ASSUMED_SPREAD) > 0.98


def test_a_panel_beyond_counting_is_none():
    needed = needed_panels(0.01, ASSUMED_SPREAD)

    assert {one.tasters for one in needed.panels} == {None}
    assert needed.at_best is None


def test_the_standard_error_follows_from_its_parts():
    assert standard_error(8, Spread(3.0, 4.0), repeats=4) == pytest.approx(math.sqrt(2 * (9 + 4) / 8))


def test_an_endless_distance_is_beyond_every_limit():
    assert chance_beyond(12.7, 1, math.inf) == 1


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        ({"points": math.nan}, "A difference of nan points"),
        ({"points": 0}, "A difference of 0 points"),
        ({"points": 1001}, "A difference of 1001 points"),
        ({"spread": Spread(-1, 1)}, "A spread of -1 points, taster by coffee,"),
        ({"spread": Spread(1, math.nan)}, "A spread of nan points, bowl to bowl,"),
        ({"spread": Spread(0, 0)}, "Without any spread"),
        ({"most_repeats": 0}, "0 is not a number of bowls"),
        ({"most_repeats": 21}, "21 is not a number of bowls"),
        ({"coffees": 101}, "101 is not a number of coffees"),
        ({"power": 1}, "A power of 1 is"),
        ({"alpha": 0}, "An error of 0 is"),
    ],
)
def test_what_makes_no_sense_is_refused(arguments, sentence):
    usual = {"points": 1.0, "spread": ASSUMED_SPREAD}
    with pytest.raises(Refused, match=sentence):
        needed_panels(**(usual | arguments))


def test_one_taster_or_one_coffee_is_too_few():
    with pytest.raises(TooFewObservations, match="One taster"):
        difference_power(1, 1, ASSUMED_SPREAD)
    with pytest.raises(TooFewObservations, match="One taster, or one coffee"):
        difference_power(1, 5, ASSUMED_SPREAD, coffees=1)


@pytest.mark.parametrize("panel", [0, -2, 2.5, math.nan, 10_001])
def test_a_number_of_tasters_that_is_none_is_refused(panel):
    with pytest.raises(Refused, match="is not a number of tasters"):
        panel_reach(1.0, panel, ASSUMED_SPREAD)


@pytest.mark.parametrize("alpha", [1e-300, 1e-10, 1 - 1e-12])
def test_an_error_next_to_nothing_is_refused(alpha):
    with pytest.raises(Refused, match="nearer to 0 or 1 than one in a billion"):
        needed_panels(1, ASSUMED_SPREAD, alpha=alpha)


@pytest.mark.parametrize("alpha", [1e-9, 1 - 1e-9])
@pytest.mark.parametrize("spread", [Spread(1e-200, 0), Spread(1000, 1000), Spread(1e-300, 1e-300)])
@pytest.mark.parametrize("points", [1e-300, 1, 1000])
def test_the_far_ends_are_still_chances(alpha, spread, points):
    for panel in (2, 3, 50, 10_000):
        reach = panel_reach(points, panel, spread, alpha=alpha)

        assert 0 <= reach.power <= reach.best_power + 1e-12 <= 1 + 1e-12
