"""Vessels: what a bowl, glass or cup takes from its water, and what it gives to the room.

All figures are for 200 mL and are assumptions unless a source is named: no measured set for cupping bowls
was found; [SCAA-standards] gives the opening, 76 to 89 mm. What is heated is the wall below the edge of the
liquid; a reading of a thermometer corrects the rest.
"""

from dataclasses import dataclass, replace

from cupwright.errors import Refused

REFERENCE_ML = 200.0


@dataclass(frozen=True, slots=True)
class Vessel:
    """One kind of vessel.

    `heated_g` grams of wall of `specific_j_g_k` J/(g K) are warmed by the pour. The liquid shows `open_cm2`
    to the air and touches `wall_cm2` of wall, through which `wall_w_m2_k` W/(m² K) go to the room. `basis`
    says where the figures come from.
    """

    key: str
    name: str
    heated_g: float
    specific_j_g_k: float
    open_cm2: float
    wall_cm2: float
    wall_w_m2_k: float
    basis: str

    @property
    def heat_j_k(self) -> float:
        """What the wall takes for one kelvin, J/K."""
        return self.heated_g * self.specific_j_g_k


_FREE_AIR = "wall to free air: convection 5 and radiation 5 W/(m² K), textbook values from memory"

VESSELS = {
    vessel.key: vessel
    for vessel in (
        Vessel(
            "bowl",
            "Porcelain bowl",
            130.0,
            0.85,
            50.0,
            150.0,
            10.0,
            "open diameter 80 mm, within the cupping standard's 76 to 89 mm; 0.85 J/(g K) for porcelain "
            f"from memory; mass and walls assumed; {_FREE_AIR}",
        ),
        Vessel(
            "glass",
            "Tumbler of glass",
            140.0,
            0.84,
            45.0,
            160.0,
            10.0,
            f"0.84 J/(g K) for glass from memory; mass and areas assumed; {_FREE_AIR}",
        ),
        Vessel(
            "cup",
            "Porcelain cup or mug",
            200.0,
            0.85,
            45.0,
            165.0,
            10.0,
            f"0.85 J/(g K) for porcelain from memory; mass and areas assumed; {_FREE_AIR}",
        ),
        Vessel(
            "paper-cup",
            "Paper cup, open",
            10.0,
            1.4,
            48.0,
            170.0,
            9.0,
            f"1.4 J/(g K) for paper from memory; mass and areas assumed; {_FREE_AIR}, less the board",
        ),
        Vessel(
            "insulated",
            "Cup with a double wall, open",
            80.0,
            0.5,
            45.0,
            160.0,
            1.5,
            "0.5 J/(g K) for steel from memory; inner wall, areas and 1.5 W/(m² K) assumed",
        ),
    )
}


def vessel_of(key: str, bowl_ml: float = REFERENCE_ML) -> Vessel:
    """The vessel of that key for so much water: a larger one of the same shape.

    Walls grow as volume^(2/3).

    Raises
    ------
    Refused
        If there is none of that key.
    """
    if key not in VESSELS:
        raise Refused(
            f"There is no vessel '{key}'.", todo=f"Choose one of {', '.join(VESSELS)}.", about="vessel"
        )
    vessel = VESSELS[key]
    grown = (bowl_ml / REFERENCE_ML) ** (2 / 3)
    return replace(
        vessel,
        heated_g=vessel.heated_g * grown,
        open_cm2=vessel.open_cm2 * grown,
        wall_cm2=vessel.wall_cm2 * grown,
    )
