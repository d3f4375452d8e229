"""Words as cups cool: odds for 10 K, and silence where nothing can be told."""

import numpy as np
import pytest

from cupwright.core.analyse.words_as_they_cool import word_as_it_cools, words_as_they_cool
from cupwright.errors import NoSpread, TooFewObservations

BLOCK = np.repeat(np.arange(4), 6)
CELSIUS = np.tile([68.0, 62.0, 56.0, 50.0, 44.0, 38.0], 4)


def test_a_word_of_the_cool_cups_has_odds_above_one():
    used = np.tile([0, 0, 1, 0, 1, 1], 4).astype(bool)

    found = word_as_it_cools(used, BLOCK, CELSIUS, word="lemon")

    assert found.odds.found.low > 1
    assert found.p < 0.01
    assert (found.uses, found.answers) == (12, 24)


def test_warm_and_cool_are_mirror_images():
    used = np.tile([0, 0, 1, 0, 1, 1], 4).astype(bool)

    cool, warm = word_as_it_cools(used, BLOCK, CELSIUS), word_as_it_cools(used, BLOCK, 106 - CELSIUS)

    assert warm.p == pytest.approx(cool.p)
    assert warm.odds.found.estimate == pytest.approx(1 / cool.odds.found.estimate, rel=1e-6)
    assert warm.odds.found.low == pytest.approx(1 / cool.odds.found.high, rel=1e-6)


def test_a_word_used_in_the_coolest_cups_alone_has_a_p_value_and_no_bound():
    used = np.tile([0, 0, 0, 0, 1, 1], 4).astype(bool)

    found = word_as_it_cools(used, BLOCK, CELSIUS)

    assert found.odds.found is None
    assert "coolest" in found.odds.why_not
    assert found.p == pytest.approx(2 / 15**4)


def test_a_taster_who_always_uses_a_word_tells_nothing():
    used = np.tile([0, 0, 1, 0, 1, 1], 4).astype(bool)
    more = np.concatenate([used, np.ones(6, bool)])

    found = word_as_it_cools(more, np.append(BLOCK, [4] * 6), np.append(CELSIUS, CELSIUS[:6]))

    assert found.answers == 24
    assert found.p == pytest.approx(word_as_it_cools(used, BLOCK, CELSIUS).p)


def test_words_nobody_varies_and_cups_of_one_warmth_are_refused():
    with pytest.raises(TooFewObservations):
        word_as_it_cools(np.zeros(24, bool), BLOCK, CELSIUS)
    with pytest.raises(NoSpread):
        word_as_it_cools(np.tile([0, 1], 12).astype(bool), BLOCK, np.full(24, 55.0))


def test_unknown_temperatures_are_left_out():
    used = np.tile([0, 0, 1, 0, 1, 1], 4).astype(bool)
    celsius = np.where(BLOCK == 3, np.nan, CELSIUS)

    assert word_as_it_cools(used, BLOCK, celsius).answers == 18
    with pytest.raises(TooFewObservations):
        word_as_it_cools(used, BLOCK, np.full(24, np.nan))


def test_several_words_are_held_to_more_and_silent_ones_left_out():
    used = np.tile([0, 0, 1, 0, 1, 1], 4).astype(bool)

    found = words_as_they_cool({"lemon": used, "never": np.zeros(24, bool), "smoke": ~used}, BLOCK, CELSIUS)

    assert [one.word for one in found] == ["lemon", "smoke"]
    assert found[0].p_adjusted == pytest.approx(min(1.0, 2 * found[0].p))
