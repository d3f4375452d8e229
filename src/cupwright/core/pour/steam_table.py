"""The steam table: what water does, by the industrial formulation of 1997 through a library.

Source: [IAPWS-IF97]. The library is loaded when a value is asked for.
"""

STANDARD_PRESSURE_PA = 101_325.0

_PA_PER_MPA = 1e6


def boiling_c(pressure_pa: float) -> float:
    """The temperature in °C at which water boils under that pressure. 101325 Pa: 99.974.

    Error: the formulation keeps to 0.02 K here; dissolved coffee or minerals add less than 0.1 K.
    """
    from seuif97 import px2t

    return float(px2t(pressure_pa / _PA_PER_MPA, 0))


def vapour_pressure_pa(celsius: float) -> float:
    """The pressure in Pa of vapour above water of that temperature (0 to 370 °C)."""
    from seuif97 import tx2p

    return float(tx2p(celsius, 0)) * _PA_PER_MPA


def density_g_per_ml(celsius: float, pressure_pa: float = STANDARD_PRESSURE_PA) -> float:
    """Grams in a millilitre of liquid water. 20 °C: 0.9982; 93 °C: 0.9633."""
    from seuif97 import pt2v

    return 1 / float(pt2v(pressure_pa / _PA_PER_MPA, min(celsius, boiling_c(pressure_pa) - 1e-6))) / 1000
