"""Coverage of coffee estimates and of all their differences together, over simulated panels."""

from collections.abc import Iterator

import numpy as np
from parts.covered import Covered, counted

from cupwright import compare_coffees

# coffees, tasters, repeats, share of missing scores, deviations of coffee, taster, taste and residual
SIZES = (
    ("3 x 3", (3, 3, 1), 0.0, (1.0, 0.7, 0.0, 1.0)),
    ("3 x 5", (3, 5, 1), 0.0, (1.0, 0.7, 0.0, 1.0)),
    ("3 x 5, alike", (3, 5, 1), 0.0, (0.5, 0.7, 0.0, 1.0)),
    ("4 x 5 x 2", (4, 5, 2), 0.0, (1.0, 0.7, 0.5, 1.0)),
    ("3 x 1 x 3", (3, 1, 3), 0.0, (1.0, 0.7, 0.0, 1.0)),
    ("6 x 4", (6, 4, 1), 0.0, (1.0, 0.7, 0.0, 1.0)),
    ("6 x 5, holes", (6, 5, 1), 0.2, (1.0, 0.7, 0.0, 1.0)),
    ("6 x 4 x 2, holes", (6, 4, 2), 0.2, (1.0, 0.7, 0.5, 1.0)),
    ("12 x 10", (12, 10, 1), 0.0, (1.0, 0.7, 0.0, 1.0)),
)


def covered(panels: int) -> Iterator[Covered]:
    """The families of intervals at each size."""
    for size, shape, holes, deviations in SIZES:
        for name, pairs in (("coffee estimates", False), ("all differences together", True)):

            def one(
                rng: np.random.Generator,
                of: tuple[object, ...] = (shape, holes, deviations, pairs),
            ) -> Iterator[bool]:
                return _held(rng, *of)  # type: ignore[arg-type] # the tuple above, bound early

            yield counted(name, size, panels, one)


def _held(
    rng: np.random.Generator,
    shape: tuple[int, int, int],
    holes: float,
    deviations: tuple[float, ...],
    pairs: bool,
) -> Iterator[bool]:
    coffees, tasters, _ = shape
    of_coffee, of_taster, of_taste, of_rest = deviations
    coffee = of_coffee * rng.standard_normal(coffees)
    taste = of_taste * rng.standard_normal((coffees, tasters))
    level = of_taster * rng.standard_normal(tasters)
    scores = (coffee[:, None] + level + taste)[:, :, None] + of_rest * rng.standard_normal(shape)
    scores[rng.random(shape) < holes] = np.nan
    # One taster's table is about that taster's coffees.
    truth = coffee + level[0] + taste[:, 0] if tasters == 1 else coffee
    found = compare_coffees(scores, rng=rng)
    if not pairs:
        true = dict(zip(map(str, range(1, coffees + 1)), truth, strict=True))
        return iter([bool(one.low <= true[one.coffee] <= one.high) for one in found.coffees])
    differences = ((one.low, truth[int(one.a) - 1] - truth[int(one.b) - 1], one.high) for one in found.pairs)
    return iter([all(low <= true <= high for low, true, high in differences)])
