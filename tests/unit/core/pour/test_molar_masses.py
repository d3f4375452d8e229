"""Molar masses of ions."""

import pytest

from cupwright.core.pour.molar_masses import ION_CHARGE, ION_MASS, equivalent_mass, molar_mass


def test_a_molar_mass_adds_up_its_atoms():
    assert molar_mass(H=2, O=1) == pytest.approx(18.01528)


def test_every_ion_has_a_charge():
    assert ION_MASS.keys() == ION_CHARGE.keys()


def test_an_equivalent_carries_one_charge():
    assert equivalent_mass("calcium") == pytest.approx(20.039)
    assert equivalent_mass("sodium") == ION_MASS["sodium"]
