"""The wire, outward: the amounts of one table."""

from cupwright.web.shape import Shown


class BrimShown(Shown):
    """A bowl filled to the brim over its grounds: how much less water goes in, and what ratio results."""

    displaced_ml: float
    water_ml: float
    grams_per_litre: float
    ratio_low: float
    ratio_high: float
    dose_g: float


class BoilingShown(Shown):
    """Water where the table stands: its pressure, its boiling point, what arrives at the grounds."""

    altitude_m: float | None
    pressure_pa: float
    boils_c: float
    reached_c: float
    pour_low_c: float
    pour_high_c: float
    reaches: bool


class RecipeShown(Shown):
    """Amounts for one table; grams, millilitres, degrees."""

    samples: int
    bowls: int
    spare_bowls: int
    bowl_ml: float
    dose_g: float
    exact_dose_g: float
    low_g: float
    high_g: float
    grams_per_litre: float
    deviation_percent: float
    purge_g: float
    coffee_per_sample_g: float
    total_coffee_g: float
    water_poured_ml: float
    water_to_heat_ml: float
    kettle_c: float
    kettle_f: float
    water_step_ml: float
    ratio_low: float
    ratio_high: float
    bowl_water_g: float
    by_weight_grams_per_litre: float
    brim: BrimShown
    boiling: BoilingShown
    warnings: list[str]
