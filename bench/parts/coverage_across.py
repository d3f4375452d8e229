"""Coverage of coffees' values over a season of linked tables, and of the slope of one that stays as it is."""

from collections.abc import Iterator
from functools import partial

import numpy as np
from parts.covered import Covered, counted

from cupwright.core.analyse.across_tables import across_tables
from cupwright.core.analyse.course_over_tables import coffee_course
from cupwright.core.analyse.scores import Scores
from cupwright.errors import Refused

# tables, tasters, coffees a table, of them at every table; spread of a coffee between tables, share missing
SIZES = (
    ("3 x 1 x 3", (3, 1, 3, 2), 0.0, 0.0),
    ("3 x 3 x 3", (3, 3, 3, 1), 0.0, 0.0),
    ("3 x 3 x 4", (3, 3, 4, 2), 0.0, 0.0),
    ("3 x 3 x 4, moving", (3, 3, 4, 2), 0.5, 0.0),
    ("6 x 4 x 5, holes", (6, 4, 5, 2), 0.0, 0.2),
    ("6 x 4 x 5, moving", (6, 4, 5, 2), 0.5, 0.2),
    ("12 x 10 x 8, moving", (12, 10, 8, 2), 0.5, 0.0),
    ("12 x 10 x 8", (12, 10, 8, 2), 0.0, 0.0),
)


def covered(panels: int) -> Iterator[Covered]:
    """The season's values at each size, then the slopes."""
    for size, shape, moving, holes in SIZES:
        yield counted("a season's coffees", size, panels, partial(_values, shape, moving, holes))
    for size, shape, moving, holes in SIZES[2:]:
        yield counted("one coffee's slope", size, panels, partial(_slope, shape, moving, holes))


def _values(
    shape: tuple[int, int, int, int], moving: float, holes: float, rng: np.random.Generator
) -> Iterator[bool]:
    scores, truth = season(shape, moving, holes, rng)
    found = across_tables(scores)
    main = [one for one in found.values if one.group == 1]
    true = np.array([truth[int(one.name)] for one in main])
    held = zip(main, true - true.mean(), strict=True)
    return iter(
        [one.low - one.estimate <= at - one.difference <= one.high - one.estimate for one, at in held]
    )


def _slope(shape: tuple[int, int, int, int], moving: float, holes: float, rng: np.random.Generator) -> bool:
    scores, _ = season(shape, moving, holes, rng)
    slope = coffee_course(scores, "0").slope
    if slope is None:
        raise Refused("A drift cannot be told.")
    return bool(slope.low <= 0 <= slope.high)


def season(
    shape: tuple[int, int, int, int], moving: float, holes: float, rng: np.random.Generator
) -> tuple[Scores, np.ndarray]:
    """Scores of a season and each coffee's true value; coffees' spread 1, sittings' levels 0.7, rest 1."""
    tables, tasters, each, linking = shape
    own = each - linking
    coffees = linking + tables * own
    truth = rng.standard_normal(coffees)
    table, taster, place = (index.ravel() for index in np.indices((tables, tasters, each)))
    coffee = np.where(place < linking, place, linking + table * own + place - linking)
    value = 80 + truth[coffee] + 0.7 * rng.standard_normal((tables, tasters))[table, taster]
    value += moving * rng.standard_normal((tables, coffees))[table, coffee]
    value += rng.standard_normal(len(value))
    kept = rng.random(len(value)) >= holes
    table, taster, coffee, value = (column[kept] for column in (table, taster, coffee, value))
    names = (tuple(map(str, range(count))) for count in (coffees, tasters, tables))
    coffee_names, taster_names, table_names = names
    repeat = np.zeros(len(value), np.int64)
    return (
        Scores(coffee_names, taster_names, coffee, taster, value, repeat, table=table, tables=table_names),
        truth,
    )
