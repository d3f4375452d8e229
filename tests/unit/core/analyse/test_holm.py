"""Holm: adjusted values never below the plain ones."""

import numpy as np
import pytest

from cupwright.core.analyse.holm import holm


def test_holm_never_lowers_a_p_value_and_keeps_their_order():
    plain = np.array([0.03, 0.001, 0.2, 0.001, 0.9])

    adjusted = holm(plain)

    assert (adjusted >= plain).all()
    assert (np.argsort(adjusted, kind="stable") == np.argsort(plain, kind="stable")).all()
    assert adjusted[1] == pytest.approx(0.005)
    assert adjusted.max() <= 1
