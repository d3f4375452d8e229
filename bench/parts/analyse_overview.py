"""The overview of 10^6 and 10^7 scores in memory against plain numpy on the same arrays; folding more in."""

import tracemalloc
from functools import partial

import numpy as np
from parts.interleaved import interleaved

from cupwright.core.analyse.overview import ScoreColumns, overview
from cupwright.core.analyse.running_sums import folded

COFFEES, TASTERS, ATTRIBUTES, NEW = 400, 5_000, 10, 2_000


def figures(*, quick: bool) -> dict[str, float]:
    """Seconds, ratios to numpy, memory over the data's, and seconds to fold 2,000 new scores."""
    found: dict[str, float] = {}
    for name, count in (("1e6", 10**6), *(() if quick else (("1e7", 10**7),))):
        columns = _drawn(count)
        _check(columns)
        compared = interleaved(partial(overview, columns), partial(_numpy, columns), turns=5)
        found |= compared.figures(f"overview_{name}")
        found[f"overview_{name}_memory_ratio"] = _peak(columns)
    sums = overview(columns).coffee_sums
    rng = np.random.default_rng(2)
    cell, value = rng.integers(0, COFFEES * ATTRIBUTES, NEW), rng.normal(80.0, 3.0, NEW)
    fold = interleaved(lambda: folded(sums, cell, value), lambda: None, turns=9, calls=20)
    return found | {"fold_2000_seconds": fold.ours}


def _drawn(count: int) -> ScoreColumns:
    rng = np.random.default_rng(1)
    return ScoreColumns(
        tuple(map(str, range(COFFEES))),
        tuple(map(str, range(TASTERS))),
        tuple(map(str, range(ATTRIBUTES))),
        rng.integers(0, COFFEES, count, dtype=np.int32),
        rng.integers(0, TASTERS, count, dtype=np.int32),
        rng.integers(0, ATTRIBUTES, count, dtype=np.int16),
        rng.normal(80.0, 3.0, count),
    )


def _numpy(columns: ScoreColumns) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Means of coffees, and bias and scatter of tasters, as anybody would write them down."""
    cell = columns.coffee.astype(np.int64) * ATTRIBUTES + columns.attribute
    mean = np.bincount(cell, columns.value) / np.bincount(cell)
    apart = columns.value - mean[cell]
    who = columns.taster.astype(np.int64) * ATTRIBUTES + columns.attribute
    often = np.bincount(who)
    bias = np.bincount(who, apart) / often
    scatter = np.sqrt((np.bincount(who, apart * apart) - often * bias**2) / (often - 1))
    return mean, bias, scatter


def _check(columns: ScoreColumns) -> None:
    ours, theirs = overview(columns), _numpy(columns)
    for mine, other in zip((ours.coffee_means(), ours.biases(), ours.scatters()), theirs, strict=True):
        assert np.abs(mine.ravel() - other).max() < 1e-6


def _peak(columns: ScoreColumns) -> float:
    data = sum(one.nbytes for one in (columns.coffee, columns.taster, columns.attribute, columns.value))
    tracemalloc.start()
    overview(columns)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return peak / data
