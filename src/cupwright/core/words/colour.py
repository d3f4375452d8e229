"""Colour: what a coffee tastes like, said in colour. Kept in OKLab, where equal distances look about equal.

Source: [Ottosson2020], the two matrices between linear sRGB and OKLab; the sRGB curve is [IEC61966]'s.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from math import atan2, cbrt, cos, hypot, pi, sin, sqrt

from cupwright.errors import Refused

Triple = tuple[float, float, float]

_LMS_FROM_LINEAR = (
    (0.4122214708, 0.5363325363, 0.0514459929),
    (0.2119034982, 0.6806995451, 0.1073969566),
    (0.0883024619, 0.2817188376, 0.6299787005),
)
_LAB_FROM_ROOTS = (
    (0.2104542553, 0.7936177850, -0.0040720468),
    (1.9779984951, -2.4285922050, 0.4505937099),
    (0.0259040371, 0.7827717662, -0.8086757660),
)
_ROOTS_FROM_LAB = (
    (1.0, 0.3963377774, 0.2158037573),
    (1.0, -0.1055613458, -0.0638541728),
    (1.0, -0.0894841775, -1.2914855480),
)
_LINEAR_FROM_LMS = (
    (4.0767416621, -3.3077115913, 0.2309699292),
    (-1.2684380046, 2.6097574011, -0.3413193965),
    (-0.0041960863, -0.7034186147, 1.7076147010),
)


@dataclass(frozen=True, slots=True)
class OKLab:
    """A colour: `l` lightness 0 (black) to 1 (white), `a` green to red, `b` blue to yellow."""

    l: float  # noqa: E741 - the letter of the definition
    a: float
    b: float

    @property
    def chroma(self) -> float:
        """Distance from grey."""
        return hypot(self.a, self.b)

    @property
    def hue(self) -> float:
        """Angle in radians, in [0, 2 pi)."""
        return atan2(self.b, self.a) % (2 * pi)

    def distance(self, other: "OKLab") -> float:
        """Straight line in OKLab."""
        return sqrt((self.l - other.l) ** 2 + (self.a - other.a) ** 2 + (self.b - other.b) ** 2)


def oklab_from_srgb(red: float, green: float, blue: float) -> OKLab:
    """OKLab of an sRGB colour with parts in [0, 1].

    Raises
    ------
    Refused
        If a part lies outside [0, 1].
    """
    if not all(0.0 <= part <= 1.0 for part in (red, green, blue)):
        raise Refused(f"The colour ({red}, {green}, {blue}) is outside sRGB.", todo="Give parts from 0 to 1.")
    return oklab_from_light((_linear(red), _linear(green), _linear(blue)))


def oklab_from_light(parts: Triple) -> OKLab:
    """OKLab of amounts of light in the three primaries of sRGB (before its curve), of any size and sign."""
    return OKLab(*_times(_LAB_FROM_ROOTS, _each(_times(_LMS_FROM_LINEAR, parts), cbrt)))


def srgb_from_oklab(colour: OKLab) -> Triple:
    """sRGB parts of a colour; below 0 or above 1 where a screen cannot show it."""
    return _each(light_from_oklab(colour), _curved)


def light_from_oklab(colour: OKLab) -> Triple:
    """Amounts of light in the three primaries of sRGB (before its curve), of any size and sign."""
    lms = _each(_times(_ROOTS_FROM_LAB, (colour.l, colour.a, colour.b)), lambda root: root**3)
    return _times(_LINEAR_FROM_LMS, lms)


def hex_of(colour: OKLab) -> str:
    """The nearest colour a screen can show, as #rrggbb: chroma is reduced, lightness and hue are kept."""
    return "#" + "".join(f"{round(part * 255):02x}" for part in srgb_from_oklab(_into_gamut(colour)))


def oklab_from_hex(text: str) -> OKLab:
    """OKLab of #rrggbb.

    Raises
    ------
    Refused
        If the text is not # and six hexadecimal digits.
    """
    digits = text.removeprefix("#")
    if len(text) != 7 or len(digits) != 6 or not all(digit in "0123456789abcdefABCDEF" for digit in digits):
        raise Refused(f"'{text}' is no colour.", todo="Write it as #rrggbb.")
    red, green, blue = (int(digits[at : at + 2], 16) / 255 for at in (0, 2, 4))
    return oklab_from_srgb(red, green, blue)


# Each row of the field: a lightness, and the chroma that no colour of the row exceeds. Pale, strong, dark.
_ROWS = ((0.90, 0.05), (0.80, 0.12), (0.66, 0.16), (0.52, 0.14), (0.38, 0.08))
_HUES = 12
_GREYS = 4


@cache
def swatches() -> tuple[OKLab, ...]:
    """A field of 64 colours to pick from, without names: rows of one lightness, columns of one hue.

    Computed, so that no colour is put forward: rows, columns and the chroma of a row are evenly laid out, and
    only where the screen cannot show a colour its chroma is less.
    """
    turns = [2 * pi * step / _HUES for step in range(_HUES)]
    field = [
        _into_gamut(OKLab(lightness, chroma * cos(turn), chroma * sin(turn)))
        for lightness, chroma in _ROWS
        for turn in turns
    ]
    greys = [OKLab(0.2 + 0.75 * step / (_GREYS - 1), 0.0, 0.0) for step in range(_GREYS)]
    return tuple(field + greys)


_HALVINGS = 20
_ROUNDING = 1e-6


def _into_gamut(colour: OKLab) -> OKLab:
    """The colour of the same lightness and hue with as much chroma as sRGB can show."""
    light = min(max(colour.l, 0.0), 1.0)
    low, high = 0.0, 1.0
    if _shown(OKLab(light, colour.a, colour.b)):
        low = 1.0
    else:
        for _ in range(_HALVINGS):
            middle = (low + high) / 2
            low, high = (
                (middle, high)
                if _shown(OKLab(light, colour.a * middle, colour.b * middle))
                else (low, middle)
            )
    return OKLab(light, colour.a * low, colour.b * low)


def _shown(colour: OKLab) -> bool:
    return all(-_ROUNDING <= part <= 1 + _ROUNDING for part in srgb_from_oklab(colour))


def _times(matrix: tuple[Triple, Triple, Triple], vector: Triple) -> Triple:
    x, y, z = vector
    first, second, third = (row[0] * x + row[1] * y + row[2] * z for row in matrix)
    return first, second, third


def _each(vector: Triple, function: Callable[[float], float]) -> Triple:
    return function(vector[0]), function(vector[1]), function(vector[2])


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.04045 else float(((part + 0.055) / 1.055) ** 2.4)


def _curved(part: float) -> float:
    return 12.92 * part if part <= 0.0031308 else float(1.055 * part ** (1 / 2.4) - 0.055)
