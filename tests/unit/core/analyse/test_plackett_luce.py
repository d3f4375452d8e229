"""Rankings: what is said, what is refused, and what does not change it."""

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from hypothesis.extra.numpy import arrays

from cupwright.core.analyse.choice_stages import fitted_choices, stages_of
from cupwright.core.analyse.plackett_luce import plackett_luce
from cupwright.errors import Refused, TooFewObservations

RANKINGS = np.array([[1, 2, 3], [1, 3, 2], [2, 1, 3], [3, 1, 2], [1, 2, 3]], dtype=float)


def estimates(rankings: np.ndarray, **more: object) -> np.ndarray:
    return np.array([one.estimate for one in plackett_luce(rankings, **more).coffees])


def test_whoever_is_first_most_often_is_most_likely_first_again():
    found = plackett_luce(RANKINGS, coffees=("a", "b", "c"))

    assert found.coffees[0].estimate == max(one.estimate for one in found.coffees)
    assert sum(one.estimate for one in found.picked_first) == pytest.approx(1)
    assert found.comparisons == 5
    assert not found.penalised


def test_a_coffee_that_is_always_first_has_a_finite_worth_and_it_is_said():
    found = plackett_luce([[1, 2, 3], [1, 3, 2], [1, 2, 3]])

    assert found.penalised
    assert found.picked_first[0].estimate > 0.6
    assert all(abs(one.high) < 10 for one in found.coffees)


def test_one_ranking_is_answered_with_wide_intervals():
    found = plackett_luce([[1, 2, 3]])

    assert found.penalised
    assert all(pair.low < 0 < pair.high for pair in found.pairs)


@pytest.mark.parametrize(
    "rankings",
    [
        [[2, 1, 1, 2, 1, 1, 2], [1, 2, 1, 1, 2, 2, 2]],
        [[1, 2, 1, 2, 2, 1, 1], [1, 2, 1, 2, 2, 1, 1], [2, 2, 1, 1, 1, 1, 2], [2, 1, 2, 2, 2, 1, 2]],
        [[np.nan, 1, np.nan, np.nan], [4, 1, 1, 1], [4, 2, 3, 4], [2, np.nan, np.nan, 2], [2, np.nan, 1, 2]],
    ],
)
def test_worths_that_run_away_through_ties_are_held_without_a_warning(rankings):
    found = plackett_luce(rankings)

    assert found.penalised
    assert all(abs(one.estimate) < 10 for one in found.coffees)


def test_gaps_between_places_carry_nothing():
    assert estimates(RANKINGS * 7 - 3) == pytest.approx(estimates(RANKINGS))


def test_counts_stand_for_repeated_rankings():
    assert estimates(RANKINGS[:4], counts=[2, 1, 1, 1]) == pytest.approx(estimates(RANKINGS), abs=1e-7)


def test_a_ranking_of_ties_alone_changes_nothing():
    tied = np.vstack([RANKINGS, [1, 1, 1], [np.nan, 2, 2]])

    assert estimates(tied) == pytest.approx(estimates(RANKINGS))


def test_a_coffee_that_nobody_ranked_is_left_out():
    wider = np.column_stack([RANKINGS, np.full(5, np.nan)])

    assert [one.coffee for one in plackett_luce(wider, coffees=("a", "b", "c", "d")).coffees] == [
        "a",
        "b",
        "c",
    ]


def test_ties_draw_worths_together():
    apart = [[1, 2, 3]] * 4 + [[2, 1, 3]] * 2 + [[3, 2, 1]]
    tied = [*apart, [1, 1, 2], [1, 1, 2]]

    gap = plackett_luce(apart).pairs[0].difference
    found = plackett_luce(tied)

    assert abs(found.pairs[0].difference) < abs(gap)
    assert [size for size, _ in found.ties] == [2]


def test_flights_that_share_no_coffee_are_refused():
    nan = np.nan

    with pytest.raises(Refused, match="never compared with each other: 1, 3; 4, 5"):
        plackett_luce([[1, nan, 2, nan, nan], [nan, nan, nan, 1, 2]])


@pytest.mark.parametrize(
    ("rankings", "kind", "said"),
    [
        ([1.0, 2.0], Refused, "two dimensions"),
        ([[1.0], [1.0]], TooFewObservations, "one coffee alone"),
        ([[1.0, 1.0], [2.0, 2.0]], TooFewObservations, "No ranking tells"),
        ([[np.nan, np.nan]], TooFewObservations, "No ranking tells"),
        ([[1.0] * 8 + [2.0]], Refused, "share a place"),
    ],
)
def test_what_tells_nothing_is_refused(rankings, kind, said):
    with pytest.raises(kind, match=said):
        plackett_luce(rankings)


def test_counts_that_do_not_fit_are_refused():
    with pytest.raises(Refused, match="Counts"):
        plackett_luce(RANKINGS, counts=[1, 2])


@settings(max_examples=25, deadline=None)
@given(
    rankings=arrays(float, (5, 4), elements=some.integers(1, 4).map(float)),
    coffees=some.permutations(range(4)),
    rows=some.permutations(range(5)),
)
def test_names_and_the_order_of_rankings_carry_nothing(rankings, coffees, rows):
    try:
        plain = estimates(rankings)
    except Refused:
        return

    assert estimates(rankings[:, coffees][list(rows)]) == pytest.approx(plain[list(coffees)], abs=1e-4)
    assert np.abs(plain).max() < 20


def test_the_highest_point_is_higher_than_its_neighbours():
    rng = np.random.default_rng(11)
    places = rng.integers(1, 4, size=(20, 5)).astype(float)
    stages = [(row >= at, row == at) for row in places for at in np.unique(row) if (row >= at).sum() > 1]
    left, picked = (np.array(part) for part in zip(*stages, strict=True))
    fit = fitted_choices(stages_of(left, picked, np.ones(len(left)), "abcde"))

    # A likelihood counted out anew: all subsets of each tied size, one by one.
    def counted_out(log_worths: np.ndarray, log_ties: np.ndarray, sizes: list[int]) -> float:
        total, ties = 0.0, dict(zip(sizes, log_ties, strict=True)) | {1: 0.0}
        for here, taken in zip(left, picked, strict=True):
            weights = {
                chosen: np.exp(log_worths[list(chosen)].mean() + ties[size])
                for size in ties
                for chosen in combinations(np.flatnonzero(here), size)
            }
            total += np.log(weights[tuple(np.flatnonzero(taken))] / sum(weights.values()))
        return float(total)

    sizes = sorted({int(size) for size in picked.sum(axis=1)} - {1})
    top = counted_out(fit.log_worths, fit.log_ties, sizes)

    assert fit.log_likelihood == pytest.approx(top, abs=1e-9)
    for step in np.eye(5 + len(sizes)) * 0.01:
        for sign in (-1, 1):
            moved = counted_out(fit.log_worths + sign * step[:5], fit.log_ties + sign * step[5:], sizes)
            assert moved < top + 1e-12
