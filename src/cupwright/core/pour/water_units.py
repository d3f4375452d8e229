"""Units of water: hardness and alkalinity in all the ways laboratories print them, and dissolved ions.

Inside the program hardness and alkalinity are mg/L as CaCO3, everything else is mg/L; pH has no unit. A
number without its unit is refused, and so is a unit that says two things: "mg/L" alone of a hardness (of
CaCO3 or of the ion? 2.5 times apart), "mmol/L" alone of an alkalinity (of CaCO3 or of charge? twice apart).

Source: the degrees by definition: 1 °dH is 10 mg/L CaO [DIN38409-6], 1 °f is 10 mg/L CaCO3, 1 °Clark is a
grain in an imperial gallon, 1 gpg a grain in a US gallon [NIST-HB44]; molar masses from molar_masses.py. The
factors agree with a printed table (docs/methods/water.md); some pages print 1 °dH = 10 mg/L or 1 gpg =
17.848 mg/L, which is wrong.
Error: that of the atomic weights, below 0.01 %.
"""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from types import MappingProxyType

from cupwright.core.pour.molar_masses import CALCIUM_CARBONATE, CALCIUM_OXIDE, ION_MASS, equivalent_mass
from cupwright.errors import Refused

GRAIN_MG = 64.79891
US_GALLON_L = 3.785411784
IMPERIAL_GALLON_L = 4.54609

AS_CACO3 = "mg/L CaCO3"
MG_PER_L = "mg/L"
EQUIVALENTS = ("hardness", "calcium", "magnesium", "alkalinity")
IONS = ("sodium", "potassium", "chloride", "sulphate", "nitrate")
PARAMETERS = (*EQUIVALENTS, *IONS, "tds", "chlorine", "ph")

# mg/L as CaCO3 of one meq/L
_PER_MEQ = CALCIUM_CARBONATE / 2


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit, how else it is written, and what one of it is in the program's own unit."""

    name: str
    factor: float
    also: tuple[str, ...] = ()


_HARDNESS_UNITS = (
    Unit(AS_CACO3, 1.0, ("ppm CaCO3",)),
    Unit("°dH", 10 * CALCIUM_CARBONATE / CALCIUM_OXIDE, ("dH", "°d", "dGH", "°dGH")),
    Unit("°f", 10.0, ("f", "fH", "°fH")),
    Unit("°Clark", GRAIN_MG / IMPERIAL_GALLON_L, ("Clark", "°e", "e", "eH")),
    Unit("gpg", GRAIN_MG / US_GALLON_L, ("grains/gal", "gr/gal")),
    Unit("mmol/L", CALCIUM_CARBONATE, ("mmol/L CaCO3",)),
    Unit("meq/L", _PER_MEQ, ("mval/L",)),
)
_ALKALINITY_UNITS = (
    *(unit for unit in _HARDNESS_UNITS if unit.name not in {"°dH", "mmol/L"}),
    Unit("°dKH", 10 * CALCIUM_CARBONATE / CALCIUM_OXIDE, ("dKH", "KH", "dH", "°dH", "°d")),
    Unit("mmol/L CaCO3", CALCIUM_CARBONATE),
    Unit("mmol/L HCO3", _PER_MEQ, ("mmol/L HCO3-",)),
    Unit("mg/L HCO3", _PER_MEQ / ION_MASS["bicarbonate"], ("mg/L HCO3-", "ppm HCO3", "mg/L bicarbonate")),
)


def _of_ion(ion: str, symbol: str) -> tuple[Unit, ...]:
    unit = Unit(f"mg/L {symbol}", _PER_MEQ / equivalent_mass(ion), (f"mg/L {symbol}2+", f"ppm {symbol}"))
    return (*_HARDNESS_UNITS, unit)


def _ion_units(ion: str) -> tuple[Unit, ...]:
    mass = ION_MASS[ion]
    return (
        Unit(MG_PER_L, 1.0, ("ppm",)),
        Unit("mmol/L", mass),
        Unit("meq/L", equivalent_mass(ion), ("mval/L",)),
    )


UNITS: Mapping[str, tuple[Unit, ...]] = MappingProxyType(
    {
        "hardness": _HARDNESS_UNITS,
        "calcium": _of_ion("calcium", "Ca"),
        "magnesium": _of_ion("magnesium", "Mg"),
        "alkalinity": _ALKALINITY_UNITS,
        **{ion: _ion_units(ion) for ion in IONS},
        "tds": (Unit(MG_PER_L, 1.0, ("ppm",)),),
        "chlorine": (Unit(MG_PER_L, 1.0, ("ppm",)),),
        "ph": (Unit("", 1.0, ("pH",)),),
    }
)

_NUMBER = re.compile(
    r"\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?|[+-]?(?:nan|inf(?:inity)?))(.*)", re.I | re.S
)
_AS = re.compile(r"\bas\b", re.I)
_SUBSCRIPTS = str.maketrans("₂₃⁺⁻²−", "23+-2-")


def read_amount(text: str, parameter: str) -> float:
    """A number with its unit, as "12 °dH", in the program's own unit.

    Raises
    ------
    Refused
        If there is no number, no unit, two of them, or one that does not fit the parameter.
    """
    value, unit = split_amount(text, parameter)
    return to_own_unit(value, unit, parameter)


