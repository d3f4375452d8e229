"""Does an axis carry more than chance makes? Eigenvalues against those of tables dealt out at random."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cupwright.core.analyse.resamples import generator
from cupwright.errors import IncompleteTable, NoSpread, Refused, TooFewObservations

Floats = NDArray[np.float64]

DEALS, FEWEST_DEALS = 999, 99
_AFFORDED = 60_000_000
_CELLS = 2_000_000


def axes_beyond_chance(
    values: ArrayLike, *, deals: int = DEALS, rng: np.random.Generator | None = None
) -> Floats:
    """How often does chance alone make axes as long as these?

    Parameters
    ----------
    values : float array, shape (n_tasters, n_coffees, n_columns) or (n_coffees, n_columns)
        In the units that the map is made in. With tasters, each taster's coffees are dealt out at random:
        what is left is what tasters would agree on by luck. Without, each column by itself.
    deals : int
        How many random tables.
    rng : numpy Generator, optional
        Source of chance; a fixed one if left out.

    Returns
    -------
    float array, shape (k,)
        A p value for each axis, (b + 1)/(B + 1), never smaller than that of the axis before it.

    Raises
    ------
    TooFewObservations
        If there are fewer than three coffees, or two coffees and a single column.
    IncompleteTable
        If a cell is missing.
    NoSpread
        If no two coffees differ.

    Notes
    -----
    Error: for the first axis exact but for the number of deals, since under no difference between coffees all
    deals are equally likely. For later ones careful: dealt tables still hold the spread of the axes before.
    Source: [Horn1965]; by dealing instead of drawing normal tables, [BujaEyuboglu1992].
    """
    table = _checked(values)
    found = _eigenvalues(table.mean(axis=0)[None])[0]
    if not found[0] > 0:
        raise NoSpread("No two coffees differ.", todo="There is no axis to look at.")
    kept = found > 1e-9 * found[0]
    chance = generator(rng)
    above = np.ones(len(found))
    for some in _batches(deals, table.size):
        dealt = _eigenvalues(_dealt(table, some, chance))
        above += np.sum(dealt >= found - 1e-9 * found[0], axis=0)
    return np.asarray(np.maximum.accumulate(above / (deals + 1))[kept])


def affordable(count: int, cells: int, *, least: int = FEWEST_DEALS) -> int:
    """How many of `count` random tables of so many cells are looked at, so that a crowd takes seconds too."""
    return min(count, max(least, _AFFORDED // max(cells, 1)))


def _checked(values: ArrayLike) -> Floats:
    """As (n_tasters, n_coffees, n_columns); a table without tasters becomes one taster a column."""
    table = np.array(values, dtype=float)
    if table.ndim not in (2, 3):
        raise Refused(f"A table has 2 or 3 dimensions, not {table.ndim}.", todo="Give one table a taster.")
    if table.ndim == 2 or len(table) == 1:
        flat = table.reshape(table.shape[-2], table.shape[-1])
        # Alone in its column, each attribute is dealt out by itself; the mean brings them back together.
        table = np.stack(
            [np.where(np.arange(flat.shape[1]) == one, flat, 0.0) for one in range(flat.shape[1])]
        )
    if table.shape[1] < 3 or not table.shape[2]:
        raise TooFewObservations("Chance is judged from three coffees on.", todo="Read the table as it is.")
    if not np.isfinite(table).all():
        raise IncompleteTable(
            "A cell of the table is missing.", todo="Drop that taster or that column first."
        )
    return np.asarray(table - table.mean(axis=1, keepdims=True))


def _batches(deals: int, cells: int) -> list[int]:
    """Deals in parts of at most some million cells."""
    most = max(1, _CELLS // cells)
    return [min(most, deals - start) for start in range(0, deals, most)]


def _dealt(table: Floats, count: int, chance: np.random.Generator) -> Floats:
    """Means over tasters of `count` tables with each taster's coffees in random order."""
    tasters, coffees, columns = table.shape
    total = np.zeros((count, coffees, columns))
    for one in table:
        total += one[np.argsort(chance.random((count, coffees)), axis=1)]
    return np.asarray(total / tasters)


def _eigenvalues(means: Floats) -> Floats:
    """Squared singular values of each table, shape (n, min(C, P))."""
    turned = means.swapaxes(1, 2)
    products = means @ turned if means.shape[1] <= means.shape[2] else turned @ means
    return np.asarray(np.clip(np.linalg.eigvalsh(products)[:, ::-1], 0, None))
