"""STATIS: weights by agreement, partial places, refusals."""

import numpy as np
import pytest

from cupwright.core.analyse.statis import statis
from cupwright.errors import NoSpread, Refused, TooFewObservations

RNG = np.random.default_rng(2)
TRUE = RNG.normal(size=(6, 2))
TABLES = [TRUE + 0.2 * RNG.normal(size=(6, 2)) for _ in range(3)] + [RNG.normal(size=(6, 2))]


def test_the_one_who_goes_another_way_weighs_least():
    found = statis(TABLES, named=["Ana", "Bo", "Cy", "Di"])

    assert found.weights.sum() == pytest.approx(1)
    assert int(np.argmin(found.weights)) == 3


def test_weighted_partial_places_are_the_compromise():
    found = statis(TABLES)

    assert np.einsum("t,tnk->nk", found.weights, found.partial_points) == pytest.approx(found.points)
    assert (found.points**2).sum(axis=0) == pytest.approx(found.eigenvalues)


def test_units_of_tables_do_not_matter():
    scaled = [table * unit + 5 for table, unit in zip(TABLES, (1, 10, 0.1, 3), strict=True)]

    assert statis(scaled).weights == pytest.approx(statis(TABLES).weights)


def test_tables_without_a_compromise_are_refused():
    with pytest.raises(TooFewObservations, match="two tables"):
        statis(TABLES[:1])
    with pytest.raises(Refused, match="different numbers"):
        statis([TABLES[0], TABLES[1][:4]])
    with pytest.raises(NoSpread, match="alike"):
        statis([TABLES[0], np.ones((6, 2))])
