"""Caffeine: an order of magnitude, proportional to what is swallowed."""

from cupwright.core.pour.caffeine import caffeine_mg


def test_spitting_nine_tenths_leaves_a_tenth():
    assert caffeine_mg(30, 3, swallowed=0.1) == caffeine_mg(30, 3) / 10


def test_nothing_tasted_is_nothing_swallowed():
    assert caffeine_mg(0, 3) == caffeine_mg(12, 0) == 0
