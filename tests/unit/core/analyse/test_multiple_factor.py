"""Multiple factor analysis: no group outweighs another; identities and refusals."""

import numpy as np
import pytest

from cupwright.core.analyse.multiple_factor import multiple_factor_analysis
from cupwright.core.analyse.pca import pca
from cupwright.errors import NoSpread, Refused, TooFewObservations

RNG = np.random.default_rng(8)
POINTS, WORDS = RNG.normal(size=(6, 4)), RNG.random((6, 5))


def test_partial_places_average_to_the_place_and_parts_of_groups_add_up():
    found = multiple_factor_analysis({"points": POINTS, "words": WORDS}, unscaled=["words"])

    assert found.partial_points.mean(axis=0) == pytest.approx(found.points)
    assert found.group_shares.sum(axis=0) == pytest.approx(np.ones(len(found.eigenvalues)))
    assert (found.points**2).mean(axis=0) == pytest.approx(found.eigenvalues)
    assert found.eigenvalues[0] <= 2 + 1e-12


def test_a_group_in_another_unit_weighs_as_much():
    plain = multiple_factor_analysis({"points": POINTS, "words": WORDS}, unscaled=["words"])
    large = multiple_factor_analysis({"points": POINTS, "words": 1000 * WORDS + 3}, unscaled=["words"])

    assert large.points == pytest.approx(plain.points)


def test_the_same_group_twice_gives_the_map_of_one_with_first_eigenvalue_two():
    found = multiple_factor_analysis({"one": POINTS, "two": POINTS})
    alone = pca(POINTS)

    assert found.eigenvalues[0] == pytest.approx(2)
    assert found.shares == pytest.approx(alone.shares)
    assert found.agreement == pytest.approx(np.ones((2, 2)))


def test_a_group_without_spread_is_left_out():
    found = multiple_factor_analysis({"points": POINTS, "colours": np.full((6, 3), 0.4)})

    assert (found.groups, found.left_out) == (("points",), ("colours",))


@pytest.mark.parametrize(
    ("groups", "error", "told"),
    [
        ({}, TooFewObservations, "no kind of answer"),
        ({"a": POINTS, "b": WORDS[:4]}, Refused, "different numbers"),
        ({"a": np.ones((4, 2))}, NoSpread, "tells any two coffees apart"),
    ],
)
def test_groups_without_a_map_are_refused(groups, error, told):
    with pytest.raises(error, match=told):
        multiple_factor_analysis(groups)


def test_an_unknown_group_is_refused():
    with pytest.raises(Refused, match="no group 'colour'"):
        multiple_factor_analysis({"points": POINTS}, unscaled=["colour"])
