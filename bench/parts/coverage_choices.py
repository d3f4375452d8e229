"""Choices: how often log worths, and all their differences together, are held."""

from collections.abc import Iterator

import numpy as np
from parts.covered import Covered, counted

from cupwright.core.analyse.bradley_terry import bradley_terry
from cupwright.core.analyse.choices import Choices
from cupwright.core.analyse.plackett_luce import plackett_luce


def covered(panels: int) -> Iterator[Covered]:
    """Rankings of whole tables, of flights of three, and pairs with ties."""
    for size in ((3, 5), (4, 5), (4, 10), (6, 6), (6, 12), (12, 10)):
        name = f"{size[0]} x {size[1]}"
        yield counted("ranking, each log worth", name, panels, lambda rng, s=size: _each(*_ranked(rng, *s)))
        yield counted(
            "ranking, all differences together",
            name,
            panels,
            lambda rng, s=size: _together(*_ranked(rng, *s)),
        )
    for size in ((3, 5), (6, 6), (6, 12), (12, 10)):
        yield counted(
            "ranking, share of first picks",
            f"{size[0]} x {size[1]}",
            panels,
            lambda rng, s=size: _first(*_ranked(rng, *s)),
        )
    yield counted("flights of 3 of 6", "6 x 20", panels, lambda rng: _each(*_ranked(rng, 6, 20, 3)))
    for size in ((3, 4), (4, 6), (6, 10)):
        name = f"{size[0]}, {size[1]} a pair"
        yield counted("pairs, ties", name, panels, lambda rng, s=size: _each(*_paired(rng, *s)))


def _ranked(
    rng: np.random.Generator, coffees: int, tasters: int, flight: int = 0
) -> tuple[Choices, np.ndarray]:
    truth = rng.normal(size=coffees)
    truth -= truth.mean()
    # The largest of independent Gumbel variables is i with chance proportional to exp(truth_i).
    drawn = truth + rng.gumbel(size=(tasters, coffees))
    places = (-drawn).argsort(axis=1).argsort(axis=1) + 1.0
    if flight:
        for row in places:
            row[rng.permutation(coffees)[flight:]] = np.nan
    return plackett_luce(places), truth


def _paired(rng: np.random.Generator, coffees: int, times: int) -> tuple[Choices, np.ndarray]:
    truth = rng.normal(size=coffees)
    truth -= truth.mean()
    wins, ties = np.zeros((coffees, coffees)), np.zeros((coffees, coffees))
    for i, j in zip(*np.triu_indices(coffees, 1), strict=True):
        weights = np.array([np.exp(truth[i]), np.exp(truth[j]), 0.5 * np.exp((truth[i] + truth[j]) / 2)])
        wins[i, j], wins[j, i], ties[i, j] = rng.multinomial(times, weights / weights.sum())
        ties[j, i] = ties[i, j]
    return bradley_terry(wins, ties=ties), truth


def _each(found: Choices, truth: np.ndarray) -> Iterator[bool]:
    return iter([one.low <= true <= one.high for one, true in zip(found.coffees, truth, strict=True)])


def _together(found: Choices, truth: np.ndarray) -> bool:
    first, second = np.triu_indices(len(truth), 1)
    gaps = truth[first] - truth[second]
    return all(pair.low <= gap <= pair.high for pair, gap in zip(found.pairs, gaps, strict=True))


def _first(found: Choices, truth: np.ndarray) -> Iterator[bool]:
    shares = np.exp(truth) / np.exp(truth).sum()
    return iter([one.low <= share <= one.high for one, share in zip(found.picked_first, shares, strict=True)])
