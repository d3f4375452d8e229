"""How even serving orders are, beside the bound that no orders can be below, and how long drawing them takes.

    .venv/bin/python bench/orders.py [--quick] [--json]

The measure is the sum of the squares of all counts "this sample stood at this position" and "that sample came
right after this one" (docs/methods/serving_orders.md). `ratio` is the worst over several draws of measure to
bound, 1 where nothing could be more even; `chance` is the same for orders drawn by chance alone, so that it
shows what balancing is worth; `over` counts what is over in squares. Seconds are the median of a draw.
Blocks: `together` is the same ratio for how often samples are served and pairs go to one taster.
"""

import argparse
import json
import random
import statistics
import time
from dataclasses import dataclass

from cupwright.core.plan.block_search import Together, block_bound
from cupwright.core.plan.order_search import bound, cost
from cupwright.core.plan.serving_order import serving_orders, within

Figures = dict[str, float]

# (tasters, samples)
FULL = ((24, 8), (5, 6), (7, 8), (3, 10), (13, 9), (40, 12), (1, 8), (8, 1), (5, 5), (7, 7), (9, 9), (24, 9))
# (tasters, samples, samples each)
BLOCKS = ((7, 7, 3), (12, 9, 3), (13, 13, 4), (10, 6, 3), (10, 12, 6), (12, 40, 8))
WANTED = (24, 8)
WITHIN, SECONDS = 1.02, 1.0


@dataclass(frozen=True, slots=True)
class Drawn:
    """What came of several draws of one shape."""

    ratio: float
    over: float
    chance: float
    together: float
    seconds: float


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description="How even serving orders are, beside the bound.")
    parser.add_argument("--quick", action="store_true", help="fewer draws, some seconds")
    parser.add_argument("--json", action="store_true", help="one JSON object on the last line")
    asked = parser.parse_args()
    draws = 3 if asked.quick else 15
    shapes = [(tasters, samples, 0) for tasters, samples in FULL] + list(BLOCKS)
    found = {shape: drawn(*shape, draws) for shape in shapes}
    if asked.json:
        print(json.dumps(figures(found)))
        return
    print(f"{'tasters x samples':22}{'ratio':>8}{'over':>6}{'chance':>9}{'together':>10}{'seconds':>10}")
    for shape, one in found.items():
        print(
            f"{named(shape):22}{one.ratio:8.4f}{one.over:6.0f}{one.chance:9.4f}{one.together:10.4f}"
            f"{one.seconds:10.4f}"
        )
    one = found[*WANTED, 0]
    kept = one.ratio <= WITHIN and one.seconds < SECONDS
    said = "yes" if kept else "NO"
    print(f"{WANTED[0]} x {WANTED[1]} within {WITHIN} of the bound in under {SECONDS:g} s: {said}")


def drawn(tasters: int, samples: int, each: int, draws: int) -> Drawn:
    """Several draws of one shape, each from its own seed, in one flight."""
    places = [str(number) for number in range(samples)]
    ratios, over, chances, together, seconds = [], [], [], [], []
    for seed in range(draws):
        began = time.perf_counter()
        orders = serving_orders([places], tasters, each=each, rng=random.Random(seed))
        seconds.append(time.perf_counter() - began)
        numbered = within(places, orders)
        least = bound(samples, numbered)
        ratios.append(cost(samples, numbered) / least)
        over.append(cost(samples, numbered) - least)
        by_chance = [random.Random(f"{seed} {n}").sample(row, len(row)) for n, row in enumerate(numbered)]
        chances.append(cost(samples, by_chance) / least)
        pairs = Together(samples, numbered)
        together.append(pairs.cost / block_bound(samples, tasters, each or samples) if samples > 1 else 1.0)
    return Drawn(max(ratios), max(over), statistics.mean(chances), max(together), statistics.median(seconds))


def named(shape: tuple[int, int, int]) -> str:
    """A shape in words."""
    tasters, samples, each = shape
    return f"{tasters} x {samples}" + (f", {each} each" if each else "")


def figures(found: dict[tuple[int, int, int], Drawn]) -> Figures:
    """Flat names for all figures."""
    flat: Figures = {}
    for (tasters, samples, each), one in found.items():
        name = f"{tasters}x{samples}" + (f"_{each}" if each else "")
        flat |= {f"{name}_ratio": one.ratio, f"{name}_over": one.over, f"{name}_chance": one.chance}
        flat |= {f"{name}_together": one.together, f"{name}_s": one.seconds}
    return flat


if __name__ == "__main__":
    main()
