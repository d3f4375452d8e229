"""The heat balance at the pour: hot water, cold grounds and a cold vessel meet at one temperature.

Source: conservation of heat. 4.18 J/(g K) for water, a textbook value that holds within 0.6 % from 20 to 93
°C; 1.9 J/(g K) for ground coffee from memory.
"""

from collections.abc import Iterable

WATER_J_G_K = 4.18
GROUNDS_J_G_K = 1.9


def mixed_c(parts: Iterable[tuple[float, float]]) -> float:
    """The common temperature in °C of parts given as (J/K, °C).

    Notes
    -----
    Error: nothing is lost to the room meanwhile, and all of each part takes part. A bowl needs about a minute
    to warm through.
    """
    parts = tuple(parts)
    return sum(heat * celsius for heat, celsius in parts) / sum(heat for heat, _ in parts)


def poured_c(
    water_g: float, water_c: float, grounds_g: float, vessel_j_k: float, room_c: float
) -> tuple[float, float]:
    """What a bowl is at after its pour, °C, and its heat capacity, J/K. All but the water starts at
    `room_c`."""
    water, grounds = water_g * WATER_J_G_K, grounds_g * GROUNDS_J_G_K
    start = mixed_c(((water, water_c), (grounds, room_c), (vessel_j_k, room_c)))
    return start, water + grounds + vessel_j_k
