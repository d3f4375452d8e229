"""Invented seasons: scores of several tables that share some of their coffees."""

from collections.abc import Sequence

import numpy as np

from cupwright.core.analyse.scores import Scores


def season_of(rows: Sequence[tuple[str, str, str, float]]) -> Scores:
    """Scores of rows (table, taster, coffee, points); tables in the order of their names."""
    columns = list(zip(*rows, strict=True))
    indexed = [np.unique(np.array(column), return_inverse=True) for column in columns[:3]]
    (tables, table), (tasters, taster), (coffees, coffee) = indexed
    names = [tuple(map(str, found)) for found in (coffees, tasters, tables)]
    value = np.array(columns[3], dtype=float)
    repeat = np.zeros(len(value), dtype=np.int64)
    return Scores(names[0], names[1], coffee, taster, value, repeat, table=table, tables=names[2])


def drawn_season(
    *,
    tables: int = 4,
    tasters: int = 3,
    linking: int = 2,
    own: int = 2,
    noise: float = 1.0,
    moving: float = 0.0,
    drift: float = 0.0,
    seed: int = 0,
) -> list[tuple[str, str, str, float]]:
    """Coffees L1.. stand on every table, the others on one; L1 gains `drift` from table to table."""
    rng = np.random.default_rng(seed)
    value = {f"L{n}": rng.normal() for n in range(1, linking + 1)}
    rows = []
    for table in range(tables):
        there = [*list(value)[:linking], *(f"T{table}-{n}" for n in range(own))]
        for coffee in there:
            value.setdefault(coffee, rng.normal())
        day = {coffee: moving * rng.normal() for coffee in there}
        for taster in range(tasters):
            sitting = rng.normal()
            for coffee in there:
                true = 80 + value[coffee] + day[coffee] + sitting + drift * table * (coffee == "L1")
                rows.append((f"t{table}", f"taster {taster}", coffee, true + noise * rng.normal()))
    return rows
