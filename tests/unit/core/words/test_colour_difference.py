"""How different two colours look."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.words.colour import OKLab, swatches
from cupwright.core.words.colour_difference import colour_difference

PARTS = st.floats(-0.4, 0.4)
COLOURS = st.builds(OKLab, st.floats(0, 1), PARTS, PARTS)


@given(COLOURS, COLOURS)
def test_it_is_symmetric_and_never_negative(first, second):
    assert colour_difference(first, second) == pytest.approx(colour_difference(second, first), abs=1e-9)
    assert colour_difference(first, second) >= 0


@given(COLOURS)
def test_a_colour_does_not_differ_from_itself(colour):
    assert colour_difference(colour, colour) == pytest.approx(0, abs=1e-9)


def test_a_little_colour_is_seen_in_a_grey_and_hardly_in_a_strong_colour():
    in_grey = colour_difference(OKLab(0.6, 0.0, 0.0), OKLab(0.6, 0.05, 0.0))
    in_red = colour_difference(OKLab(0.6, 0.2, 0.0), OKLab(0.6, 0.25, 0.0))

    assert in_grey > 2 * in_red > 0


def test_no_two_swatches_of_the_field_look_the_same():
    field = swatches()

    assert min(colour_difference(a, b) for i, a in enumerate(field) for b in field[:i]) > 1
