"""What several tasters' colours have in common."""

from math import sqrt

import pytest

from cupwright.core.words.colour import OKLab
from cupwright.core.words.colour_consensus import consensus
from cupwright.core.words.colour_difference import colour_difference
from cupwright.errors import TooFewObservations


def test_consensus_is_the_mean_and_the_spread_about_it():
    red, green = OKLab(0.5, 0.1, 0.0), OKLab(0.5, -0.1, 0.0)

    result = consensus([red, green])

    grey = OKLab(0.5, 0.0, 0.0)
    assert result.colour == grey
    assert result.spread == pytest.approx(
        sqrt((colour_difference(grey, red) ** 2 + colour_difference(grey, green) ** 2) / 2)
    )
    assert result.spread > 10
    assert result.count == 2


def test_one_colour_is_its_own_consensus_without_spread():
    result = consensus([OKLab(0.6, 0.05, 0.1)])

    assert (result.colour, result.count) == (OKLab(0.6, 0.05, 0.1), 1)
    assert result.spread == pytest.approx(0, abs=1e-9)


def test_no_colour_has_no_consensus():
    with pytest.raises(TooFewObservations):
        consensus([])
