"""Units: metric to imperial and back, by the exact factors of their definitions.

Source: the international pound of 1959 (an ounce is 28.349523125 g), the US gallon of 231 cubic inches (a
fluid ounce is 29.5735295625 mL), the foot of 0.3048 m and the two fixed points of Fahrenheit's scale; exact
by definition [NIST-SP811]. Fluid ounces are those of the United States: a British one holds 28.4 mL.
"""

from decimal import Decimal

GRAMS_PER_OUNCE = Decimal("28.349523125")
ML_PER_FLUID_OUNCE = Decimal("29.5735295625")
METRES_PER_FOOT = Decimal("0.3048")


def decimal(number: float) -> Decimal:
    """The number as it is written: by way of its shortest text, so that 0.1 is a tenth."""
    return Decimal(repr(float(number)))


def ounces(grams: float) -> float:
    """Avoirdupois ounces."""
    return float(decimal(grams) / GRAMS_PER_OUNCE)


def grams(ounces: float) -> float:
    """Grams of avoirdupois ounces."""
    return float(decimal(ounces) * GRAMS_PER_OUNCE)


def fluid_ounces(millilitres: float) -> float:
    """US fluid ounces."""
    return float(decimal(millilitres) / ML_PER_FLUID_OUNCE)


def millilitres(fluid_ounces: float) -> float:
    """Millilitres of US fluid ounces."""
    return float(decimal(fluid_ounces) * ML_PER_FLUID_OUNCE)


def fahrenheit(celsius: float) -> float:
    """Degrees Fahrenheit; 93 °C is 199.4 °F."""
    return float(decimal(celsius) * 9 / 5 + 32)


def celsius(fahrenheit: float) -> float:
    """Degrees Celsius; 200 °F is 93.3 °C."""
    return float((decimal(fahrenheit) - 32) * 5 / 9)


def feet(metres: float) -> float:
    """International feet."""
    return float(decimal(metres) / METRES_PER_FOOT)


def metres(feet: float) -> float:
    """Metres of international feet."""
    return float(decimal(feet) * METRES_PER_FOOT)
