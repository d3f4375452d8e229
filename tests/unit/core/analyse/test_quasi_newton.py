import numpy as np
import pytest

from cupwright.core.analyse.quasi_newton import hessian, lowest

BENT = np.array([[4.0, 1.0], [1.0, 2.0]])


def bowl(at):
    off = at - np.array([1.0, -2.0])
    return float(off @ BENT @ off / 2), BENT @ off


def valley(at):
    x, y = at
    return float((1 - x) ** 2 + 100 * (y - x * x) ** 2), np.array(
        [-2 * (1 - x) - 400 * x * (y - x * x), 200 * (y - x * x)]
    )


@pytest.mark.parametrize(("function", "there"), [(bowl, (1, -2)), (valley, (1, 1))])
def test_the_lowest_point_is_found_from_afar(function, there):
    at, value = lowest(function, np.array([-1.2, 1.0]), np.eye(2))

    assert at == pytest.approx(there, abs=1e-5)
    assert value == pytest.approx(0, abs=1e-9)


def test_a_wall_turns_a_step_back():
    def walled(at):
        return (np.inf, np.zeros(1)) if at[0] <= 0 else (float(at[0] - np.log(at[0])), 1 - 1 / at)

    at, value = lowest(walled, np.array([3.5]), np.eye(1) * 50)

    assert at == pytest.approx([1], abs=1e-5)
    assert value == pytest.approx(1, abs=1e-9)


def test_second_derivatives_of_a_bowl_are_its_matrix():
    assert hessian(bowl, np.zeros(2)) == pytest.approx(BENT, abs=1e-6)
