"""The trade's published ranges for brewing water, as data, and where a water lies in them.

Two tables are kept as they were published; they disagree, and neither is a law. Where a table says "at or
near" it prints no band: the band to mix into is then ours (within 10 mg/L), and `published` is False.

Source: [SCAA-water-2009] for "2009"; [SCA-water-2] for "newer". Hardness and alkalinity in mg/L as
CaCO3, else
mg/L.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from enum import StrEnum
from types import MappingProxyType

from cupwright.core.pour.water import Water
from cupwright.errors import Refused

# What "at or near" is read as, mg/L. Ours, no source.
NEAR = 10.0

# A mix that a solver laid on the very edge of a band is inside it.
_SLACK = 1e-6


@dataclass(frozen=True, slots=True)
class Band:
    """What a table asks of one parameter; `target` is None where only a range is printed."""

    parameter: str
    low: float
    high: float
    target: float | None = None
    published: bool = True

    @property
    def aim(self) -> float:
        """The target, or the middle of the band."""
        return (self.low + self.high) / 2 if self.target is None else self.target


@dataclass(frozen=True, slots=True)
class WaterRange:
    """One published table."""

    key: str
    title: str
    source: str
    bands: tuple[Band, ...]


def _near(parameter: str, target: float) -> Band:
    return Band(parameter, max(target - NEAR, 0.0), target + NEAR, target, published=False)


RANGES: Mapping[str, WaterRange] = MappingProxyType(
    {
        "2009": WaterRange(
            "2009",
            "the trade table of 2009",
            "SCAA-water-2009",
            (
                Band("tds", 75.0, 250.0, 150.0),
                # 1 to 5 grains; the target is 4 grains.
                Band("calcium", 17.0, 85.0, 68.0),
                _near("alkalinity", 40.0),
                Band("ph", 6.5, 7.5, 7.0),
                _near("sodium", 10.0),
                Band("chlorine", 0.0, 0.0, 0.0),
            ),
        ),
        "newer": WaterRange(
            "newer",
            "the newer trade chart",
            "SCA-water-2",
            # A second page prints 75 as the upper bound of alkalinity; the narrower one is kept.
            (Band("hardness", 50.0, 175.0), Band("alkalinity", 40.0, 70.0), Band("ph", 6.0, 8.0)),
        ),
    }
)


def range_called(key: str) -> WaterRange:
    """A published range by its key. Raises Refused with the keys there are."""
    found = RANGES.get(key.strip().casefold())
    if found is not None:
        return found
    close = get_close_matches(key, RANGES, n=1, cutoff=0.5)
    hint = f"Did you mean {close[0]}?" if close else f"Name one of {', '.join(RANGES)}."
    raise Refused(f"There is no published range '{key[:30]}'.", todo=hint, about="range")


class Verdict(StrEnum):
    """Where a value lies."""

    INSIDE = "inside"
    BELOW = "below"
    ABOVE = "above"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Judgement:
    """One parameter against its band.

    `low_value` and `high_value` are the value; they differ where only the total hardness is known, and
    calcium may be any part of it. `distance` is how far outside it lies (0 inside, None unknown),
    `from_target` how far from the target, signed.
    """

    band: Band
    low_value: float | None
    high_value: float | None
    verdict: Verdict
    distance: float | None
    from_target: float | None
    words: str


def judged(water: Water, against: WaterRange) -> tuple[Judgement, ...]:
    """Each band of a table: inside or outside, by how much, in words.

    Notes
    -----
    Error: that of the analysis; drop tests read to about a drop, 10 to 20 mg/L as CaCO3 (common practice,
    no source).
    """
    return tuple(_judgement(water, band) for band in against.bands)


def _judgement(water: Water, band: Band) -> Judgement:
    low, high = _value(water, band.parameter)
    if low is None or high is None:
        return Judgement(band, low, high, Verdict.UNKNOWN, None, None, f"{said(band.parameter)}: not known.")
    verdict, distance = _verdict(low, high, band)
    known = None if verdict is Verdict.UNKNOWN else distance
    off = low - band.target if band.target is not None and low == high else None
    return Judgement(band, low, high, verdict, known, off, _words(band, low, high, verdict, distance))


def _value(water: Water, parameter: str) -> tuple[float | None, float | None]:
    value = water.of(parameter)
    if value is None and parameter in {"calcium", "magnesium"} and water.hardness is not None:
        # Of a total alone each part may be anything from nothing to all of it.
        return 0.0, water.hardness
    return value, value


def _verdict(low: float, high: float, band: Band) -> tuple[Verdict, float]:
    if high < band.low - _SLACK:
        return Verdict.BELOW, band.low - high
    if low > band.high + _SLACK:
        return Verdict.ABOVE, low - band.high
    if band.low - _SLACK <= low and high <= band.high + _SLACK:
        return Verdict.INSIDE, 0.0
    return Verdict.UNKNOWN, 0.0


def _words(band: Band, low: float, high: float, verdict: Verdict, distance: float) -> str:
    asked = _asked(band)
    name, unit = said(band.parameter), unit_said(band.parameter)
    if verdict is Verdict.UNKNOWN:
        return (
            f"{name}: at most {number(high)}{unit}, its share of the hardness is not known; {asked} is asked."
        )
    value = f"{number(low)}{unit}" if low == high else f"{number(low)} to {number(high)}{unit}"
    if verdict is Verdict.INSIDE:
        return f"{name}: {value}, inside {asked}."
    return f"{name}: {value}, {number(distance)} {verdict.value} {asked}."


def _asked(band: Band) -> str:
    low, high = number(band.low), number(band.high)
    if not band.published:
        return f"'at or near' {number(band.aim)}, which is read here as {low} to {high}"
    return f"the {low} that it should be" if band.low == band.high else f"{low} to {high}"


def number(value: float) -> str:
    """A value as it is said: three digits, and never in powers of ten."""
    if value == 0:
        return "0"
    if abs(value) >= 100:
        return f"{value:.0f}"
    # Something just outside is not said to be nothing outside.
    if abs(value) < 0.01:
        return "less than 0.01" if value > 0 else "0"
    return f"{value:.3g}"


def said(parameter: str) -> str:
    """The name of a parameter at the start of a sentence."""
    return _SAID.get(parameter, parameter.capitalize())


def in_sentence(parameter: str) -> str:
    """The name of a parameter within a sentence: "calcium hardness", but "TDS" and "pH"."""
    name = said(parameter)
    return name if name[1:2].isupper() else name.lower()


def unit_said(parameter: str) -> str:
    """The unit as it follows a number."""
    if parameter == "ph":
        return ""
    return " mg/L as CaCO3" if parameter in {"hardness", "calcium", "magnesium", "alkalinity"} else " mg/L"


_SAID = {
    "hardness": "Total hardness",
    "calcium": "Calcium hardness",
    "magnesium": "Magnesium hardness",
    "tds": "TDS",
    "ph": "pH",
    "chlorine": "Free chlorine",
}
