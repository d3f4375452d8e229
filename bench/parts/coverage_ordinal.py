"""Ordinal answers: how often coffees, all differences together, and the spread of tasters are held."""

from collections.abc import Callable, Iterator

import numpy as np
from parts.covered import Covered, counted

from cupwright.core.analyse.cumulative_link import cumulative_link
from cupwright.core.analyse.cumulative_link_mixed import CumulativeLinkMixed, cumulative_link_mixed
from cupwright.errors import Refused

# Where answers are hardly more than parameters, intervals may be wide; they may not be narrow.
AT_LEAST = (0.93, 1.0)
EVEN = (0.93, 0.97)
# coffees, tasters, categories
SIZES = ((3, 3, 5), (3, 5, 5), (4, 5, 9), (3, 8, 5), (6, 6, 7), (12, 10, 9))
Panel = tuple[CumulativeLinkMixed, np.ndarray]


def covered(panels: int) -> Iterator[Covered]:
    """Levels at the sizes people use, and the two-group case without tasters."""
    for size in SIZES:
        yield from of_size(size, panels)
    for count in (10, 20, 40):
        yield counted(
            "ordinal, two groups, profile interval",
            f"2 x {count}",
            panels,
            lambda rng, count=count: _two_groups(rng, count),
            goal=EVEN,
        )


def of_size(size: tuple[int, int, int], panels: int) -> Iterator[Covered]:
    """Three questions of the same fits."""
    drawn = list(_panels(size, panels))
    name = f"{size[0]} x {size[1]}, {size[2]} steps"
    goal = EVEN if size[0] * size[1] >= 24 else AT_LEAST
    yield _of("ordinal, each coffee about the mean", name, drawn, _each, goal)
    yield _of("ordinal, all differences together", name, drawn, _together, AT_LEAST)
    yield _of("ordinal, spread of tasters", name, drawn, _spread, AT_LEAST)


def _of(
    name: str,
    size: str,
    drawn: list[Panel | Refused],
    held: Callable[[CumulativeLinkMixed, np.ndarray], Iterator[bool]],
    goal: tuple[float, float],
) -> Covered:
    waiting = iter(drawn)

    def one(_: np.random.Generator) -> Iterator[bool]:
        panel = next(waiting)
        if isinstance(panel, Refused):
            raise panel
        return held(*panel)

    return counted(name, size, len(drawn), one, goal=goal)


def _panels(size: tuple[int, int, int], panels: int) -> Iterator[Panel | Refused]:
    """Coffees and tasters with a standard deviation of 1 logit, thresholds as of even use of the scale."""
    rng = np.random.default_rng(20261125)
    coffees, tasters, categories = size
    cuts = 1.3 * np.log(np.arange(1, categories) / np.arange(categories - 1, 0, -1))
    for _ in range(panels):
        truth = rng.normal(size=coffees)
        truth -= truth.mean()
        latent = truth[:, None] + rng.normal(size=tasters) + rng.logistic(size=(coffees, tasters))
        try:
            yield cumulative_link_mixed(np.searchsorted(cuts, latent) + 1.0), truth
        except Refused as silence:
            yield silence


def _each(found: CumulativeLinkMixed, truth: np.ndarray) -> Iterator[bool]:
    return (one.low <= true <= one.high for one, true in zip(found.coffees, truth, strict=True))


def _together(found: CumulativeLinkMixed, truth: np.ndarray) -> Iterator[bool]:
    first, second = np.triu_indices(len(truth), 1)
    gaps = truth[first] - truth[second]
    yield all(pair.low <= gap <= pair.high for pair, gap in zip(found.pairs, gaps, strict=True))


def _spread(found: CumulativeLinkMixed, _: np.ndarray) -> Iterator[bool]:
    interval = found.taster_sd_interval
    yield interval is not None and interval.low <= 1.0 <= interval.high


def _two_groups(rng: np.random.Generator, count: int) -> bool:
    group, truth = np.repeat([0.0, 1.0], count), 1.0
    latent = truth * group + rng.logistic(size=2 * count)
    fit = cumulative_link(np.searchsorted([-1.5, 0.0, 1.0, 2.5], latent), group)
    return fit.intervals[0].low <= truth <= fit.intervals[0].high
