"""What is counted on a descriptive sheet, against worked examples by hand."""

import math

import numpy as np
import pytest
from scipy.stats import t

from cupwright.core.analyse.proportions import wilson
from cupwright.core.analyse.scales import mean_interval
from cupwright.core.reveal.match import match
from cupwright.core.words.lexicon import load_lexicon


def test_a_panel_of_four_has_the_mean_and_spread_of_the_worked_example():
    """Trade descriptive form, beta V1.1 (0-15 lines), worked example 1 by hand: 8.50, SD 1.291."""
    panel = mean_interval(np.array([8.0, 9.0, 10.0, 7.0]))

    assert panel.n == 4
    assert panel.mean is not None
    assert panel.mean.estimate == pytest.approx(8.50, abs=0.005)
    # The interval is the mean and t x SD / sqrt(n) on either side: what is left is the SD.
    spread = (panel.mean.high - panel.mean.low) / 2 / float(t.isf(0.025, df=3)) * math.sqrt(4)
    assert spread == pytest.approx(1.291, abs=0.0005)


def test_six_of_eight_ticks_are_three_quarters():
    """Trade descriptive form, beta V1.1 (lists to tick), worked example 2 by hand: 75.0 %."""
    share = wilson(6, 8)

    assert 100 * share.estimate == pytest.approx(75.0, abs=0.05)
    assert share.low < 0.75 < share.high


def test_two_lists_of_three_with_two_in_common():
    """Jaccard 2/4 = 0.50, Dice 2 x 2/6 = 0.667 [Dice1945]; worked example 3 by hand."""
    mine, theirs = {"flower", "citrus", "brown_sugar"}, {"citrus", "brown_sugar", "cocoa"}

    laid = match(mine, theirs, load_lexicon())

    assert laid.near == ()
    assert laid.score == pytest.approx(0.667, abs=0.0005)
    assert len(laid.shared) / len({*laid.shared, *laid.missed, *laid.own}) == pytest.approx(0.50, abs=0.005)
