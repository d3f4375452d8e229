import numpy as np
import pytest

from cupwright.core.analyse.gauss_hermite import gauss_hermite
from cupwright.errors import Refused


@pytest.mark.parametrize("nodes", [1, 2, 5, 10, 100])
def test_the_sum_is_the_integral_of_a_polynomial_against_the_bell(nodes):
    z, logs = gauss_hermite(nodes)

    power = min(2 * nodes - 2, 6)
    moments = {0: 1.0, 2: 0.5, 4: 0.75, 6: 1.875}
    assert np.sum(np.exp(logs - z**2) * z**power) == pytest.approx(np.sqrt(np.pi) * moments[power])


@pytest.mark.parametrize("nodes", [0, 101])
def test_a_number_of_nodes_that_is_none_is_refused(nodes):
    with pytest.raises(Refused, match="nodes are not in 1 to 100"):
        gauss_hermite(nodes)
