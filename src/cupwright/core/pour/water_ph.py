"""The pH of water: what can be computed of it, and what cannot.

pH follows from alkalinity and from the carbon dioxide that is dissolved at that moment, and no analysis of
hardness and alkalinity says how much that is: water from a tap or a bottle holds more than air would leave
in it, deionised water takes it up within minutes, boiling drives it out. So the pH of a fresh mix is not
computed here. What can be computed is where the mix ends when it has stood in air for hours.

Source: open carbonate system [StummMorgan1996], constants at 25 °C: pKH 1.47, pK1 6.35, pK2 10.33, pKw 14.00.
"""

import math

from scipy.optimize import brentq

from cupwright.core.pour.molar_masses import CALCIUM_CARBONATE
from cupwright.errors import Refused

AIR_CO2_ATM = 4.2e-4

_KH, _K1, _K2, _KW = 10**-1.47, 10**-6.35, 10**-10.33, 1e-14


def ph_in_air(alkalinity: float, *, co2_atm: float = AIR_CO2_ATM) -> float:
    """The pH at which water of that alkalinity rests in open air at 25 °C.

    Parameters
    ----------
    alkalinity : float >= 0
        mg/L as CaCO3.
    co2_atm : float > 0
        Partial pressure of carbon dioxide.

    Returns
    -------
    float
        5.6 for pure water, 8.1 for 40 mg/L, 8.6 for 130.

    Raises
    ------
    Refused
        If the alkalinity is negative or not a number.

    Notes
    -----
    Error: 0.1 from the constants and from ionic strength; a room with people in it holds two or three times
    the carbon dioxide of fresh air and lowers it by 0.3 to 0.5. Above 150 mg/L or so chalk may settle
    first.
    Source: charge balance of the open carbonate system, [StummMorgan1996].
    """
    if not (math.isfinite(alkalinity) and alkalinity >= 0):
        raise Refused(f"An alkalinity cannot be {alkalinity:g}.", todo="Give 0 or more.", about="alkalinity")
    held = alkalinity / 1000 / (CALCIUM_CARBONATE / 2)
    dissolved = _KH * co2_atm

    def charge(ph: float) -> float:
        h = 10.0**-ph
        return float(held + h - _K1 * dissolved / h - 2 * _K1 * _K2 * dissolved / h**2 - _KW / h)

    return float(brentq(charge, 2.0, 12.0, xtol=1e-10))
