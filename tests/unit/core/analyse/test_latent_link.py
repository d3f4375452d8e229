import numpy as np
import pytest

from cupwright.core.analyse.latent_link import BEYOND, Link, slopes

A = np.array([-1.0, 0.3, 2.0, 4.0, BEYOND])
B = np.array([-BEYOND, -0.5, 1.0, 3.9, 1.5])
STEP = 1e-5


@pytest.mark.parametrize("link", list(Link))
def test_derivatives_are_the_slopes_of_what_they_derive_from(link):
    s = slopes(link, A, B)
    by_a = [slopes(link, A + sign * STEP, B) for sign in (1, -1)]
    by_b = [slopes(link, A, B + sign * STEP) for sign in (1, -1)]

    def slope(pair, name):
        return (getattr(pair[0], name) - getattr(pair[1], name)) / (2 * STEP)

    for found, pair, name in [
        (s.a, by_a, "g"),
        (s.b, by_b, "g"),
        (s.ab, by_b, "a"),
        (s.ca, by_a, "c"),
        (s.cb, by_b, "c"),
        (s.cca, by_a, "cc"),
        (s.ccb, by_b, "cc"),
    ]:
        assert found == pytest.approx(slope(pair, name), rel=1e-5, abs=1e-6)


@pytest.mark.parametrize("link", list(Link))
def test_far_out_nothing_overflows_and_curves_stay_bent_down(link):
    a = np.array([-30.0, 30.0, 25.0, 1e-3])
    b = np.array([-31.0, 29.0, -25.0, 0.0])

    s = slopes(link, a, b)

    assert np.isfinite(s.g).all()
    assert (s.cc <= 0).all()


def test_chances_of_all_answers_add_up_to_one():
    cuts = np.array([-BEYOND, -1.2, 0.1, 2.2, BEYOND])

    for link in Link:
        assert np.exp(slopes(link, cuts[1:], cuts[:-1]).g).sum() == pytest.approx(1, abs=1e-12)
