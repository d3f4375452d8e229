"""The heat balance at the pour: hot water, cold grounds and a cold vessel meet at one temperature.

Source: conservation of heat. 4.18 J/(g K) for water, a textbook value that holds within 0.6 % from 20 to 93
°C; 1.9 J/(g K) for ground coffee and 2.3 MJ/kg for evaporation near 80 °C from memory ([IAPWS-IF97] gives
2308 kJ/kg).
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


def evaporation_j_per_g(celsius: float) -> float:
    """Heat that a gram of water takes along as vapour, J/g. 80 °C: 2306.

    Source: the straight line between [IAPWS-IF97] at 0 and 100 °C (2501 and 2257 J/g), within 0.15 %.
    """
    return 2501.0 - 2.44 * celsius


def evaporated_k(evaporated_g: float, water_g: float, celsius: float) -> float:
    """By how many kelvin the loss of some vapour cools what is left, here without the vessel."""
    return evaporated_g * evaporation_j_per_g(celsius) / (water_g * WATER_J_G_K)
