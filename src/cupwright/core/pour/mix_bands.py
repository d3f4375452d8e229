"""What is asked of a mix, parameter by parameter: from a target, or from a published range."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from cupwright.core.pour.water import MOST_MG, Water
from cupwright.core.pour.water_ranges import Band, WaterRange, in_sentence, said
from cupwright.core.pour.water_units import PARAMETERS
from cupwright.errors import Refused

MIXED = tuple(parameter for parameter in PARAMETERS if parameter not in {"ph", "chlorine"})

# A target counts as met within a hundredth of it, or half a milligram: finer than any home test.
TARGET_SHARE = 0.01
TARGET_MG = 0.5


@dataclass(frozen=True, slots=True)
class Asked:
    """The bands a mix is held to; the parameters of a range that it cannot be held to, and why."""

    bands: tuple[Band, ...]
    not_held: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


def target_bands(target: Mapping[str, float]) -> Asked:
    """A band around each value of a target: what counts as met.

    Raises
    ------
    Refused
        For an empty target, one that mixing cannot set, or a value that cannot be.
    """
    if not target:
        raise Refused(
            "The target names nothing.", todo="Give hardness and alkalinity, for example.", about="target"
        )
    return Asked(tuple(_around(parameter, value) for parameter, value in target.items()))


def _around(parameter: str, value: float) -> Band:
    if parameter not in MIXED:
        why = "it follows from carbon dioxide" if parameter == "ph" else "active carbon takes it out"
        message = f"{said(parameter)} cannot be set by mixing; {why}."
        raise Refused(message, todo="Leave it out of the target.", about=parameter)
    if not (math.isfinite(value) and 0 <= value <= MOST_MG):
        message = f"The target for {in_sentence(parameter)} cannot be {value:g}."
        raise Refused(message, todo=f"Give 0 to {MOST_MG:g}.", about=parameter)
    allowed = max(value * TARGET_SHARE, TARGET_MG)
    return Band(parameter, max(value - allowed, 0.0), value + allowed, value)


def range_bands(into: WaterRange, waters: tuple[Water, ...]) -> Asked:
    """The bands of a range that mixing can hold.

    A band for calcium is held by the whole hardness where some water does not say how much of it is calcium.

    Raises
    ------
    Refused
        If nothing that the range asks for is known of all waters.
    """
    bands, not_held, notes = [], [], []
    for band in into.bands:
        if band.parameter not in MIXED:
            continue
        unknown = " and ".join(water.name for water in waters if water.of(band.parameter) is None)
        if not unknown:
            bands.append(band)
            continue
        not_held.append(band.parameter)
        if band.parameter == "calcium" and all(water.hardness is not None for water in waters):
            bands.append(Band("hardness", band.low, band.high, band.target, band.published))
            notes.append(
                f"How much of the hardness of {unknown} is calcium is not known: its whole hardness was held "
                "to the band for calcium."
            )
        else:
            notes.append(
                f"The {in_sentence(band.parameter)} of {unknown} is not known and was not held to its band."
            )
    if not bands:
        raise Refused(
            f"Nothing that {into.title} asks for is known of the waters.",
            todo="Give hardness and alkalinity of each.",
            about="sources",
        )
    return Asked(tuple(bands), tuple(not_held), tuple(notes))
