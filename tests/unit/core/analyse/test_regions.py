"""Regions: silence for small panels, honest sizes, pairs told apart over all answers."""

import numpy as np
import pytest

from cupwright.core.analyse.regions import correspondence_regions, map_regions
from cupwright.errors import IncompleteTable, NoSpread, Refused, TooFewObservations

RNG = np.random.default_rng(9)
MEANS = np.array([[0.0, 0, 0], [0.1, 0, 0], [6, 2, 0], [-4, 5, 1]])
VALUES = MEANS + RNG.normal(size=(8, 4, 3)) + RNG.normal(size=(8, 1, 3))
USED = RNG.random((9, 5, 8)) < RNG.uniform(0.1, 0.9, (5, 8))


def test_coffees_far_apart_are_told_apart_and_equal_ones_are_not():
    found = map_regions(VALUES)

    assert found.apart[2, 3] < 0.01
    assert found.apart[0, 1] > 0.05
    assert found.apart == pytest.approx(found.apart.T)


def test_a_region_holds_its_own_centre_and_its_edge_lies_on_the_edge():
    found = map_regions(VALUES)
    edge = found.centres.copy()
    edge[1] = found.centres[1] + 0.99 * (found.ring(1)[7] - found.centres[1])

    assert found.holds(found.centres).all()
    assert found.holds(edge).all()
    edge[1] = found.centres[1] + 1.01 * (found.ring(1)[7] - found.centres[1])
    assert found.holds(edge).tolist() == [True, False, True, True]


def test_a_higher_level_gives_larger_regions_and_more_agreement_smaller_ones():
    plain, sure = map_regions(VALUES), map_regions(VALUES, level=0.99)
    agreed = map_regions(MEANS + 0.1 * (VALUES - MEANS))

    assert sure.rows()[0]["longest"] > plain.rows()[0]["longest"] > 5 * agreed.rows()[0]["longest"]


def test_levels_of_tasters_and_repeated_runs_change_nothing():
    moved = map_regions(VALUES + RNG.normal(size=(8, 1, 3)) * 20)

    assert moved.covariances == pytest.approx(map_regions(VALUES).covariances)


def test_coffees_in_another_order_keep_their_regions():
    order = [2, 0, 3, 1]

    assert map_regions(VALUES[:, order]).covariances == pytest.approx(map_regions(VALUES).covariances[order])


@pytest.mark.parametrize("shape", [(3, 4), (8, 2)])
def test_small_panels_get_no_regions_but_a_sentence(shape):
    tasters, coffees = shape

    with pytest.raises(TooFewObservations, match=f"here are {tasters} and {coffees}"):
        map_regions(VALUES[:tasters, :coffees])


def test_what_cannot_be_drawn_is_refused():
    holed = VALUES.copy()
    holed[1, 2, 0] = np.nan
    with pytest.raises(IncompleteTable, match="Taster 2 did not answer everything about coffee 3"):
        map_regions(holed)
    with pytest.raises(NoSpread, match="No taster differs"):
        map_regions(np.tile(MEANS, (5, 1, 1)))
    with pytest.raises(NoSpread, match="one direction"):
        map_regions(VALUES[:, :, :1])
    with pytest.raises(Refused, match="array of tasters"):
        map_regions(MEANS)


def test_regions_of_words_lie_where_correspondence_analysis_puts_the_coffees():
    found = correspondence_regions(USED)

    assert found.centres.shape == (5, 2)
    assert np.isfinite(found.covariances).all()
    assert (found.apart <= 1).all()


def test_few_writers_get_no_regions_of_words():
    with pytest.raises(TooFewObservations, match="6 tasters and 4 coffees"):
        correspondence_regions(USED[:5])
