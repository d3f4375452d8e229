"""Caffeine: how much a sitting holds for somebody who swallows instead of spitting.

Sources: adults, up to 200 mg at once and 400 mg a day raise no concern, in pregnancy 200 mg a day [EFSA2015];
about 0.5 g/L in an immersion brew near the cupping ratio [Foods2021-1208, Table 1]; spoons of 4 to 5 mL
[SCAA-standards].
"""

GRAMS_PER_LITRE_OF_BREW = 0.5
SPOON_ML = 4.5
AT_ONCE_MG = 200.0
A_DAY_MG = 400.0


def caffeine_mg(bowls: int, passes: int, swallowed: float = 1.0) -> float:
    """Milligrams of caffeine in one spoon from every bowl in every tasting pass.

    Parameters
    ----------
    bowls, passes : int
        How many are tasted, and how often each.
    swallowed : float in 0..1
        The share that is not spat out.

    Notes
    -----
    Error: brews differ about twofold (0.48 to 1.1 g/L in two studies; robusta holds about twice as much
    as arabica), so this is an order of magnitude.
    """
    return bowls * passes * SPOON_ML * GRAMS_PER_LITRE_OF_BREW * swallowed
