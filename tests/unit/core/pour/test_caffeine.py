"""Caffeine: an order of magnitude, proportional to what is swallowed and to the recipe."""

import pytest

from cupwright.core.pour.caffeine import brew_strength, caffeine_mg


def test_spitting_nine_tenths_leaves_a_tenth():
    assert caffeine_mg(30, 3, swallowed=0.1) == caffeine_mg(30, 3) / 10


def test_nothing_tasted_is_nothing_swallowed():
    assert caffeine_mg(0, 3) == caffeine_mg(12, 0) == 0


def test_a_larger_spoon_and_a_stronger_brew_hold_more():
    assert caffeine_mg(1, 1, spoon_ml=9.0, strength=1.0) == pytest.approx(4 * caffeine_mg(1, 1))


def test_strength_goes_with_the_ratio_and_its_ends_stay_apart():
    once, twice = brew_strength(30), brew_strength(60)

    assert (twice.low, twice.usual, twice.high) == (
        pytest.approx(2 * once.low),
        pytest.approx(2 * once.usual),
        pytest.approx(2 * once.high),
    )
    assert once.low < once.usual < once.high
