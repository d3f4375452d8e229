"""The solving of a mix, in pure numbers."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from scipy.optimize import minimize

from cupwright.core.pour.mix_solving import Wanted, inside, nearest_to_bounds, nearest_to_point

CONTENTS = arrays(float, (3, 4), elements=st.floats(0, 300))


def wanted(low, high, aim=None, scale=None) -> Wanted:
    low, high = np.array(low, dtype=float), np.array(high, dtype=float)
    aim = (low + high) / 2 if aim is None else np.array(aim, dtype=float)
    return Wanted(low, high, aim, np.ones(len(low)) if scale is None else np.array(scale, dtype=float))


@given(content=CONTENTS, aim=arrays(float, 3, elements=st.floats(0, 300)))
def test_no_other_shares_come_nearer_to_a_point(content, aim):
    asked = wanted(aim, aim)

    shares = nearest_to_point(content, asked)

    assert shares.min() >= 0
    assert shares.sum() == pytest.approx(1, abs=1e-12)
    reached = np.linalg.norm(content @ shares - aim)
    # Frank and Wolfe's bound: along no edge towards a single ingredient does it get nearer.
    slope = content.T @ (content @ shares - aim)
    assert slope @ shares - slope.min() <= 1e-6 * (1 + reached) * 300


def test_however_far_away_the_nearest_ingredient_is_taken():
    content = np.array([[1e5, 3e5, 9e5], [3e5, 1e5, 9e5]])

    shares = nearest_to_point(content, wanted([40, 1e-9], [40, 1e-9], scale=[10, 10]))

    # The line between the first two is nearest to nought at its middle.
    assert shares == pytest.approx([0.5, 0.5, 0.0], abs=1e-3)


def test_ingredients_that_depend_on_one_another_do_not_hide_the_nearest():
    content = np.array([[120.0, 1.0, 0.0, 0.0], [0.0, 0.0, 0.0, 0.0]])

    shares = nearest_to_point(content, wanted([120, 120], [120, 120]))

    assert shares == pytest.approx([1, 0, 0, 0], abs=1e-9)


def test_the_nearest_point_is_the_one_a_general_solver_finds():
    content = np.array([[214.0, 0.0, 4060.0, 0.0], [143.0, 0.0, 0.0, 10_000.0]])
    asked = wanted([68, 40], [68, 40], scale=[68, 40])

    shares = nearest_to_point(content[:, :2], asked)

    found = minimize(
        lambda f: np.sum(((content[:, :2] @ [f[0], 1 - f[0]] - asked.aim) / asked.scale) ** 2), [0.5]
    )
    assert shares[0] == pytest.approx(found.x[0], abs=1e-5)


def test_inside_is_as_near_to_the_aims_as_the_bounds_allow():
    content = np.array([[100.0, 0.0], [80.0, 0.0]])

    shares = inside(content, wanted([40, 10], [70, 45], aim=[60, 40], scale=[15, 17.5]), np.zeros(2))

    # 60 of the first would be 48 of the second, above 45; between the two aims the steps are equal.
    assert content[1] @ shares <= 45 + 1e-9
    steps = (60 - content[0] @ shares) / 15, (content[1] @ shares - 40) / 17.5
    assert steps[0] == pytest.approx(steps[1], abs=1e-6)


def test_inside_uses_the_least_of_what_is_dear_where_it_has_a_choice():
    content = np.array([[50.0, 50.0, 0.0]])

    shares = inside(content, wanted([20], [40]), np.array([0.0, 1.0, 0.0]))

    assert shares == pytest.approx([0.6, 0.0, 0.4], abs=1e-6)


def test_inside_bounds_that_nothing_reaches_is_none():
    assert inside(np.array([[10.0, 0.0]]), wanted([20], [30]), np.zeros(2)) is None


def test_the_nearest_to_bounds_spreads_no_miss_that_can_be_spared():
    content = np.array([[10.0, 0.0], [50.0, 0.0]])

    shares = nearest_to_bounds(content, wanted([20, 0], [30, 50]))

    assert content @ shares == pytest.approx([10, 50])


@given(content=CONTENTS, low=arrays(float, 3, elements=st.floats(0, 200)))
def test_what_is_inside_for_one_solver_misses_nothing_for_the_other(content, low):
    asked = wanted(low, low + 50, scale=[25, 25, 25])

    found, nearest = inside(content, asked, np.zeros(4)), nearest_to_bounds(content, asked)

    overshoot = np.maximum(asked.low - content @ nearest, content @ nearest - asked.high).max()
    if found is None:
        assert overshoot > -1e-4
    else:
        assert overshoot <= 1e-4
