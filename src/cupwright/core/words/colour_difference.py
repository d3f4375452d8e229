"""How different two colours look: CIEDE2000 between colours kept in OKLab.

1 is about what is just seen side by side; black to white is 100. Letters as in [Sharma2005].
"""

from dataclasses import dataclass
from math import atan2, cos, degrees, exp, hypot, radians, sin, sqrt

from cupwright.core.words.colour import OKLab, Triple, light_from_oklab

# CIE XYZ of the three primaries of sRGB [IEC61966]; their sum is the white that Lab is relative to.
_XYZ_FROM_LIGHT = (
    (0.4124564, 0.3575761, 0.1804375),
    (0.2126729, 0.7151522, 0.0721750),
    (0.0193339, 0.1191920, 0.9503041),
)
_TURN = 360.0
_SEVENTH = 25.0**7


@dataclass(frozen=True, slots=True)
class Lab:
    """A colour of CIE 1976 L*a*b*: `l` lightness 0 to 100, `a` green to red, `b` blue to yellow."""

    l: float  # noqa: E741 - the letter of the definition
    a: float
    b: float


def colour_difference(first: OKLab, second: OKLab) -> float:
    """How different two colours look, in units of CIEDE2000: 0 for the same, symmetric.

    Notes
    -----
    Error: made for patches side by side in daylight; above about 5 it orders differences, roughly.
    Source: [Sharma2005].
    """
    return ciede2000(cielab(first), cielab(second))


def cielab(colour: OKLab) -> Lab:
    """CIE L*a*b* of a colour, relative to the white of sRGB (D65)."""
    light = light_from_oklab(colour)
    x, y, z = (_f(_dot(row, light) / sum(row)) for row in _XYZ_FROM_LIGHT)
    return Lab(116 * y - 16, 500 * (x - y), 200 * (y - z))


def ciede2000(first: Lab, second: Lab) -> float:
    """The difference of two colours of CIE L*a*b*, all parametric factors 1.

    Notes
    -----
    Error: the formula jumps where hues are opposite; the published table has such pairs.
    Source: [Sharma2005], equations 2 to 22; checked against its table of 34 pairs and a general library.
    """
    stretch = 1 + _grey_share((hypot(first.a, first.b) + hypot(second.a, second.b)) / 2)
    chroma_1, hue_1 = _polar(first.a * stretch, first.b)
    chroma_2, hue_2 = _polar(second.a * stretch, second.b)
    both_coloured = chroma_1 * chroma_2 != 0
    turn = _turn(hue_1, hue_2) if both_coloured else 0.0
    lightness, chroma = (first.l + second.l) / 2, (chroma_1 + chroma_2) / 2
    hue = _mean_hue(hue_1, hue_2) if both_coloured else hue_1 + hue_2
    light_part = (second.l - first.l) / (1 + 0.015 * (lightness - 50) ** 2 / sqrt(20 + (lightness - 50) ** 2))
    chroma_part = (chroma_2 - chroma_1) / (1 + 0.045 * chroma)
    hue_part = (
        2 * sqrt(chroma_1 * chroma_2) * sin(radians(turn / 2)) / (1 + 0.015 * chroma * _hue_weight(hue))
    )
    rotation = _rotation(chroma, hue)
    return sqrt(light_part**2 + chroma_part**2 + hue_part**2 + rotation * chroma_part * hue_part)


def _grey_share(chroma: float) -> float:
    """G: how much a* is stretched, more for greys."""
    return 0.5 * (1 - sqrt(chroma**7 / (chroma**7 + _SEVENTH)))


def _polar(a: float, b: float) -> tuple[float, float]:
    """Chroma and hue in degrees, the hue 0 where there is no chroma."""
    return hypot(a, b), degrees(atan2(b, a)) % _TURN


def _turn(hue_1: float, hue_2: float) -> float:
    """From one hue to the other the shorter way round, in degrees; opposite hues count upwards."""
    turn = hue_2 - hue_1
    if turn > _TURN / 2:
        return turn - _TURN
    return turn + _TURN if turn < -_TURN / 2 else turn


def _mean_hue(hue_1: float, hue_2: float) -> float:
    total = hue_1 + hue_2
    if abs(hue_1 - hue_2) <= _TURN / 2:
        return total / 2
    return (total + _TURN) / 2 if total < _TURN else (total - _TURN) / 2


def _hue_weight(hue: float) -> float:
    """T."""
    return (
        1
        - 0.17 * cos(radians(hue - 30))
        + 0.24 * cos(radians(2 * hue))
        + 0.32 * cos(radians(3 * hue + 6))
        - 0.20 * cos(radians(4 * hue - 63))
    )


def _rotation(chroma: float, hue: float) -> float:
    """R_T: chroma and hue are not independent in the blues."""
    blues = 30 * exp(-(((hue - 275) / 25) ** 2))
    return -sin(radians(2 * blues)) * 2 * sqrt(chroma**7 / (chroma**7 + _SEVENTH))


def _f(ratio: float) -> float:
    """The cube root of CIE L*a*b*, straight near black so that it has a slope there."""
    return ratio ** (1 / 3) if ratio > (6 / 29) ** 3 else ratio * (29 / 6) ** 2 / 3 + 4 / 29


def _dot(row: Triple, light: Triple) -> float:
    return row[0] * light[0] + row[1] * light[1] + row[2] * light[2]
