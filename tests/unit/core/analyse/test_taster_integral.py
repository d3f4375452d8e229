import numpy as np
import pytest

from cupwright.core.analyse.latent_link import Link
from cupwright.core.analyse.ordinal_fit import OrdinalModel
from cupwright.core.analyse.scores import scores_of

TABLE = np.array([[4, 5, 4, 3], [2, 3, 3, 1], [3, 3, 2, 2]], float)
AT = np.array([-1.9, -0.4, 1.1, 2.5, 0.9, -0.3, -0.2])


@pytest.mark.parametrize("link", list(Link))
@pytest.mark.parametrize("nodes", [1, 2, 10])
@pytest.mark.parametrize("penalised", [False, True])
def test_the_gradient_is_the_slope_of_the_value(link, nodes, penalised):
    integral = OrdinalModel.of(scores_of(TABLE), link, nodes, None, True).integral(penalised)

    _, gradient = integral(AT)

    steps = np.eye(len(AT)) * 1e-5
    slope = [(integral(AT + step)[0] - integral(AT - step)[0]) / 2e-5 for step in steps]
    assert gradient == pytest.approx(np.array(slope), abs=2e-5)


def test_thresholds_out_of_order_have_no_likelihood():
    integral = OrdinalModel.of(scores_of(TABLE), Link.LOGIT, 10, None, True).integral(False)

    value, _ = integral(np.array([1.0, -1.0, 1.1, 2.5, 0.9, -0.3, -0.2]))

    assert value == np.inf


def test_more_nodes_settle_on_one_value():
    values = [
        OrdinalModel.of(scores_of(TABLE), Link.LOGIT, nodes, None, True).integral(False)(AT)[0]
        for nodes in (1, 15, 40)
    ]

    assert values[1] == pytest.approx(values[2], abs=1e-8)
    assert abs(values[0] - values[2]) > 1e-4
