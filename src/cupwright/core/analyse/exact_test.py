"""An exact test for the same tasters over several coffees: does a word belong to one coffee more than luck?

Two tasters of one coffee are two people; two coffees of one taster are not. So each taster is compared with
themselves: k coffees written on, the word used for m of them.
"""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.special import gammaln

from cupwright.errors import Refused, TooFewObservations

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


def exact_p_value(used: Bools, wrote: Bools, coffee: int) -> float:
    """How often would chance alone give this coffee so many, or so few, of a word's uses?

    Parameters
    ----------
    used : bool array, shape (n_coffees, n_tasters)
        Who used the word for which coffee; only where they wrote.
    wrote : bool array, shape (n_coffees, n_tasters)
        Who wrote on which coffee.
    coffee : int
        Row of the coffee that is compared with all others.

    Returns
    -------
    float
        In 0..1: twice the smaller tail, at most 1.

    Raises
    ------
    TooFewObservations
        If nobody wrote on that coffee, or on any other.
    Refused
        If somebody used the word without writing.

    Notes
    -----
    If the coffees do not differ, a taster's m uses fall on any m of their k coffees equally often (the
    serving orders are drawn at random), so the coffee has one with chance m/k. Tasters who wrote on one
    coffee only say nothing by themselves; taken together they are separate groups. The count is the sum of
    these parts, and its distribution is worked out in full.
    Error: none in small tables; cautious, since counts come in steps. Takes tasters as independent.
    Source: exact test of a common odds ratio of one over strata [Birch1964], here one stratum a taster;
    with one stratum it is [Fisher1935]. Checked against scipy.stats and by listing every case.
    """
    pmf = count_chances(used, wrote, coffee)
    count = int(used[coffee].sum())
    tail = min(pmf[: count + 1].sum(), pmf[count:].sum())
    return float(min(1.0, 2 * tail))


def count_chances(used: Bools, wrote: Bools, coffee: int) -> Floats:
    """Chances of 0, 1, 2, ... uses for a coffee, if the coffees do not differ; as `exact_p_value`."""
    _check(used, wrote, coffee)
    here = wrote[coffee]
    written, uses = wrote.sum(axis=0), used.sum(axis=0)
    alone = here & (written == 1)
    several = here & (written > 1) & (uses > 0)
    chances = uses[several] / written[several]
    single = (written == 1).sum(), used[:, written == 1].sum(), alone.sum()
    pmf = np.convolve(_sum_of(chances), _hypergeometric(*map(int, single)))
    return np.asarray(pmf / pmf.sum())


def _sum_of(chances: Floats) -> Floats:
    """Chances of 0, 1, 2, ... successes in trials of their own; equal chances are taken together."""
    pmf = np.ones(1)
    for chance, trials in zip(*np.unique(chances, return_counts=True), strict=True):
        pmf = np.convolve(pmf, _binomial(int(trials), float(chance)))
    return pmf


# The words of a report ask for the same few again and again.
@lru_cache(maxsize=4096)
def _binomial(trials: int, chance: float) -> Floats:
    ways = np.arange(trials + 1, dtype=float)
    if chance == 1:
        return np.asarray(ways == trials, dtype=float)
    logs = _log_choose(trials, ways) + ways * np.log(chance) + (trials - ways) * np.log1p(-chance)
    return np.asarray(np.exp(logs))


def _hypergeometric(size: int, marked: int, drawn: int) -> Floats:
    """Chances of 0, 1, ... `drawn` marked ones among `drawn` of `size` that hold `marked`."""
    if drawn == 0:
        return np.ones(1)
    ways = np.arange(drawn + 1, dtype=float)
    possible = (ways <= marked) & (drawn - ways <= size - marked)
    pmf = np.zeros(drawn + 1)
    found = ways[possible]
    logs = _log_choose(marked, found) + _log_choose(size - marked, drawn - found)
    pmf[possible] = np.exp(logs - logs.max())
    return np.asarray(pmf / pmf.sum())


def _log_choose(of: int, count: Floats) -> Floats:
    return np.asarray(gammaln(of + 1) - gammaln(count + 1) - gammaln(of - count + 1))


def _check(used: Bools, wrote: Bools, coffee: int) -> None:
    if not wrote[coffee].any() or not np.delete(wrote, coffee, axis=0).any():
        raise TooFewObservations(
            "Notes on one coffee alone, or on none, cannot be compared.", todo="Compare two coffees or more."
        )
    if (used & ~wrote).any():
        raise Refused("A word is counted where nobody wrote.", todo="Count it only where somebody wrote.")
