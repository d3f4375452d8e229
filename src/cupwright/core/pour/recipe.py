"""The recipe: how much coffee goes into a bowl, how much of everything a table needs.

Source: [SCAA-standards], "Cupping Standards": 8.25 g ± 0.25 g of whole beans for 150 mL, to be scaled by
0.055 g/mL; water at 200 ± 2 °F. Amounts are computed in decimals: a scale shows tenths, and a binary
11.35 would fall to the wrong side.
"""

import math
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from cupwright.core.plan.table import Plan
from cupwright.errors import Refused

STANDARD_GRAMS_PER_LITRE = 55.0
STANDARD_POUR_C = (92.2, 94.4)  # printed beside 200 ± 2 °F; at the grounds

# The two editions disagree on the vessel: 5 to 6 fl oz or 175 to 225 mL in one, 207 to 266 mL in the other.
STANDARD_BOWL_ML = (147.0, 266.0)

# What stays in the kettle, steams away, warms and rinses spoons. Common practice, no source.
WATER_ALLOWANCE = 0.15

_TOLERANCE_PER_ML = Decimal("0.25") / 150


@dataclass(frozen=True, slots=True)
class Recipe:
    """What one table needs. Grams, millilitres, degrees; nothing is rounded but `dose_g`.

    `dose_g` is what to weigh (on the scale's step), `exact_dose_g` what the ratio asks, `low_g` and
    `high_g` the tolerance around that. `grams_per_litre` is what `dose_g` really gives and
    `deviation_percent` how far that is from the planned ratio. `coffee_per_sample_g` holds its bowls,
    its spare bowl if planned, and the purge. `water_poured_ml` is what goes into bowls (spare ones too),
    `water_to_heat_ml` that with the allowance for kettle and spoons.
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
    warnings: tuple[str, ...]


def _decimal(number: float) -> Decimal:
    # By way of its shortest text, so that 0.1 is a tenth.
    return Decimal(repr(number))


def dose_g(water_ml: float, grams_per_litre: float = STANDARD_GRAMS_PER_LITRE) -> float:
    """Grams of whole beans for a bowl of `water_ml`, not yet rounded.

    Source: [SCAA-standards], 0.055 g/mL. 200 mL: 11.00 g; 225 mL: 12.375 g.
    """
    return float(_decimal(water_ml) * _decimal(grams_per_litre) / 1000)


def to_scale_step(grams: float, step: float) -> float:
    """The nearest weight a scale with that step can show; a half goes up.

    Raises
    ------
    Refused
        If the step is not a number above 0.
    """
    if not (math.isfinite(step) and step > 0):
        raise Refused(f"A scale cannot have a step of {step:g} g.", todo="Give its smallest step, as 0.1.")
    steps = (_decimal(grams) / _decimal(step)).to_integral_value(ROUND_HALF_UP)
    return float(steps * _decimal(step))


def tolerance_g(water_ml: float) -> float:
    """By how many grams a dose may miss: ± 0.25 g per 150 mL. Source: [SCAA-standards]."""
    return float(_decimal(water_ml) * _TOLERANCE_PER_ML)


def fahrenheit(celsius: float) -> float:
    """Degrees Fahrenheit; exact by definition, 93 °C is 199.4 °F."""
    return float(_decimal(celsius) * 9 / 5 + 32)


def recipe(plan: Plan, samples: int) -> Recipe:
    """What a table of that many samples needs.

    Parameters
    ----------
    plan : Plan
        Already checked by core/plan/planning.py.
    samples : int
        Coffees on the table.

    Notes
    -----
    Error: none beyond the scale's step. The ratio is by volume; hot water is about 4 % lighter than cold,
    so a table poured by weight differs by that much from one poured by volume (docs/methods/pour.md).
    """
    exact = dose_g(plan.bowl_ml, plan.grams_per_litre)
    dose = to_scale_step(exact, plan.scale_step_g)
    tolerance = tolerance_g(plan.bowl_ml)
    actual = float(_decimal(dose) * 1000 / _decimal(plan.bowl_ml))
    bowls, spare = samples * plan.bowls_per_sample, samples if plan.spare_bowl else 0
    per_sample = _decimal(dose) * (plan.bowls_per_sample + plan.spare_bowl) + _decimal(plan.purge_g)
    poured = (bowls + spare) * plan.bowl_ml
    return Recipe(
        samples=samples,
        bowls=bowls,
        spare_bowls=spare,
        bowl_ml=plan.bowl_ml,
        dose_g=dose,
        exact_dose_g=exact,
        low_g=exact - tolerance,
        high_g=exact + tolerance,
        grams_per_litre=actual,
        deviation_percent=(actual / plan.grams_per_litre - 1) * 100,
        purge_g=plan.purge_g,
        coffee_per_sample_g=float(per_sample),
        total_coffee_g=float(per_sample * samples),
        water_poured_ml=poured,
        water_to_heat_ml=poured * (1 + WATER_ALLOWANCE),
        kettle_c=plan.kettle_c,
        kettle_f=fahrenheit(plan.kettle_c),
        warnings=_warnings(plan, exact, dose, tolerance),
    )


def _warnings(plan: Plan, exact: float, dose: float, tolerance: float) -> tuple[str, ...]:
    """Where the plan leaves the tolerance of the cupping standard; one sentence each."""
    # As decimals: a dose that lies exactly on the bound is inside it.
    missed = abs(_decimal(dose) - _decimal(exact))
    found = (
        _step_warning(plan, exact, dose) if missed > _decimal(tolerance) else "",
        _ratio_warning(plan.grams_per_litre),
        _kettle_warning(plan.kettle_c),
        _bowl_warning(plan.bowl_ml),
    )
    return tuple(warning for warning in found if warning)


def _step_warning(plan: Plan, exact: float, dose: float) -> str:
    return (
        f"The scale's step of {plan.scale_step_g:g} g makes the dose {dose:g} g instead of {exact:g} g, "
        "outside the tolerance of 0.25 g per 150 mL; use a finer scale."
    )


def _ratio_warning(grams_per_litre: float) -> str:
    off = abs(_decimal(grams_per_litre) - _decimal(STANDARD_GRAMS_PER_LITRE))
    if off <= _TOLERANCE_PER_ML * 1000:
        return ""
    return (
        f"{grams_per_litre:g} g/L is outside the cupping standard's 55 g/L (53.3 to 56.7); "
        "compare this table only with tables of the same ratio."
    )


def _kettle_warning(kettle_c: float) -> str:
    low, high = STANDARD_POUR_C
    if low <= kettle_c <= high:
        return ""
    return (
        f"A kettle at {kettle_c:g} °C is outside the cupping standard's {low:g} to {high:g} °C; "
        "compare this table only with tables poured as hot."
    )


def _bowl_warning(bowl_ml: float) -> str:
    low, high = STANDARD_BOWL_ML
    if low <= bowl_ml <= high:
        return ""
    return (
        f"Bowls of {bowl_ml:g} mL are outside the sizes of the cupping standard ({low:g} to {high:g} mL); "
        "they cool at another pace, so the times of the run sheet may not suit them."
    )
