"""A reading of a thermometer: whether it can be one of that bowl."""

import math

from cupwright.core.plan.table import Table
from cupwright.core.pour.boiling import boiling
from cupwright.core.pour.cup_temperature import CupTemperatures
from cupwright.errors import NotFound, Refused

_WARMEST_OVER_K = 0.6  # the weather's share of the boiling point
_SLACK_MS = 5_000


def checked_reading(table: Table, bowl: int, at: int, celsius: float, now: int) -> None:
    """Raises unless a bowl of the table can have had that temperature at that moment.

    Parameters
    ----------
    bowl : int
        In pouring order from 0.
    at, now : int
        Milliseconds of the server's clock since 1970.

    Raises
    ------
    NotFound
        If there is no such bowl.
    Refused
        For a temperature above boiling or below freezing, a moment before the bowl's pour or yet to come.
    """
    if not 0 <= bowl < len(table.bowls):
        raise NotFound(f"There is no bowl {bowl + 1}; this table has {len(table.bowls)}.")
    _check_temperature(table, celsius)
    poured = CupTemperatures(table).poured.get(bowl)
    if poured is None or at < poured:
        raise Refused(
            "A reading cannot lie before the pour of its bowl.", todo="Mark the pour first, or give the time."
        )
    if at > now + _SLACK_MS:
        raise Refused("A reading cannot lie in the future.", todo="Give the server's time, or none for now.")


def _check_temperature(table: Table, celsius: float) -> None:
    boils = boiling(table.plan.kettle_c, altitude_m=table.plan.altitude_m).boils_c
    if not math.isfinite(celsius):
        raise Refused(
            "The temperature is not a finite number.", todo="Give it in °C, as 68.5.", about="celsius"
        )
    if celsius > boils + _WARMEST_OVER_K:
        raise Refused(
            f"A bowl cannot be at {celsius:g} °C: water boils at {boils:.1f} °C there.",
            todo="Give the temperature in °C, not in °F.",
            about="celsius",
        )
    if celsius < 0:
        raise Refused(
            f"A bowl at {celsius:g} °C would be ice.", todo="Check the thermometer.", about="celsius"
        )
