"""Coffee estimates: refusals, what probabilities and intervals must do, invariances."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cupwright.core.analyse.coffee_estimates import CoffeeComparison, compare_coffees
from cupwright.core.analyse.components import crossed_components
from cupwright.core.analyse.scores import scores_of
from cupwright.errors import NoSpread, Refused, TooFewObservations

RNG = np.random.default_rng(8)
FULL = 80 + RNG.normal(size=(4, 1, 1)) + RNG.normal(size=(1, 5, 1)) + RNG.normal(size=(4, 5, 2))
HOLED = np.where(np.random.default_rng(9).random(FULL.shape) < 0.2, np.nan, FULL)


def numbers(found):
    return [[one.estimate, one.low, one.high, one.p_best] for one in found.coffees]


@pytest.mark.parametrize("table", [FULL, HOLED], ids=["full", "holes"])
def test_probabilities_of_being_best_add_up_and_estimates_lie_in_their_intervals(table):
    found = compare_coffees(table)

    assert sum(one.p_best for one in found.coffees) == pytest.approx(1)
    assert all(one.low <= one.estimate <= one.high for one in found.coffees)
    assert all(pair.low <= pair.difference <= pair.high for pair in found.pairs)
    assert len(found.pairs) == 6


@pytest.mark.parametrize("table", [FULL, HOLED], ids=["full", "holes"])
def test_the_same_scores_give_the_same_numbers(table):
    assert compare_coffees(table) == compare_coffees(table.copy())


def test_a_pair_whose_interval_leaves_out_zero_is_surely_ordered():
    found = compare_coffees(FULL + np.array([0.0, 1, 2, 4])[:, None, None])

    told = [pair for pair in found.pairs if pair.apart]
    assert told
    assert all(pair.p_a_better > 0.975 or pair.p_a_better < 0.025 for pair in told)


def test_a_coffee_far_above_the_others_is_best_without_doubt():
    table = FULL.copy()
    table[2] += 30

    found = compare_coffees(table)

    assert found.ranked[0].coffee == "3"
    assert found.ranked[0].p_best > 0.99
    assert all(pair.apart for pair in found.pairs if "3" in (pair.a, pair.b))


def test_coffees_that_differ_no_more_than_chance_are_all_estimated_at_the_mean():
    table = np.array([np.roll(np.arange(6.0), shift) for shift in range(6)])

    found = compare_coffees(table)

    assert [one.estimate for one in found.coffees] == pytest.approx([2.5] * 6)
    assert all(0.1 < one.p_best < 0.24 for one in found.coffees)
    assert not any(pair.apart for pair in found.pairs)


def test_one_taster_with_repeats_speaks_for_that_taster_alone():
    found = compare_coffees(scores_of(FULL[:, :1], tasters=["Ada"]))

    assert found.taster == "Ada"
    assert len(found.coffees) == 4


def test_one_taster_with_uneven_repeats_is_heard_too():
    table = FULL[:, :1].copy()
    table[0, 0, 1] = np.nan

    found = compare_coffees(table)

    assert found.taster == "1"
    assert all(np.isfinite(numbers(found)).ravel())


def test_one_taster_without_repeats_is_told_so():
    with pytest.raises(TooFewObservations, match="cannot tell a difference from chance"):
        compare_coffees(FULL[:, :1, 0])


@pytest.mark.parametrize(
    ("table", "refusal"),
    [
        (np.full((3, 3), 5.0), NoSpread),
        (np.full((3, 3), np.nan), TooFewObservations),
        (FULL[:1], TooFewObservations),
        (FULL[:1, :1], TooFewObservations),
        (np.array([[1, np.nan], [np.nan, 2.0]]), Refused),
    ],
    ids=["constant", "empty", "one coffee", "one cell", "unlinked"],
)
def test_what_cannot_be_said_is_refused(table, refusal):
    with pytest.raises(refusal):
        compare_coffees(table)


def test_tasters_who_agree_to_the_point_still_leave_the_rounding_of_the_scale():
    agreed = np.add.outer([2.0, 3, 5], [0.0, 1, 1])

    found = compare_coffees(agreed, step=1.0)

    assert [one.estimate for one in found.coffees] == pytest.approx(
        [2 + 2 / 3, 3 + 2 / 3, 5 + 2 / 3], abs=0.1
    )
    assert all(pair.high - pair.low > 0.5 for pair in found.pairs)
    assert compare_coffees(agreed) == compare_coffees(agreed, step=1.0)


def test_a_full_table_and_the_way_for_tables_with_holes_tell_the_same():
    almost = np.concatenate([FULL, np.full((4, 5, 1), np.nan)], axis=2)
    almost[0, 0, 2] = FULL[0, 0].mean()  # one more score makes it uneven, and changes next to nothing

    full, uneven = compare_coffees(FULL), compare_coffees(almost)

    assert np.array(numbers(uneven)) == pytest.approx(np.array(numbers(full)), abs=0.25)


def test_many_coffees_come_without_pairs_and_with_variances_taken_as_estimated():
    rng = np.random.default_rng(2)
    table = rng.normal(size=(160, 1)) + rng.normal(size=(160, 4))
    table[0, 0] = np.nan

    found = compare_coffees(table)

    assert len(found.coffees) == 160
    assert found.pairs == ()


def test_terms_are_set_aside():
    scores = scores_of(FULL)
    position = np.random.default_rng(5).permutation(len(scores)) + 1.0
    moved = type(scores)(
        scores.coffees, scores.tasters, scores.coffee, scores.taster,
        scores.value + 2 * position, scores.repeat, position,
    )  # fmt: skip

    aside = compare_coffees(moved, position=True)

    plain = compare_coffees(scores)
    level = np.mean([one.estimate for one in aside.coffees]) - np.mean(
        [one.estimate for one in plain.coffees]
    )
    assert [one.estimate - level for one in aside.coffees] == pytest.approx(
        [one.estimate for one in plain.coffees], abs=0.5
    )


@settings(max_examples=12, deadline=None)
@given(st.permutations(range(4)), st.permutations(range(5)), st.floats(-1e3, 1e3), st.floats(0.1, 50))
def test_names_level_and_unit_do_not_matter(coffees, tasters, shift, scale):
    plain = compare_coffees(FULL)

    moved = compare_coffees(scale * FULL[coffees][:, tasters] + shift)

    expected = [numbers(plain)[at] for at in coffees]
    back = [[(one - shift) / scale for one in row[:3]] + row[3:] for row in numbers(moved)]
    assert np.array(back) == pytest.approx(np.array(expected), rel=1e-6, abs=1e-3)


def test_the_comparison_is_a_table_in_a_notebook():
    found = compare_coffees(FULL)

    assert isinstance(found, CoffeeComparison)
    assert "p_best" in found._repr_html_()
    assert len(found.rows()) == 4


def test_the_factor_of_shrinkage_is_that_of_the_variances():
    parts = crossed_components(FULL)
    found = compare_coffees(FULL)

    noise = parts.coffee_taster / 5 + parts.residual / 10
    factor = parts.coffee / (parts.coffee + noise)
    mean = FULL.mean()
    assert [one.estimate for one in found.coffees] == pytest.approx(
        [mean + factor * (one.mean - mean) for one in found.coffees]
    )


def test_one_taster_whose_uneven_repeats_all_agree_leaves_the_rounding_of_the_scale():
    found = compare_coffees(np.array([[[0.0, np.nan]], [[1.0, 1.0]]]))

    (pair,) = found.pairs
    assert pair.low < -1 < pair.high
    assert pair.high - pair.low > 0.5