def split_amount(text: str, parameter: str) -> tuple[float, str]:
    """The number and what is written after it. Raises Refused if there is no number or a second one."""
    match = _NUMBER.fullmatch(text.replace("−", "-"))
    if match is None:
        raise Refused(
            f"The {_said(parameter)} '{text.strip()[:40]}' is not a number with a unit.",
            todo=f"Write it as in {_example(parameter)}.",
            about=parameter,
        )
    value, unit = float(match[1]), match[2].strip()
    if re.search(r"(?:^|[\s+;,&|])\d|[;,&|]|\band\b", unit):
        raise Refused(
            f"The {_said(parameter)} '{text.strip()[:40]}' mixes two numbers or units.",
            todo=f"Give one, as in {_example(parameter)}, with a point for decimals.",
            about=parameter,
        )
    return value, unit


def to_own_unit(value: float, unit: str, parameter: str) -> float:
    """A value in the program's own unit: mg/L as CaCO3 for hardness and alkalinity, else mg/L.

    Raises
    ------
    Refused
        If the value is negative or not finite, or the unit is missing, unknown or of something else.
    """
    if not math.isfinite(value) or value < 0:
        raise Refused(
            f"The {_said(parameter)} of a water cannot be {value:g}.",
            todo="Give a number of 0 or more.",
            about=parameter,
        )
    own = value * unit_called(unit, parameter).factor
    if not math.isfinite(own):
        raise Refused(f"The {_said(parameter)} of a water cannot be {value:g}.", about=parameter)
    return own


def unit_called(written: str, parameter: str) -> Unit:
    """The unit of a parameter by one of its spellings; case, blanks and "as" do not matter."""
    known = UNITS[parameter]
    wanted = _bare(written)
    for unit in known:
        if wanted in map(_bare, (unit.name, *unit.also)):
            return unit
    raise _no_such_unit(written, wanted, parameter)


def _bare(written: str) -> str:
    plain = _AS.sub(" ", written.translate(_SUBSCRIPTS))
    bare = re.sub(r"[\s°+_*]", "", plain).casefold()
    return bare.replace("milligrams", "mg").replace("/litre", "/l").replace("/liter", "/l").rstrip("-")


def _no_such_unit(written: str, wanted: str, parameter: str) -> Refused:
    names = [unit.name for unit in UNITS[parameter]]
    if wanted == "":
        message = f"The {_said(parameter)} has no unit."
    elif parameter in EQUIVALENTS and wanted in {"mg/l", "ppm"}:
        message = f"The {_said(parameter)} in {written.strip()} does not say of what: CaCO3 or the ion."
    elif parameter == "alkalinity" and wanted == "mmol/l":
        message = "The alkalinity in mmol/L does not say of what: HCO3 (as of acid) or CaCO3, twice as much."
    elif parameter == "ph":
        message = f"A pH has no unit, not '{written.strip()[:20]}'."
    elif (other := _owner(wanted)) and other != parameter:
        message = f"'{written.strip()}' is a unit of {_said(other)}, not of {_said(parameter)}."
    else:
        message = f"'{written.strip()[:30]}' is not a unit of {_said(parameter)}."
    close = get_close_matches(wanted, {_bare(name): name for name in names}, n=1, cutoff=0.7)
    if parameter == "ph":
        todo = "Give the number alone, as 7.2."
    elif wanted == "mmol/l":
        todo = "Write mmol/L HCO3, mmol/L CaCO3 or meq/L."
    elif close:
        todo = f"Did you mean {next(name for name in names if _bare(name) == close[0])}?"
    else:
        todo = f"Write one of {_one_of(names)}."
    return Refused(message, todo=todo, about=parameter)


def _owner(wanted: str) -> str:
    """The first parameter that has such a unit."""
    spelled = ((parameter, unit) for parameter, units in UNITS.items() for unit in units)
    return next((who for who, unit in spelled if wanted in map(_bare, (unit.name, *unit.also))), "")


def _one_of(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"


def _said(parameter: str) -> str:
    return {"tds": "TDS", "ph": "pH", "chlorine": "free chlorine"}.get(parameter, parameter)


def _example(parameter: str) -> str:
    if parameter == "ph":
        return "7.2"
    return f"120 {UNITS[parameter][0].name}" + (" or 6.7 °dH" if parameter in EQUIVALENTS else "")


def conversions(value: float, unit: str) -> dict[str, float]:
    """A hardness or alkalinity in every unit; in mg/L of an ion, as if that ion were all of it.

    Raises
    ------
    Refused
        If the unit is of neither, or does not say of what.
    """
    own = _own_of_any(value, unit)
    every = {one.name: one for parameter in EQUIVALENTS for one in UNITS[parameter]}
    shown = (one for one in every.values() if not one.name.startswith("mmol/L "))
    return {one.name: own / one.factor for one in shown if one.name != "°dKH"}


def _own_of_any(value: float, unit: str) -> float:
    for parameter in EQUIVALENTS:
        try:
            unit_called(unit, parameter)
        except Refused:
            continue
        return to_own_unit(value, unit, parameter)
    return to_own_unit(value, unit, "hardness")
