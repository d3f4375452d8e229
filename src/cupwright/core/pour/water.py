"""Water: an analysis as a laboratory or a label prints it, and whether it can be true.

Hardness and alkalinity in mg/L as CaCO3, ions, TDS and free chlorine in mg/L; None is not known. Total
hardness may stand alone: then how much of it is calcium is not known.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from difflib import get_close_matches

from cupwright.core.pour.molar_masses import CALCIUM_CARBONATE, equivalent_mass
from cupwright.core.pour.water_units import IONS, PARAMETERS, read_amount
from cupwright.errors import Refused

# How far sums may miss before it is said; ours. [StandardMethods1030] asks a laboratory for 0.2 meq/L and 2
# to 5 %, of a whole analysis; labels leave nitrate, potassium and silica out.
BALANCE_MEQ = 0.3
BALANCE_SHARE = 0.1
TDS_SHARE = 0.2
TDS_MG = 20.0

# More salt than the sea holds is a slip of the units.
MOST_MG = 100_000.0

# A household's tests of total hardness and of its parts do not meet to the last digit.
_SPLIT_SHARE = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """An analysis. Build one with `analysis()`, which checks it and completes what follows from the rest."""

    name: str = "water"
    hardness: float | None = None
    calcium: float | None = None
    magnesium: float | None = None
    alkalinity: float | None = None
    sodium: float | None = None
    potassium: float | None = None
    chloride: float | None = None
    sulphate: float | None = None
    nitrate: float | None = None
    tds: float | None = None
    chlorine: float | None = None
    ph: float | None = None

    def of(self, parameter: str) -> float | None:
        """One value by its name."""
        value: float | None = getattr(self, parameter)
        return value

    @property
    def known(self) -> tuple[str, ...]:
        """The parameters that have a value."""
        return tuple(parameter for parameter in PARAMETERS if self.of(parameter) is not None)


# Fresh from a resin or a still; its pH is whatever carbon dioxide makes it.
DEIONISED = Water(
    name="deionised water", **{field.name: 0.0 for field in fields(Water) if field.name not in {"name", "ph"}}
)


def read_analysis(name: str, written: Mapping[str, str]) -> Water:
    """An analysis from texts with units: {"hardness": "12 °dH", "pH": "7.4"}.

    Raises
    ------
    Refused
        For an unknown parameter, an amount that cannot be read, or an analysis that cannot be.
    """
    return analysis(name, {key: read_amount(text, key) for key, text in by_parameter(written).items()})


def by_parameter(written: Mapping[str, str]) -> dict[str, str]:
    """The same under the names of parameters. Raises Refused for an unknown or a repeated one."""
    found: dict[str, str] = {}
    for key, text in written.items():
        parameter = parameter_called(key)
        if parameter in found:
            raise Refused(f"'{parameter}' is given twice.", todo="Leave one out.", about=parameter)
        found[parameter] = text
    return found


def parameter_called(written: str) -> str:
    """A parameter by its name as people write it. Raises Refused if there is none."""
    bare = written.strip().casefold().replace("_", " ")
    parameter = _ALSO.get(bare, bare)
    if parameter in PARAMETERS:
        return parameter
    close = get_close_matches(bare, (*PARAMETERS, *_ALSO), n=1, cutoff=0.6)
    hint = (
        f"Did you mean {_ALSO.get(close[0], close[0])}?" if close else f"Name one of {', '.join(PARAMETERS)}."
    )
    raise Refused(f"'{written.strip()[:40]}' is not part of an analysis of water.", todo=hint)


_ALSO = {
    "total hardness": "hardness",
    "gh": "hardness",
    "calcium hardness": "calcium",
    "magnesium hardness": "magnesium",
    "ca": "calcium",
    "mg": "magnesium",
    "kh": "alkalinity",
    "carbonate hardness": "alkalinity",
    "bicarbonate": "alkalinity",
    "total alkalinity": "alkalinity",
    "na": "sodium",
    "k": "potassium",
    "cl": "chloride",
    "so4": "sulphate",
    "sulfate": "sulphate",
    "no3": "nitrate",
    "total dissolved solids": "tds",
    "free chlorine": "chlorine",
    "total chlorine": "chlorine",
    "cl2": "chlorine",
}


def analysis(name: str, values: Mapping[str, float]) -> Water:
    """A checked analysis; total hardness and its parts complete one another where two of three are known.

    Parameters
    ----------
    name : str
        What it is called on the screen.
    values : mapping
        Parameter to value in the program's own units.

    Raises
    ------
    Refused
        For a value that is not a number of 0 or more, a pH outside 0 to 14, more calcium than hardness, or
        nothing.
    """
    if not values:
        raise Refused(f"The analysis of {name} holds nothing.", todo="Give hardness and alkalinity at least.")
    for parameter, value in values.items():
        _check(name, parameter, value)
    return _with_split(Water(name=name, **values))


def _check(name: str, parameter: str, value: float) -> None:
    if not math.isfinite(value) or not 0 <= value <= MOST_MG:
        raise Refused(
            f"The {parameter} of {name} cannot be {value:g}.", todo=f"Give 0 to {MOST_MG:g}.", about=parameter
        )
    if parameter == "ph" and value > 14:
        raise Refused(f"The pH of {name} cannot be {value:g}.", todo="Give 0 to 14.", about=parameter)


def _with_split(water: Water) -> Water:
    total, calcium, magnesium = water.hardness, water.calcium, water.magnesium
    if calcium is not None and magnesium is not None:
        # What was measured part by part stands; a total that disagrees is complained of.
        return water if total is not None else replace(water, hardness=calcium + magnesium)
    part = calcium if calcium is not None else magnesium
    if total is None or part is None:
        return water
    if part > total * (1 + _SPLIT_SHARE):
        which = "calcium" if magnesium is None else "magnesium"
        raise Refused(
            f"The {which} of {water.name} ({part:.4g} mg/L as CaCO3) is more than its hardness "
            f"({total:.4g}).",
            todo="Check the units of both.",
            about=which,
        )
    rest = max(total - part, 0.0)
    return replace(water, magnesium=rest) if magnesium is None else replace(water, calcium=rest)


@dataclass(frozen=True, slots=True)
class Balance:
    """Charge in meq/L, positive and negative, as far as it is known; which ions were not given."""

    cations: float
    anions: float
    missing_cations: tuple[str, ...]
    missing_anions: tuple[str, ...]


def ion_balance(water: Water) -> Balance:
    """The sums of charge. Potassium and nitrate are left out of most labels and do not count as missing.

    Source: [StandardMethods1030]: in water the charges of all ions cancel.
    """
    per_caco3 = CALCIUM_CARBONATE / 2
    hardness = _total_hardness(water)
    cations = (hardness or 0.0) / per_caco3 + sum(_meq(water, ion) for ion in ("sodium", "potassium"))
    negative = ("chloride", "sulphate", "nitrate")
    anions = (water.alkalinity or 0.0) / per_caco3 + sum(_meq(water, ion) for ion in negative)
    return Balance(
        cations,
        anions,
        tuple(name for name, value in (("hardness", hardness), ("sodium", water.sodium)) if value is None),
        tuple(name for name in ("alkalinity", "chloride", "sulphate") if water.of(name) is None),
    )


def _total_hardness(water: Water) -> float | None:
    if water.calcium is not None and water.magnesium is not None:
        return water.calcium + water.magnesium
    return water.hardness


def _meq(water: Water, ion: str) -> float:
    return (water.of(ion) or 0.0) / equivalent_mass(ion)


def sum_of_ions(water: Water) -> tuple[float, float]:
    """Least and most mg/L of what is known: with bicarbonate as it is left by drying, and as it is dissolved.

    Of two bicarbonates one leaves as carbon dioxide and water when a sample is dried; where the split of a
    hardness is not known, the least takes it for magnesium and the most for calcium.
    """
    per_caco3 = CALCIUM_CARBONATE / 2
    hardness = _total_hardness(water) or 0.0
    calcium = water.calcium if water.calcium is not None else None
    low_calcium, high_calcium = (0.0, hardness) if calcium is None else (calcium, calcium)
    ions = sum(water.of(ion) or 0.0 for ion in IONS)
    alkalinity = (water.alkalinity or 0.0) / per_caco3
    carbonate = (equivalent_mass("bicarbonate") - 1.00794) / 2
    return (
        ions + _hardness_mg(low_calcium, hardness) + alkalinity * carbonate,
        ions + _hardness_mg(high_calcium, hardness) + alkalinity * equivalent_mass("bicarbonate"),
    )


def _hardness_mg(calcium: float, hardness: float) -> float:
    magnesium = max(hardness - calcium, 0.0)
    weighed = calcium * equivalent_mass("calcium") + magnesium * equivalent_mass("magnesium")
    return weighed / (CALCIUM_CARBONATE / 2)


def complaints(water: Water) -> tuple[str, ...]:
    """What cannot well be true of an analysis; one sentence each. Never a refusal: labels are often
    incomplete.

    Notes
    -----
    Error: the bounds are ours and wide. An analysis without complaint may be wrong all the same.
    """
    found = (_split_complaint(water), _balance_complaint(water), *_tds_complaints(water), _softened(water))
    return tuple(sentence for sentence in found if sentence)


def _split_complaint(water: Water) -> str:
    total, calcium, magnesium = water.hardness, water.calcium, water.magnesium
    if total is None or calcium is None or magnesium is None:
        return ""
    if abs(calcium + magnesium - total) <= _SPLIT_SHARE * max(total, calcium + magnesium) + 1:
        return ""
    return (
        f"The calcium and magnesium of {water.name} make {calcium + magnesium:.4g} mg/L as CaCO3, its "
        "hardness is "
        f"given as {total:.4g}; check the units."
    )


def _balance_complaint(water: Water) -> str:
    balance = ion_balance(water)
    allowed = BALANCE_MEQ + BALANCE_SHARE * (balance.cations + balance.anions)
    excess = balance.cations - balance.anions
    # An excess is only wrong if nothing that was left out could make up for it.
    if excess > allowed and not balance.missing_anions:
        more, less = "positive", "negative"
    elif -excess > allowed and not balance.missing_cations:
        more, less = "negative", "positive"
    else:
        return ""
    return (
        f"The ions of {water.name} do not balance: {balance.cations:.2f} meq/L are positive and "
        f"{balance.anions:.2f} negative, so a {less} ion is missing or a {more} one is too high; check units."
    )


def _tds_complaints(water: Water) -> tuple[str, ...]:
    if water.tds is None:
        return ()
    least, most = sum_of_ions(water)
    balance = ion_balance(water)
    complete = not balance.missing_cations and not balance.missing_anions
    if water.tds < least * (1 - TDS_SHARE) - TDS_MG:
        return (
            f"The TDS of {water.name} is {water.tds:.4g} mg/L, but its ions alone make {least:.4g} or more; "
            "check the units, or the meter.",
        )
    if complete and water.tds > most * (1 + TDS_SHARE) + TDS_MG:
        return (
            f"The TDS of {water.name} is {water.tds:.4g} mg/L, but its ions make only {most:.4g}; "
            "something is "
            "dissolved that the analysis does not name, or the meter is off.",
        )
    return ()


def _softened(water: Water) -> str:
    hardness = _total_hardness(water)
    if (
        hardness is None
        or water.alkalinity is None
        or water.sodium is not None
        or water.potassium is not None
    ):
        return ""
    if water.alkalinity <= hardness + BALANCE_MEQ * CALCIUM_CARBONATE / 2:
        return ""
    return (
        f"{water.name[:1].upper()}{water.name[1:]} has more alkalinity than hardness, so it holds sodium "
        "or potassium, "
        "as after a softener; give them too."
    )
