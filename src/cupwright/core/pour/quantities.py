"""Quantities as people type them: a number with its unit. Without a unit nothing is guessed.

200ml  0.2 L  7floz        volume (fluid ounces of the United States)
11g  0.39oz                mass
93C  199.4F                temperature
1500m  4900ft              height
55g/L  18:1  1:18          ratio; 18:1 is 18 mL of water for 1 g of coffee
"""

import re
from collections.abc import Callable, Mapping
from decimal import Decimal

from cupwright.core.pour.units import GRAMS_PER_OUNCE, METRES_PER_FOOT, ML_PER_FLUID_OUNCE
from cupwright.errors import Refused

_NUMBER = re.compile(r"\s*([+-]?(?:\d+\.?\d*|\.\d+))\s*(.*?)\s*", re.DOTALL)
_SIDES = re.compile(r"\s*(\d+\.?\d*|\.\d+)\s*:\s*(\d+\.?\d*|\.\d+)\s*")
_MOST_DIGITS = 40

_Units = Mapping[str, Callable[[Decimal], Decimal]]

_VOLUMES: _Units = {
    "ml": lambda number: number,
    "cl": lambda number: number * 10,
    "l": lambda number: number * 1000,
    "floz": lambda number: number * ML_PER_FLUID_OUNCE,
}
_MASSES: _Units = {
    "g": lambda number: number,
    "kg": lambda number: number * 1000,
    "oz": lambda number: number * GRAMS_PER_OUNCE,
}
_TEMPERATURES: _Units = {
    "c": lambda number: number,
    "f": lambda number: (number - 32) * 5 / 9,
}
_HEIGHTS: _Units = {"m": lambda number: number, "ft": lambda number: number * METRES_PER_FOOT}
_RATIOS: _Units = {"g/l": lambda number: number, "g/ml": lambda number: number * 1000}


def volume_ml(text: str, *, of: str = "The volume") -> float:
    """Millilitres. Raises Refused for anything but a number above 0 with mL, cl, L or floz."""
    return _above_nought(_quantity(text, _VOLUMES, of, "200ml or 7floz"), text, of)


def mass_g(text: str, *, of: str = "The weight") -> float:
    """Grams. Raises Refused for anything but a number above 0 with g, kg or oz."""
    return _above_nought(_quantity(text, _MASSES, of, "0.1g or 0.01oz"), text, of)


def temperature_c(text: str, *, of: str = "The temperature") -> float:
    """Degrees Celsius. Raises Refused for anything but a number with C or F."""
    return float(_quantity(text, _TEMPERATURES, of, "93C or 200F"))


def height_m(text: str, *, of: str = "The altitude") -> float:
    """Metres. Raises Refused for anything but a number with m or ft."""
    return float(_quantity(text, _HEIGHTS, of, "1500m or 4900ft"))


def ratio_g_per_l(text: str, *, of: str = "The ratio") -> float:
    """Grams of coffee for a litre of water, from 55g/L, 18:1 or 1:18; one side of a : is 1.

    Raises
    ------
    Refused
        For anything else.
    """
    sides = _SIDES.fullmatch(text[:_MOST_DIGITS])
    if sides is None or len(text) > _MOST_DIGITS:
        return _above_nought(_quantity(text, _RATIOS, of, "55g/L or 18:1"), text, of)
    left, right = Decimal(sides[1]), Decimal(sides[2])
    if 1 not in (left, right) or 0 in (left, right) or left == right:
        raise Refused(
            f"{of} '{text.strip()}' does not say how much water goes to 1 g of coffee.",
            todo="Write it as 18:1.",
        )
    return float(1000 / max(left, right))


def _quantity(text: str, units: _Units, of: str, example: str) -> Decimal:
    found = _NUMBER.fullmatch(text) if len(text) <= _MOST_DIGITS else None
    if found is None:
        raise Refused(
            f"{of} '{text.strip()[:_MOST_DIGITS]}' is not a number with its unit.", todo=f"Write {example}."
        )
    if found[2].startswith(","):
        raise Refused(
            f"{of} '{text.strip()}' has a comma.", todo="Write 1.5 with a point, and 1500 without a mark."
        )
    unit = found[2].lower().lstrip("°").replace(" ", "").replace(".", "")
    if not unit:
        raise Refused(f"{of} {found[1]} has no unit.", todo=f"Write {example}.")
    if unit not in units:
        raise Refused(f"{of} cannot be in '{found[2]}'{_hint(unit, units)}.", todo=f"Write {example}.")
    return units[unit](Decimal(found[1]))


def _hint(unit: str, units: _Units) -> str:
    """What a unit of another kind measures."""
    if unit == "oz" and units is _VOLUMES:
        return ", an ounce of weight"
    for others, what in (
        (_VOLUMES, "a volume"),
        (_MASSES, "a weight"),
        (_TEMPERATURES, "a temperature"),
        (_HEIGHTS, "a length"),
    ):
        if unit in others:
            return f", which is {what}"
    return ""


def _above_nought(number: Decimal, text: str, of: str) -> float:
    if number <= 0:
        raise Refused(f"{of} '{text.strip()}' is not above 0.", todo="Give a number above 0.")
    return float(number)
