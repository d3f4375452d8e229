"""Newton's law of cooling: one rate for one cup, as tables in textbooks use it.

    T(t) = room + (start - room) e^(-k t)

The model of the program (cooling.py) adds evaporation, which makes k fall as the cup cools; without it the
two are the same, and tests hold the one against the other. Times in minutes, temperatures in °C, k in 1/min.
"""

import math

from cupwright.errors import Refused


def newton_rate(start_c: float, room_c: float, reading_c: float, minutes: float) -> float:
    """The rate k in 1/min from one reading: ln((start - room) / (reading - room)) / minutes.

    Raises
    ------
    Refused
        Unless start > reading > room and the reading lies after the start.
    """
    if not (start_c > reading_c > room_c and minutes > 0):
        raise Refused(
            f"A cup of {start_c:g} °C in a room of {room_c:g} °C cannot cool to {reading_c:g} °C in "
            f"{minutes:g} min.",
            todo="Check the reading, and the temperature of the room.",
        )
    return math.log((start_c - room_c) / (reading_c - room_c)) / minutes


def newton_minutes(start_c: float, room_c: float, rate: float, celsius: float) -> float:
    """After how many minutes a cup has that temperature; infinite for the room's own and below."""
    if celsius <= room_c:
        return math.inf
    return math.log((start_c - room_c) / (celsius - room_c)) / rate


def newton_celsius(start_c: float, room_c: float, rate: float, minutes: float) -> float:
    """The temperature after some minutes."""
    return room_c + (start_c - room_c) * math.exp(-rate * minutes)
