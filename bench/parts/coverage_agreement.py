"""Agreement: how often the intervals of the six correlations, W, alpha and the kappas hold the truth."""

from collections.abc import Callable, Iterator

import numpy as np
from parts.covered import Covered, counted
from scipy.special import ndtr, ndtri

from cupwright.core.analyse.icc import icc
from cupwright.core.analyse.icc_bootstrap import icc_bootstrap
from cupwright.core.analyse.kappa import cohen_kappa, cross_count, fleiss_kappa
from cupwright.core.analyse.kendall import kendall_w
from cupwright.core.analyse.krippendorff import krippendorff_alpha
from cupwright.errors import TooFewObservations

SIZES = ((3, 2), (3, 3), (3, 5), (4, 3), (5, 4), (8, 4), (12, 10))
# Variances of coffees, of tasters' levels, and of the rest.
PARTS = (1.0, 0.5, 1.0)
DRAWS = 500
CUTS = ndtri([1 / 3, 2 / 3])
ALIKE = 0.6


def covered(panels: int) -> Iterator[Covered]:
    """Every interval of agreement at the sizes people use."""
    for size in SIZES:
        # The other forms for means are these, stepped up: they hold the truth just as often.
        yield counted("icc1, other tasters each time", _named(size), panels, _independent(*size))
        yield counted("icc2", _named(size), panels, _crossed("icc2", *size))
        yield counted("icc3", _named(size), panels, _crossed("icc3", *size))
        yield counted("icc2k", _named(size), panels, _crossed("icc2k", *size))
    # Below these sizes both are silent.
    for size in ((4, 3), (5, 4), (8, 4), (12, 10)):
        yield counted("Kendall's W", _named(size), panels, _order(*size))
    for size in ((6, 5), (8, 4), (12, 10)):
        yield counted("alpha, interval", _named(size), panels, _alpha(*size))
        yield counted("alpha, a fifth missing", _named(size), panels, _alpha(*size, missing=0.2))
    for size in ((8, 4), (12, 10), (30, 5)):
        yield counted("icc3, coffees drawn again", _named(size), panels, _drawn("icc3", *size))
    for size in ((12, 4), (12, 10), (30, 5)):
        yield counted("icc2, coffees drawn again", _named(size), panels, _drawn("icc2", *size))
    for coffees in (20, 30, 60):
        yield counted("Cohen's kappa, 3 categories", f"{coffees} x 2", panels, _cohen(coffees))
        yield counted("Fleiss's kappa, 3 categories", f"{coffees} x 5", panels, _fleiss(coffees))


Panel = Callable[[np.random.Generator], bool]


def _named(size: tuple[int, int]) -> str:
    return f"{size[0]} x {size[1]}"


def _scores(rng: np.random.Generator, coffees: int, tasters: int) -> tuple[np.ndarray, float]:
    """A panel, and the variance of its tasters' levels as they came out."""
    coffee, level, rest = np.sqrt(PARTS)
    levels = rng.normal(0, level, size=(1, tasters))
    scores = rng.normal(0, coffee, size=(coffees, 1)) + levels + rng.normal(0, rest, size=(coffees, tasters))
    return scores, float(levels.var(ddof=1))


def _crossed(form: str, coffees: int, tasters: int) -> Panel:
    coffee, level, rest = PARTS
    noise = rest if form.startswith("icc3") else rest + level
    truth = coffee / (coffee + noise / (tasters if form.endswith("k") else 1))

    def one(rng: np.random.Generator) -> bool:
        found = icc(_scores(rng, coffees, tasters)[0])[form]
        return found.low <= truth <= found.high

    return one


def _independent(coffees: int, tasters: int) -> Panel:
    def one(rng: np.random.Generator) -> bool:
        found = icc(rng.normal(size=(coffees, 1)) + rng.normal(size=(coffees, tasters))).icc1
        return found.low <= 0.5 <= found.high

    return one


def _drawn(form: str, coffees: int, tasters: int) -> Panel:
    """The truth for the tasters as they are: their levels do not change from draw to draw."""
    coffee, _, rest = PARTS

    def one(rng: np.random.Generator) -> bool:
        scores, levels = _scores(rng, coffees, tasters)
        truth = coffee / (coffee + rest + (levels if form == "icc2" else 0.0))
        found = icc_bootstrap(scores, form, draws=DRAWS, rng=rng)
        return found.low <= truth <= found.high

    return one


def _order(coffees: int, tasters: int) -> Panel:
    def one(rng: np.random.Generator) -> bool:
        true = rng.normal(size=coffees)
        found = kendall_w(true[:, None] + rng.normal(size=(coffees, tasters)), test=False)
        # The mean rank that a taster gives each coffee, less the middle one.
        rank = ndtr((true[:, None] - true) / np.sqrt(2)).sum(axis=1) - coffees / 2
        correlation = float(rank @ rank) * 12 / (coffees**3 - coffees)
        return _holds(found.low, found.high, (1 + (tasters - 1) * correlation) / tasters)

    return one


def _alpha(coffees: int, tasters: int, missing: float = 0.0) -> Panel:
    coffee, _, rest = PARTS

    def one(rng: np.random.Generator) -> bool:
        scores, levels = _scores(rng, coffees, tasters)
        scores[rng.random(scores.shape) < missing] = np.nan
        found = krippendorff_alpha(scores, draws=DRAWS, rng=rng)
        anyhow = coffee + rest + levels * (tasters - 1) / tasters
        return _holds(found.low, found.high, 1 - (levels + rest) / anyhow)

    return one


def _categories(rng: np.random.Generator, coffees: int, tasters: int) -> np.ndarray:
    common = np.sqrt(ALIKE) * rng.normal(size=(coffees, 1))
    return np.digitize(common + np.sqrt(1 - ALIKE) * rng.normal(size=(coffees, tasters)), CUTS)


def _true_kappa() -> float:
    """From a million coffees."""
    first, second = _categories(np.random.default_rng(1960), 1_000_000, 2).T
    return cohen_kappa(np.histogram2d(first, second, bins=3)[0]).estimate


def _cohen(coffees: int) -> Panel:
    truth = _true_kappa()

    def one(rng: np.random.Generator) -> bool:
        first, second = _categories(rng, coffees, 2).T.tolist()
        found = cohen_kappa(cross_count(first, second, (0, 1, 2)))
        return _holds(found.low, found.high, truth)

    return one


def _fleiss(coffees: int) -> Panel:
    truth = _true_kappa()

    def one(rng: np.random.Generator) -> bool:
        answers = _categories(rng, coffees, 5)
        found = fleiss_kappa(np.stack([(answers == category).sum(axis=1) for category in range(3)], axis=1))
        return _holds(found.low, found.high, truth)

    return one


def _holds(low: float | None, high: float | None, truth: float) -> bool:
    """Whether the interval holds it; without one the panel counts as silent."""
    if low is None or high is None:
        raise TooFewObservations("No interval.")
    return low <= truth <= high
