"""OKLab, against the table of its definition and the examples of the web standard."""

import numpy as np
import pytest

from cupwright.core.words.colour import OKLab, hex_of, oklab_from_hex, oklab_from_light

# Linear sRGB to CIE XYZ (D65): the primaries of [IEC61966] worked out to seven decimals (from memory).
XYZ_FROM_LIGHT = np.array(
    [
        [0.4124564, 0.3575761, 0.1804375],
        [0.2126729, 0.7151522, 0.0721750],
        [0.0193339, 0.1191920, 0.9503041],
    ]
)

DEFINITION = [
    ((0.950, 1.000, 1.089), (1.000, 0.000, 0.000)),
    ((1.000, 0.000, 0.000), (0.450, 1.236, -0.019)),
    ((0.000, 1.000, 0.000), (0.922, -0.671, 0.263)),
    ((0.000, 0.000, 1.000), (0.153, -1.415, -0.449)),
]

WEB_EXAMPLES = [
    ((0.40101, 0.1147, 0.0453), "#7d2329"),
    ((0.59686, 0.1009, 0.1192), "#c65d07"),
    ((0.65125, -0.0320, 0.1274), "#9d9318"),
    ((0.66016, -0.1084, 0.1114), "#68a639"),
    ((0.72322, -0.0465, -0.1150), "#62acef"),
]


@pytest.mark.parametrize(("xyz", "lab"), DEFINITION)
def test_oklab_matches_the_table_of_its_definition(xyz, lab):
    """Ottosson (2020), table of XYZ and OKLab pairs, three printed decimals (digits from memory)."""
    light = np.linalg.solve(XYZ_FROM_LIGHT, xyz)

    colour = oklab_from_light(tuple(light))

    assert (colour.l, colour.a, colour.b) == pytest.approx(lab, abs=0.0006)


@pytest.mark.parametrize(("lab", "shown"), WEB_EXAMPLES)
def test_oklab_matches_the_examples_of_the_web_standard(lab, shown):
    """CSS Color Module Level 4, examples of oklab() with their sRGB colours (digits from memory)."""
    assert hex_of(OKLab(*lab)) == shown
    colour = oklab_from_hex(shown)
    assert (colour.l, colour.a, colour.b) == pytest.approx(lab, abs=0.002)
