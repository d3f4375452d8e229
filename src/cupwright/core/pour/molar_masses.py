"""Molar masses: of the ions in water and of the salts in a concentrate, from standard atomic weights.

Source: [IUPAC2007], the last edition with one value for each of these elements. Since 2009 several have an
interval, because nature varies; each value here lies within it [CIAAW2021]. What that leaves open is below
0.03 % of any mass used here.
"""

from collections.abc import Mapping
from types import MappingProxyType

# g/mol
ATOMIC_WEIGHTS: Mapping[str, float] = MappingProxyType(
    {
        "H": 1.00794,
        "C": 12.0107,
        "N": 14.0067,
        "O": 15.9994,
        "Na": 22.98976928,
        "Mg": 24.3050,
        "S": 32.065,
        "Cl": 35.453,
        "K": 39.0983,
        "Ca": 40.078,
    }
)


def molar_mass(**atoms: int) -> float:
    """Grams a mole of so many atoms of each element: molar_mass(Ca=1, C=1, O=3) is 100.0869."""
    return sum(ATOMIC_WEIGHTS[element] * many for element, many in atoms.items())


CALCIUM_CARBONATE = molar_mass(Ca=1, C=1, O=3)
CALCIUM_OXIDE = molar_mass(Ca=1, O=1)

# g/mol, and how many charges an ion carries
ION_MASS: Mapping[str, float] = MappingProxyType(
    {
        "calcium": molar_mass(Ca=1),
        "magnesium": molar_mass(Mg=1),
        "sodium": molar_mass(Na=1),
        "potassium": molar_mass(K=1),
        "bicarbonate": molar_mass(H=1, C=1, O=3),
        "chloride": molar_mass(Cl=1),
        "sulphate": molar_mass(S=1, O=4),
        "nitrate": molar_mass(N=1, O=3),
    }
)
ION_CHARGE: Mapping[str, int] = MappingProxyType(
    {
        "calcium": 2,
        "magnesium": 2,
        "sodium": 1,
        "potassium": 1,
        "bicarbonate": 1,
        "chloride": 1,
        "sulphate": 2,
        "nitrate": 1,
    }
)


def equivalent_mass(ion: str) -> float:
    """Grams of an ion that carry one mole of charge."""
    return ION_MASS[ion] / ION_CHARGE[ion]
