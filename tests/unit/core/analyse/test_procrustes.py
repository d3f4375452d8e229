"""Procrustes: what was only turned, moved and stretched is laid back exactly."""

import numpy as np
import pytest
from scipy.stats import special_ortho_group

from cupwright.core.analyse.procrustes import generalised_procrustes, procrustes
from cupwright.errors import NoSpread, Refused, TooFewObservations

RNG = np.random.default_rng(6)
TRUE = RNG.normal(size=(6, 3))


def turned(seed, unit):
    return unit * TRUE @ special_ortho_group.rvs(3, random_state=seed) + RNG.normal(size=3)


def test_a_turned_mirrored_and_stretched_copy_is_laid_back():
    copy = 4 * TRUE @ special_ortho_group.rvs(3, random_state=3) * [1, 1, -1] + 9

    found = procrustes(TRUE, copy)

    assert found.disparity == pytest.approx(0, abs=1e-12)
    assert found.aligned == pytest.approx(TRUE)
    assert found.scale == pytest.approx(0.25)
    assert found.rotation @ found.rotation.T == pytest.approx(np.eye(3))


def test_without_stretching_the_size_stays():
    found = procrustes(TRUE, 2 * TRUE, scaling=False)

    assert found.scale == 1
    assert found.aligned - found.aligned.mean(0) == pytest.approx(2 * (TRUE - TRUE.mean(0)))


def test_a_narrow_table_is_filled_up():
    assert procrustes(TRUE, TRUE[:, :2]).aligned.shape == (6, 3)


def test_copies_of_one_arrangement_have_full_consensus():
    found = generalised_procrustes([turned(1, 1), turned(2, 5), turned(3, 0.2)])

    assert found.consensus == pytest.approx(1)
    assert found.residuals == pytest.approx(np.zeros(3), abs=1e-9)
    assert found.scales == pytest.approx(np.ones(3))


def test_parts_add_up_to_what_is_not_consensus():
    tables = [TRUE + 0.5 * RNG.normal(size=(6, 3)) for _ in range(4)]
    found = generalised_procrustes(tables)
    whole = np.sum(found.partial_points**2)

    assert found.residuals.sum() == pytest.approx(found.coffee_residuals.sum())
    assert found.residuals.sum() / whole == pytest.approx(1 - found.consensus)
    assert whole == pytest.approx(4)
    assert found.partial_points.mean(axis=0)[:, : found.points.shape[1]] == pytest.approx(found.points)


def test_stretching_never_lowers_the_consensus_and_order_of_coffees_turns_nothing():
    tables = [TRUE * unit + 0.3 * RNG.normal(size=(6, 3)) for unit in (1, 2, 3)]
    order = [3, 1, 5, 0, 4, 2]
    stretched = generalised_procrustes(tables)
    moved = generalised_procrustes([table[order] for table in tables])
    unit = [table - table.mean(0) for table in tables]
    plain = generalised_procrustes([table / np.linalg.norm(table) for table in unit], scaling=False)

    assert stretched.consensus >= plain.consensus - 1e-9
    assert moved.points == pytest.approx(stretched.points[order], abs=1e-6)


def test_arrangements_without_a_consensus_are_refused():
    with pytest.raises(TooFewObservations, match="two tasters"):
        generalised_procrustes([TRUE])
    with pytest.raises(NoSpread, match="table 2 are alike"):
        generalised_procrustes([TRUE, np.ones((6, 2))])
    with pytest.raises(Refused, match="different numbers"):
        procrustes(TRUE, TRUE[:4])
