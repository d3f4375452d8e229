"""The recipe: how much coffee goes into a bowl, how much of everything a table needs.

Source: [SCAA-standards] as in standard.py, unless a protocol brings its own numbers. Amounts are computed in
decimals: a scale shows tenths, and a binary 11.35 would fall to the wrong side.
"""

import math
from dataclasses import dataclass
from decimal import ROUND_HALF_UP

from cupwright.core.plan.table import Plan
from cupwright.core.pour.boiling import (
    Boiling,
    at_grounds_in_words,
    boiling,
    boiling_warnings,
    off_at_grounds,
)
from cupwright.core.pour.brim import Brim, brim
from cupwright.core.pour.standard import CUPPING_STANDARD, RecipeStandard
from cupwright.core.pour.steam_table import density_g_per_ml
from cupwright.core.pour.units import decimal, fahrenheit
from cupwright.errors import Refused

STANDARD_GRAMS_PER_LITRE = 55.0

# Kitchen scales and kettles show whole grams of water; common practice, no source.
WATER_STEP_ML = 1.0


@dataclass(frozen=True, slots=True)
class Recipe:
    """What one table needs. Grams, millilitres, degrees; nothing is rounded but `dose_g`.

    `dose_g` is what to weigh (on the scale's step), `exact_dose_g` what the ratio asks, `low_g` and
    `high_g` the tolerance around that. `grams_per_litre` is what `dose_g` really gives and
    `deviation_percent` how far that is from the planned ratio. `coffee_per_sample_g` holds its bowls,
    its spare bowl if planned, and the purge. `water_poured_ml` is what goes into bowls (spare ones too),
    `water_to_heat_ml` that with the allowance for kettle and spoons.

    `ratio_low` to `ratio_high` (g/L) is what the steps of the scales leave open: half a step of coffee and
    half a step of water (`water_step_ml`) either way. `bowl_water_g` is what the water of one bowl weighs as
    hot as it is poured; `by_weight_grams_per_litre` the ratio if as many grams are poured on a scale as
    millilitres were meant. `brim` is the bowl filled to the brim over its grounds, `boiling` the water where
    the table stands.
    """

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
    brim: Brim
    boiling: Boiling
    warnings: tuple[str, ...]


def dose_g(water_ml: float, grams_per_litre: float = STANDARD_GRAMS_PER_LITRE) -> float:
    """Grams of whole beans for a bowl of `water_ml`, not yet rounded.

    Source: [SCAA-standards], 0.055 g/mL. 200 mL: 11.00 g; 225 mL: 12.375 g.
    """
    return float(decimal(water_ml) * decimal(grams_per_litre) / 1000)


def to_scale_step(grams: float, step: float) -> float:
    """The nearest weight a scale with that step can show; a half goes up.

    Raises
    ------
    Refused
        If the step is not a number above 0.
    """
    if not (math.isfinite(step) and step > 0):
        raise Refused(f"A scale cannot have a step of {step:g} g.", todo="Give its smallest step, as 0.1.")
    steps = (decimal(grams) / decimal(step)).to_integral_value(ROUND_HALF_UP)
    return float(steps * decimal(step))


def tolerance_g(water_ml: float, standard: RecipeStandard = CUPPING_STANDARD) -> float | None:
    """By how many grams a dose may miss, ± 0.25 g per 150 mL; None where the standard leaves it open."""
    if standard.tolerance_g is None:
        return None
    return float(decimal(water_ml) * decimal(standard.tolerance_g) / decimal(standard.tolerance_ml))


def ratio_interval(
    dose_g: float, step_g: float, water_ml: float, water_step_ml: float
) -> tuple[float, float]:
    """The least and the greatest g/L that the two scales cannot tell from what they show.

    Parameters
    ----------
    dose_g, water_ml : float
        What the scales show.
    step_g, water_step_ml : float
        Their steps; what is shown may be half a step off either way.

    Raises
    ------
    Refused
        For a step of the water that is no number above 0 or more than a tenth of the water.

    Notes
    -----
    Error: none for scales that are right; a scale that is wrong by more than half a step is not covered.
    """
    if not 0 < water_step_ml <= water_ml / 10:
        raise Refused(
            f"Water for {water_ml:g} mL cannot be measured in steps of {water_step_ml:g} mL.",
            todo="Give the step of the scale or the jug, as 1 mL.",
        )
    coffee, water = decimal(step_g) / 2, decimal(water_step_ml) / 2
    low = (decimal(dose_g) - coffee) * 1000 / (decimal(water_ml) + water)
    high = (decimal(dose_g) + coffee) * 1000 / (decimal(water_ml) - water)
    return float(low), float(high)


