"""Rankings: how often each coffee would be picked first, from whole rankings or parts of them."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cupwright.core.analyse.choice_stages import fitted_choices, stages_of
from cupwright.core.analyse.choices import Choices, choices_from
from cupwright.core.analyse.level import checked_level
from cupwright.core.analyse.resamples import generator
from cupwright.errors import Refused, TooFewObservations

Floats = NDArray[np.float64]


def plackett_luce(
    rankings: ArrayLike,
    *,
    coffees: Sequence[str] = (),
    counts: ArrayLike | None = None,
    level: float = 0.95,
    rng: np.random.Generator | None = None,
) -> Choices:
    """Which coffee would be picked first, going by whole or partial rankings?

    Parameters
    ----------
    rankings : float array, shape (n_rankings, n_coffees)
        Places, 1 the best; equal numbers share a place, NaN was not in the ranking.
    coffees : sequence of str
        Names; counted from 1 if left out.
    counts : float array, shape (n_rankings,)
        How often each ranking was given; once if left out.
    level : float in (0, 1)
        Coverage of the intervals.
    rng : Generator
        Draws for `p_best` and for intervals of pairs that hold together; a fixed seed if left out.

    Raises
    ------
    TooFewObservations
        If there are not two coffees, or no two were compared.
    NoSpread
        If every place is shared by all.
    Refused
        If groups of coffees were never compared, more than 6 share a place, or lengths differ.

    Notes
    -----
    Error: intervals are Wald's, from the curve of the likelihood, with Student's quantiles; rankings are
    taken as independent, and what is picked from the rest as not depending on the order before. A ranking of
    all ties tells nothing and is left out.
    Source: [Luce1959], [Plackett1975]; ties, [Turner2020]; checked against choix, the survival model
    of statsmodels with a stratum a ranking, and all orders counted out.
    """
    checked_level(level)
    places = np.asarray(rankings, dtype=float)
    if places.ndim != 2:
        raise Refused("Rankings have two dimensions.", todo="Give one row a ranking, one column a coffee.")
    n = np.ones(len(places)) if counts is None else np.asarray(counts, dtype=float)
    if n.shape != (len(places),) or not (np.isfinite(n).all() and (n >= 0).all()):
        raise Refused("Counts do not fit the rankings.", todo="Give one count from 0 on for each ranking.")
    if places.shape[1] < 2:
        raise TooFewObservations("There is one coffee alone.", todo="Compare it with another.")
    given = coffee_names(coffees, places.shape[1])
    telling = [row for row in range(len(places)) if _tells(places[row]) and n[row] > 0]
    seen = ~np.isnan(places[telling]).all(axis=0) if telling else np.zeros(places.shape[1], dtype=bool)
    stages = [stage for row in telling for stage in _stages(places[row, seen], float(n[row]))]
    if not stages:
        raise TooFewObservations("No ranking tells two coffees apart.", todo="Ask for orders without ties.")
    names = tuple(name for name, here in zip(given, seen, strict=True) if here)
    left, picked, count = zip(*stages, strict=True)
    checked = stages_of(np.array(left), np.array(picked), np.array(count), names)
    fit = fitted_choices(checked)
    return choices_from(
        names,
        fit,
        tuple(zip(checked.tied, np.exp(fit.log_ties).tolist(), strict=True)),
        comparisons=round(float(n[telling].sum())),
        picks=float(checked.count.sum()),
        level=level,
        rng=generator(rng),
    )


def coffee_names(given: Sequence[str], count: int) -> tuple[str, ...]:
    """The names, or numbers from 1. Raises Refused if they do not fit."""
    if given and len(given) != count:
        raise Refused(f"{count} coffees have {len(given)} names.", todo="Give one name a coffee.")
    return tuple(given) or tuple(str(number) for number in range(1, count + 1))


def _tells(places: Floats) -> bool:
    """Whether a ranking puts a coffee above another."""
    return len(np.unique(places[~np.isnan(places)])) > 1


def _stages(places: Floats, count: float) -> list[tuple[NDArray[np.bool_], NDArray[np.bool_], float]]:
    """What was left, what was picked of it, and how often; the last coffee alone is no choice."""
    found = []
    for place in np.unique(places[~np.isnan(places)]):
        left = places >= place
        if left.sum() > 1:
            found.append((left, places == place, count))
    return found
