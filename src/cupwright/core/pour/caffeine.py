"""Caffeine: how much a sitting holds for somebody who swallows instead of spitting.

Sources: adults, up to 200 mg at once and 400 mg a day raise no concern, in pregnancy and while breast-feeding
200 mg a day [EFSA2015]; 0.52 ± 0.06 g/L in an immersion brew of 15 g in 250 mL [Foods2021-1208, Table 1];
arabica holds about 1.2 % of its weight, from memory, of which a brew cannot hold more than all; spoons of
4 to 5 mL [SCAA-standards].
"""

from dataclasses import dataclass

GRAMS_PER_LITRE_OF_BREW = 0.5
SPOON_ML = 4.5
AT_ONCE_MG = 200.0
A_DAY_MG = 400.0
PREGNANT_A_DAY_MG = 200.0

_MEASURED_AT = 60.0  # g/L: 15 g in 250 mL
_MEASURED = (0.46, 0.52)  # g/L of caffeine: the mean less its spread, and the mean
_SHARE_OF_ARABICA = 0.012


@dataclass(frozen=True, slots=True)
class Strength:
    """Grams of caffeine in a litre of brew: the usual, and between what it can be expected."""

    low: float
    usual: float
    high: float


def brew_strength(grams_per_litre: float) -> Strength:
    """How strong a brew of that ratio is.

    Notes
    -----
    Error: what was measured is scaled by the ratio; `high` is all the caffeine of an arabica of 1.2 %.
    Robusta holds about twice as much as arabica, and another group found 1.04 to 1.10 g/L in a stronger brew.
    """
    low, usual = (measured * grams_per_litre / _MEASURED_AT for measured in _MEASURED)
    return Strength(low, usual, _SHARE_OF_ARABICA * grams_per_litre)


def caffeine_mg(
    bowls: int,
    passes: int,
    swallowed: float = 1.0,
    *,
    spoon_ml: float = SPOON_ML,
    strength: float = GRAMS_PER_LITRE_OF_BREW,
) -> float:
    """Milligrams of caffeine in one spoon from every bowl in every tasting pass.

    Parameters
    ----------
    bowls, passes : int
        How many are tasted, and how often each.
    swallowed : float in 0..1
        The share that is not spat out.
    spoon_ml, strength : float
        Millilitres a spoon, grams of caffeine a litre.

    Notes
    -----
    Error: brews differ about twofold (0.48 to 1.1 g/L in two studies; robusta holds about twice as much
    as arabica), so this is an order of magnitude.
    """
    return bowls * passes * spoon_ml * strength * swallowed
