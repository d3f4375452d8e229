"""A season of linked tables against a general least squares routine on the same columns; 10^6 scores."""

from time import perf_counter

import numpy as np
from parts.interleaved import interleaved

from cupwright.core.analyse.across_tables import across_tables
from cupwright.core.analyse.scores import Floats, Scores


def figures(*, quick: bool) -> dict[str, float]:
    """The ratio over 40 tables of 5 coffees and 4 tasters, and seconds of 10^6 scores."""
    small = _season(tables=40, tasters=4, each=5, coffees=40)
    ours = [one.difference or 0.0 for one in across_tables(small).values]
    theirs = _least_squares(small)
    assert np.abs(np.array(ours) - (theirs - theirs.mean())).max() < 1e-6
    found = interleaved(lambda: across_tables(small), lambda: _least_squares(small), turns=5)
    large = _season(tables=1_000 if quick else 10_000, tasters=10, each=10, coffees=2_000)
    began = perf_counter()
    across_tables(large)
    return found.figures("across") | {f"across_{len(large):.0e}_seconds": perf_counter() - began}


def _season(*, tables: int, tasters: int, each: int, coffees: int) -> Scores:
    rng = np.random.default_rng(1)
    table, taster, place = (index.ravel() for index in np.indices((tables, tasters, each)))
    served = np.array([rng.choice(coffees, each, replace=False) for _ in range(tables)])
    coffee = served[table, place]
    value = 80 + rng.standard_normal(coffees)[coffee] + rng.standard_normal(len(table))
    names = (tuple(map(str, range(count))) for count in (coffees, tasters, tables))
    coffee_names, taster_names, table_names = names
    repeat = np.zeros(len(value), np.int64)
    return Scores(coffee_names, taster_names, coffee, taster, value, repeat, table=table, tables=table_names)


def _least_squares(scores: Scores) -> Floats:
    """Indicators of sittings and coffees, and numpy's routine."""
    rows = np.arange(len(scores))
    sitting = scores.table * len(scores.tasters) + scores.taster
    design = np.zeros((len(rows), sitting.max() + 1 + len(scores.coffees)))
    design[rows, sitting] = 1.0
    design[rows, sitting.max() + 1 + scores.coffee] = 1.0
    return np.linalg.lstsq(design, scores.value)[0][sitting.max() + 1 :]