def recipe(
    plan: Plan,
    samples: int,
    *,
    standard: RecipeStandard = CUPPING_STANDARD,
    water_step_ml: float = WATER_STEP_ML,
) -> Recipe:
    """What a table of that many samples needs.

    Parameters
    ----------
    plan : Plan
        Already checked by core/plan/planning.py.
    samples : int
        Samples on the table.
    standard : RecipeStandard
        What the recipe is held against, as the plan's protocol has it.

    Notes
    -----
    Error: none beyond the scales' steps. The ratio is by volume; hot water is about 4 % lighter than cold,
    so a table poured by weight differs by that much from one poured by volume (docs/methods/recipe.md).
    """
    exact = dose_g(plan.bowl_ml, plan.grams_per_litre)
    dose = to_scale_step(exact, plan.scale_step_g)
    tolerance = tolerance_g(plan.bowl_ml, standard)
    actual = float(decimal(dose) * 1000 / decimal(plan.bowl_ml))
    bowls, spare = samples * plan.bowls_per_sample, samples if plan.spare_bowl else 0
    per_sample = decimal(dose) * (plan.bowls_per_sample + plan.spare_bowl) + decimal(plan.purge_g)
    poured = (bowls + spare) * plan.bowl_ml
    place = boiling(plan.kettle_c, altitude_m=plan.altitude_m)
    density = density_g_per_ml(place.reached_c, place.pressure_pa)
    low, high = ratio_interval(dose, plan.scale_step_g, plan.bowl_ml, water_step_ml)
    return Recipe(
        samples=samples,
        bowls=bowls,
        spare_bowls=spare,
        bowl_ml=plan.bowl_ml,
        dose_g=dose,
        exact_dose_g=exact,
        low_g=exact - (tolerance or 0),
        high_g=exact + (tolerance or 0),
        grams_per_litre=actual,
        deviation_percent=(actual / plan.grams_per_litre - 1) * 100,
        purge_g=plan.purge_g,
        coffee_per_sample_g=float(per_sample),
        total_coffee_g=float(per_sample * samples),
        water_poured_ml=poured,
        water_to_heat_ml=poured * (1 + standard.water_allowance),
        kettle_c=plan.kettle_c,
        kettle_f=fahrenheit(plan.kettle_c),
        water_step_ml=water_step_ml,
        ratio_low=low,
        ratio_high=high,
        bowl_water_g=plan.bowl_ml * density,
        by_weight_grams_per_litre=actual * density,
        brim=brim(plan.bowl_ml, dose, plan.grams_per_litre),
        boiling=place,
        warnings=(*_warnings(plan, exact, dose, standard), *boiling_warnings(place, standard.pour_c)),
    )


def _warnings(plan: Plan, exact: float, dose: float, standard: RecipeStandard) -> tuple[str, ...]:
    """Where the plan leaves the tolerance of its standard; one sentence each."""
    found = (
        _step_warning(plan, exact, dose, standard),
        _ratio_warning(plan.grams_per_litre, standard),
        _kettle_warning(plan.kettle_c, standard),
        _bowl_warning(plan.bowl_ml, standard),
    )
    return tuple(warning for warning in found if warning)


def _step_warning(plan: Plan, exact: float, dose: float, standard: RecipeStandard) -> str:
    tolerance = tolerance_g(plan.bowl_ml, standard)
    # As decimals: a dose that lies exactly on the bound is inside it.
    if tolerance is None or abs(decimal(dose) - decimal(exact)) <= decimal(tolerance):
        return ""
    return (
        f"The scale's step of {plan.scale_step_g:g} g makes the dose {dose:g} g instead of {exact:g} g, "
        f"outside the tolerance of {standard.tolerance_g:g} g per {standard.tolerance_ml:g} mL; "
        "use a finer scale."
    )


def _ratio_warning(grams_per_litre: float, standard: RecipeStandard) -> str:
    if standard.grams_per_litre is None:
        return ""
    off = abs(decimal(grams_per_litre) - decimal(standard.grams_per_litre))
    allowed = decimal(standard.tolerance_g or 0) * 1000 / decimal(standard.tolerance_ml)
    if off <= allowed:
        return ""
    middle, width = standard.grams_per_litre, float(allowed)
    return (
        f"{grams_per_litre:g} g/L is outside the {middle:g} g/L of {standard.name} ({middle - width:.1f} to "
        f"{middle + width:.1f}); compare this table only with tables of the same ratio."
    )


def _kettle_warning(kettle_c: float, standard: RecipeStandard) -> str:
    if standard.pour_c is None or not off_at_grounds(kettle_c, *standard.pour_c):
        return ""
    low, high = standard.pour_c
    return (
        f"A kettle at {kettle_c:g} °C gives {at_grounds_in_words(kettle_c)}, outside the {low:g} to {high:g} "
        f"°C of {standard.name}; compare this table only with tables poured as hot."
    )


def _bowl_warning(bowl_ml: float, standard: RecipeStandard) -> str:
    if standard.bowl_ml is None or standard.bowl_ml[0] <= bowl_ml <= standard.bowl_ml[1]:
        return ""
    low, high = standard.bowl_ml
    return (
        f"Bowls of {bowl_ml:g} mL are outside the sizes of {standard.name} ({low:g} to {high:g} mL); "
        "they cool at another pace, so the times of the run sheet may not suit them."
    )
