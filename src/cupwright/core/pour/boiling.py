"""Boiling: how hot water can get where the table stands, and what arrives at the grounds.

Source: pressure by the standard atmosphere [ISO2533], boiling by [IAPWS-IF97]. What water loses between
kettle and grounds, 1 to 3 K: common practice, from memory. Weather moves the pressure by 2 kPa: from memory.
"""

import math
from dataclasses import dataclass
from decimal import Decimal

from cupwright.core.pour.steam_table import STANDARD_PRESSURE_PA, boiling_c, vapour_pressure_pa
from cupwright.core.pour.units import decimal, fahrenheit
from cupwright.errors import Refused

LOWEST_M, HIGHEST_M = -430.0, 5500.0  # the shore of the deepest lake, and above where people live
LOWEST_PA, HIGHEST_PA = 45_000.0, 112_000.0
POUR_LOSS_K = (1.0, 3.0)
WEATHER_PA = 2_000.0

_LAPSE_PER_M = 0.0065 / 288.15
_EXPONENT = 5.2559


@dataclass(frozen=True, slots=True)
class Boiling:
    """Water at one place. Metres (None where the pressure was measured), pascals, degrees Celsius.

    `kettle_c` is what was asked, `reached_c` what the water can have. `pour_low_c` to `pour_high_c` is what
    to expect at the grounds.
    """

    altitude_m: float | None
    pressure_pa: float
    boils_c: float
    kettle_c: float
    reached_c: float
    pour_low_c: float
    pour_high_c: float

    @property
    def reaches(self) -> bool:
        """Whether the kettle can be as hot as asked, on a day of high pressure at least."""
        return self.kettle_c <= boiling_c(self.pressure_pa + WEATHER_PA)


def pressure_at(altitude_m: float) -> float:
    """Pressure of the standard atmosphere in Pa, 101325 at sea level and 79496 at 2000 m.

    Raises
    ------
    Refused
        Unless the altitude lies in -430 to 5500 m.
    """
    if not LOWEST_M <= altitude_m <= HIGHEST_M:
        raise Refused(
            f"An altitude of {altitude_m:g} m is not one at which tables stand.",
            todo=f"Give {LOWEST_M:g} to {HIGHEST_M:g} m.",
        )
    return float(STANDARD_PRESSURE_PA * (1 - _LAPSE_PER_M * altitude_m) ** _EXPONENT)


def boiling(kettle_c: float, *, altitude_m: float = 0.0, pressure_pa: float | None = None) -> Boiling:
    """What a kettle set to `kettle_c` gives at an altitude, or under a measured pressure.

    Parameters
    ----------
    pressure_pa : float, optional
        The pressure of the place itself (not reduced to sea level); the altitude is not looked at then.

    Raises
    ------
    Refused
        For an altitude or a pressure that cannot be, or a kettle temperature that is not a number.

    Notes
    -----
    Error: by altitude ± 0.55 K, as the weather has it (2 kPa at sea level); else that of the barometer.
    """
    if not math.isfinite(kettle_c):
        raise Refused("The kettle temperature is not a finite number.", todo="Give it in °C, as 95.")
    pressure = pressure_at(altitude_m) if pressure_pa is None else _checked_pressure(pressure_pa)
    boils = boiling_c(pressure)
    reached = min(kettle_c, boils)
    least, most = POUR_LOSS_K
    place = altitude_m if pressure_pa is None else None
    return Boiling(place, pressure, boils, kettle_c, reached, reached - most, reached - least)


def highest_altitude(celsius: float) -> float:
    """The greatest altitude in m at which water of that temperature exists in an open kettle. 93 °C: 2094.

    The inverse of the standard atmosphere at the pressure of boiling.
    """
    ratio = vapour_pressure_pa(celsius) / STANDARD_PRESSURE_PA
    return float((1 - ratio ** (1 / _EXPONENT)) / _LAPSE_PER_M)


def off_at_grounds(water_c: float, low_c: float | None, high_c: float | None) -> Decimal:
    """By how many kelvin all that may arrive lies below (negative) or above a band at the grounds; else 0.

    Parameters
    ----------
    water_c : float
        In the kettle.
    low_c, high_c : float or None
        The band at the grounds; None where an end is open.

    Notes
    -----
    Error: the loss on the way is known to 1 to 3 K only, so whatever may lie within counts as within.
    """
    least, most = (decimal(loss) for loss in POUR_LOSS_K)
    if low_c is not None and decimal(water_c) - least < decimal(low_c):
        return decimal(water_c) - least - decimal(low_c)
    if high_c is not None and decimal(water_c) - most > decimal(high_c):
        return decimal(water_c) - most - decimal(high_c)
    return Decimal(0)


def at_grounds_in_words(water_c: float) -> str:
    """What arrives of water of that temperature: "92 to 94 °C at the grounds"."""
    least, most = (decimal(loss) for loss in POUR_LOSS_K)
    low, high = (f"{decimal(water_c) - loss:.1f}".removesuffix(".0") for loss in (most, least))
    return f"{low} to {high} °C at the grounds"


def boiling_warnings(place: Boiling, pour_c: tuple[float, float] | None) -> tuple[str, ...]:
    """Where the water cannot be as hot as asked, or as the standard wants it; whole sentences."""
    if place.reaches:
        return ()
    if pour_c is None or place.boils_c >= pour_c[0] + POUR_LOSS_K[0]:
        return (_too_hot(place),)
    return (_too_hot(place), _below(pour_c[0]))


def kettle_in_words(place: Boiling) -> str:
    """What the kettle can have comes first: "93 °C (199.4 °F)", or boiling there and what was wished."""
    if place.reaches:
        return f"{place.kettle_c:g} °C ({fahrenheit(place.kettle_c):.1f} °F)"
    had = f"{place.reached_c:.1f} °C ({fahrenheit(place.reached_c):.1f} °F)"
    return f"boiling, {had} there; {place.kettle_c:g} °C was wished"


def _too_hot(place: Boiling) -> str:
    return (
        f"The kettle cannot reach {place.kettle_c:g} °C: {_boils(place)}. Pour at once when it boils; "
        f"expect {place.pour_low_c:.0f} to {place.pour_high_c:.0f} °C at the grounds, and write down what "
        "you had."
    )


def _below(least_c: float) -> str:
    return (
        f"Above {highest_altitude(least_c + POUR_LOSS_K[0]):.0f} m no open kettle gives the standard's "
        f"{least_c:g} °C at the grounds; compare this table only with tables poured at the same place."
    )


def _boils(place: Boiling) -> str:
    measured = f"{place.pressure_pa / 1000:.1f} kPa"
    where = measured if place.altitude_m is None else f"{place.altitude_m:g} m"
    return f"at {where} water boils at {place.boils_c:.1f} °C"


def _checked_pressure(pressure_pa: float) -> float:
    if not LOWEST_PA <= pressure_pa <= HIGHEST_PA:
        raise Refused(
            f"An air pressure of {pressure_pa / 1000:g} kPa is not one at which tables stand.",
            todo=f"Give the pressure of the place itself, {LOWEST_PA / 1000:g} to {HIGHEST_PA / 1000:g} kPa.",
        )
    return pressure_pa
