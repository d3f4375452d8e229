"""Mineral concentrates: so many grams of named salts in a litre of deionised water, and the ions that gives.

A concentrate is dosed by weight. The salts are taken to add no volume to their litre of water, so that
millilitres and grams agree by one density; the dose of ions by weight does not depend on that at all.

Source: molar masses from [IUPAC2007]; solubilities from memory (handbook values at 20 °C, rounded down).
Error: by volume about 2 % at 50 g/L, as salts do add a little volume; by weight that of the scale and the
salt's purity. Magnesium chloride draws water from the air and weighs more than it is.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from types import MappingProxyType

from cupwright.core.pour.molar_masses import CALCIUM_CARBONATE, ION_MASS, molar_mass
from cupwright.core.pour.water import Water
from cupwright.errors import Refused

WATER_G_PER_L = 998.2  # at 20 °C [IAPWS-IF97]

_WATER = molar_mass(H=2, O=1)


@dataclass(frozen=True, slots=True)
class Salt:
    """A salt as it is sold: grams a mole, ions of one formula, and grams that a litre dissolves at 20 °C."""

    name: str
    formula: str
    molar_mass: float
    ions: Mapping[str, int]
    soluble_g: float
    also: tuple[str, ...] = ()


def _salt(
    name: str,
    formula: str,
    ions: dict[str, int],
    soluble_g: float,
    *,
    water: int = 0,
    also: tuple[str, ...] = (),
) -> Salt:
    mass = sum(ION_MASS[ion] * many for ion, many in ions.items()) + water * _WATER
    return Salt(name, formula, mass, MappingProxyType(ions), soluble_g, also)


SALTS: tuple[Salt, ...] = (
    _salt(
        "Epsom salt",
        "MgSO4·7H2O",
        {"magnesium": 1, "sulphate": 1},
        700,
        water=7,
        also=("magnesium sulphate heptahydrate", "magnesium sulfate heptahydrate", "bitter salt"),
    ),
    _salt(
        "magnesium sulphate, anhydrous",
        "MgSO4",
        {"magnesium": 1, "sulphate": 1},
        330,
        also=("magnesium sulfate anhydrous",),
    ),
    _salt("magnesium chloride hexahydrate", "MgCl2·6H2O", {"magnesium": 1, "chloride": 2}, 1100, water=6),
    _salt("calcium chloride, anhydrous", "CaCl2", {"calcium": 1, "chloride": 2}, 700),
    _salt("calcium chloride dihydrate", "CaCl2·2H2O", {"calcium": 1, "chloride": 2}, 950, water=2),
    _salt(
        "calcium sulphate dihydrate",
        "CaSO4·2H2O",
        {"calcium": 1, "sulphate": 1},
        2.4,
        water=2,
        also=("gypsum",),
    ),
    _salt(
        "sodium bicarbonate",
        "NaHCO3",
        {"sodium": 1, "bicarbonate": 1},
        95,
        also=("baking soda", "sodium hydrogen carbonate", "bicarbonate of soda"),
    ),
    _salt(
        "potassium bicarbonate",
        "KHCO3",
        {"potassium": 1, "bicarbonate": 1},
        330,
        also=("potassium hydrogen carbonate",),
    ),
    _salt("sodium chloride", "NaCl", {"sodium": 1, "chloride": 1}, 350, also=("table salt", "kitchen salt")),
    _salt("potassium chloride", "KCl", {"potassium": 1, "chloride": 1}, 340),
)

# Names that say too little: a gram of one kind holds up to twice the ions of the other.
_MAGNESIUM_SULPHATE = "Epsom salt, which has seven waters, or magnesium sulphate, anhydrous"
_CALCIUM_CHLORIDE = "calcium chloride, anhydrous or calcium chloride dihydrate"
_EITHER = {
    "magnesiumsulphate": _MAGNESIUM_SULPHATE,
    "mgso4": _MAGNESIUM_SULPHATE,
    "magnesiumchloride": "magnesium chloride hexahydrate, if it is the one with six waters",
    "mgcl2": "magnesium chloride hexahydrate, if it is the one with six waters",
    "calciumchloride": _CALCIUM_CHLORIDE,
    "cacl2": _CALCIUM_CHLORIDE,
}


def salt_called(written: str) -> Salt:
    """A salt by its name or formula.

    Raises
    ------
    Refused
        If it is not known, or if the name leaves open how much water the crystals hold.
    """
    wanted = _bare(written)
    spelled = {_bare(name): salt for salt in SALTS for name in (salt.name, salt.formula, *salt.also)}
    if wanted in _EITHER:
        message = f"'{written.strip()}' does not say how much water its crystals hold."
        raise Refused(message, todo=f"Say {_EITHER[wanted]}.", about="salts")
    if wanted in spelled:
        return spelled[wanted]
    close = get_close_matches(wanted, spelled, n=1, cutoff=0.6)
    names = ", ".join(salt.name for salt in SALTS)
    hint = f"Did you mean {spelled[close[0]].name}?" if close else f"Name one of {names}."
    raise Refused(f"There is no salt '{written.strip()[:40]}' here.", todo=hint, about="salts")


def _bare(written: str) -> str:
    plain = written.casefold().replace("sulfate", "sulphate")
    return "".join(letter for letter in plain if letter.isalnum())


@dataclass(frozen=True, slots=True)
class Concentrate:
    """`per_ml` is what a millilitre brings into one litre: mg, hardness and alkalinity as CaCO3."""

    name: str
    salts: tuple[tuple[Salt, float], ...]
    per_ml: Water

    @property
    def salt_g(self) -> float:
        """Grams of all salts in its litre of water."""
        return sum(grams for _, grams in self.salts)

    @property
    def g_per_ml(self) -> float:
        """Its density under the convention of this module."""
        return (WATER_G_PER_L + self.salt_g) / 1000


def concentrate(name: str, salts: Mapping[str, float]) -> Concentrate:
    """A concentrate from its recipe.

    Parameters
    ----------
    name : str
        What stands on the bottle.
    salts : mapping
        Name of a salt to grams in one litre of deionised water.

    Raises
    ------
    Refused
        For no salts at all, an unknown one, one named twice, grams that are not a number above 0, or more
        than dissolves.
    """
    if not salts:
        raise Refused(
            f"Concentrate {name} holds no salt.",
            todo="Name its salts and their grams a litre.",
            about="salts",
        )
    found = [(salt_called(written), grams) for written, grams in salts.items()]
    for salt, grams in found:
        _check(name, salt, grams)
    if len({salt.name for salt, _ in found}) < len(found):
        raise Refused(f"Concentrate {name} names a salt twice.", todo="Add its grams up.", about="salts")
    return Concentrate(name, tuple(found), _per_ml(name, found))


def _check(name: str, salt: Salt, grams: float) -> None:
    if not (math.isfinite(grams) and grams > 0):
        raise Refused(
            f"Concentrate {name} cannot hold {grams:g} g of {salt.name}.",
            todo="Give grams above 0 for one litre of deionised water.",
            about="salts",
        )
    if grams > salt.soluble_g:
        raise Refused(
            f"{grams:g} g of {salt.name} do not dissolve in a litre of water; about {salt.soluble_g:g} g "
            "do at 20 °C.",
            todo="Make it weaker.",
            about="salts",
        )


def _per_ml(name: str, salts: list[tuple[Salt, float]]) -> Water:
    """Grams in a litre are milligrams in a millilitre."""
    mmol: dict[str, float] = dict.fromkeys(ION_MASS, 0.0)
    for salt, grams in salts:
        for ion, many in salt.ions.items():
            mmol[ion] += grams / salt.molar_mass * many
    calcium, magnesium = mmol["calcium"] * CALCIUM_CARBONATE, mmol["magnesium"] * CALCIUM_CARBONATE
    ions = ("sodium", "potassium", "chloride", "sulphate", "nitrate")
    return Water(
        name=name,
        hardness=calcium + magnesium,
        calcium=calcium,
        magnesium=magnesium,
        alkalinity=mmol["bicarbonate"] * CALCIUM_CARBONATE / 2,
        **{ion: mmol[ion] * ION_MASS[ion] for ion in ions},
        tds=sum(mmol[ion] * mass for ion, mass in ION_MASS.items()),
        chlorine=0.0,
    )


def concentrate_complaints(made: Concentrate) -> tuple[str, ...]:
    """What may fall out of a concentrate before it is used; one sentence each."""
    ions = {ion for salt, _ in made.salts for ion in salt.ions}
    found = []
    if {"calcium", "bicarbonate"} <= ions:
        found.append(
            f"Calcium and bicarbonate together settle as chalk in concentrate {made.name}; keep them apart."
        )
    elif {"magnesium", "bicarbonate"} <= ions:
        found.append(
            f"Concentrate {made.name} may turn cloudy, as magnesium and bicarbonate are together; keep "
            "them apart."
        )
    if {"calcium", "sulphate"} <= ions and len(made.salts) > 1:
        found.append(
            f"Calcium and sulphate together settle as gypsum in concentrate {made.name}; keep them apart."
        )
    return tuple(found)


CAUTIONS: tuple[str, ...] = (
    "Use food-grade salts only; garden, bath or de-icing grades may hold what must not be drunk.",
    "Never drink a concentrate: label it, keep it from children, and weigh each dose twice. Epsom salt "
    "is a laxative "
    "and potassium salts are a danger to some hearts and kidneys; if unsure, or on a diet low in salt, "
    "ask a doctor.",
    "Anhydrous calcium chloride heats water as it dissolves and irritates the eyes: add it slowly to "
    "cold water.",
)


def cautions_for(used: tuple[Concentrate, ...]) -> tuple[str, ...]:
    """The cautions that concern these concentrates; none without any."""
    formulas = {salt.formula for made in used for salt, _ in made.salts}
    return (CAUTIONS if "CaCl2" in formulas else CAUTIONS[:2]) if used else ()
