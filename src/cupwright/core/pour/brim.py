"""The brim: a bowl filled to its edge over the grounds takes less water than it holds empty.

Source: none read. Roasted coffee without its pores weighs about 1.2 to 1.4 g/mL (from memory), so a gram of
wetted grounds takes the place of about 0.75 mL of water; the gas in fresh grounds makes it more at first, up
to 1.1 mL. The range is an assumption.
"""

from dataclasses import dataclass

from cupwright.core.pour.units import decimal

DISPLACED_ML_PER_G = 0.75
DISPLACED_RANGE = (0.70, 1.10)


@dataclass(frozen=True, slots=True)
class Brim:
    """A bowl of `bowl_ml` filled to the brim over its dose. Millilitres, grams, g/L.

    `displaced_ml` is how much less water goes in, `grams_per_litre` the ratio that results, `ratio_low` to
    `ratio_high` that over the range of displacement. `dose_g` (not on the scale's step) would keep the ratio.
    """

    displaced_ml: float
    water_ml: float
    grams_per_litre: float
    ratio_low: float
    ratio_high: float
    dose_g: float


def brim(bowl_ml: float, dose_g: float, grams_per_litre: float) -> Brim:
    """What filling to the brim does to a dose meant for `bowl_ml` of water.

    Notes
    -----
    Error: as wide as the range of displacement; weigh the water once to know your own bowl and grind.
    """
    displaced = float(decimal(DISPLACED_ML_PER_G) * decimal(dose_g))
    low, high = (dose_g * 1000 / (bowl_ml - rate * dose_g) for rate in DISPLACED_RANGE)
    # A dose m that keeps the ratio r takes away its own room: m = r (V - d m).
    kept = grams_per_litre / 1000 * bowl_ml / (1 + grams_per_litre / 1000 * DISPLACED_ML_PER_G)
    water = bowl_ml - displaced
    return Brim(displaced, water, dose_g * 1000 / water, low, high, kept)
