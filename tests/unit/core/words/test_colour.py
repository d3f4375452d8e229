"""Colours as answers."""

from itertools import combinations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cupwright.core.words.colour import (
    OKLab,
    hex_of,
    oklab_from_hex,
    oklab_from_srgb,
    srgb_from_oklab,
    swatches,
)
from cupwright.errors import Refused

PARTS = st.floats(0, 1)


@given(PARTS, PARTS, PARTS)
def test_there_and_back_again_gives_the_same_colour(red, green, blue):
    assert srgb_from_oklab(oklab_from_srgb(red, green, blue)) == pytest.approx((red, green, blue), abs=1e-5)


def test_every_step_of_a_coarse_cube_survives_as_hex():
    for red, green, blue in product(range(0, 256, 51), repeat=3):
        text = f"#{red:02x}{green:02x}{blue:02x}"
        assert hex_of(oklab_from_hex(text)) == text


def test_a_colour_no_screen_can_show_keeps_lightness_and_hue():
    shown = oklab_from_hex(hex_of(OKLab(0.7, 0.4, 0.4)))

    assert shown.l == pytest.approx(0.7, abs=0.01)
    assert shown.hue == pytest.approx(OKLab(0.7, 0.4, 0.4).hue, abs=0.03)
    assert shown.chroma < 0.3


@pytest.mark.parametrize("parts", [(-0.1, 0, 0), (0, 1.1, 0), (0, 0, float("nan"))])
def test_parts_outside_srgb_are_refused(parts):
    with pytest.raises(Refused, match="outside sRGB"):
        oklab_from_srgb(*parts)


@pytest.mark.parametrize("text", ["", "red", "#12345", "#1234567", "#12345g", "123456#", "#+12345"])
def test_what_is_no_hex_colour_is_refused(text):
    with pytest.raises(Refused, match="is no colour"):
        oklab_from_hex(text)


def test_the_field_of_swatches_can_be_shown_and_told_apart():
    field = swatches()

    assert 55 <= len(field) <= 65
    assert all(hex_of(oklab_from_hex(hex_of(colour))) == hex_of(colour) for colour in field)
    assert all(-1e-5 <= part <= 1 + 1e-5 for colour in field for part in srgb_from_oklab(colour))
    assert min(one.distance(other) for one, other in combinations(field, 2)) > 0.015


def test_the_field_is_regular_in_hue_and_lightness():
    rows = [swatches()[at : at + 12] for at in range(0, 60, 12)]

    for row in rows:
        assert {round(colour.l, 9) for colour in row} == {round(row[0].l, 9)}
        assert [round(colour.hue / (2 * 3.141592653589793) * 12) % 12 for colour in row] == list(range(12))
