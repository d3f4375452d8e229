"""Scores: one attribute's numbers as columns, from wherever they came: a table, a file, an array."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from cupwright.errors import Refused, TooFewObservations

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Scores:
    """One attribute: row i is one score of taster `taster[i]` for coffee `coffee[i]`.

    `coffees`, `tasters` and `tables` are names; `coffee`, `taster`, `table` are indices into them, all
    columns of shape (n,). `value` is finite. `repeat` counts one taster's scores of one coffee from 0.
    `position` is the place in the taster's order, from 1; `temperature` in °C; both are NaN where unknown,
    and None where nobody knows any.
    """

    coffees: tuple[str, ...]
    tasters: tuple[str, ...]
    coffee: Ints
    taster: Ints
    value: Floats
    repeat: Ints
    position: Floats | None = None
    temperature: Floats | None = None
    table: Ints | None = None
    tables: tuple[str, ...] = ()

    def __len__(self) -> int:
        return len(self.value)

    @cached_property
    def counts(self) -> Ints:
        """How often each taster scored each coffee, shape (n_coffees, n_tasters)."""
        cells = self.coffee * len(self.tasters) + self.taster
        return np.bincount(cells, minlength=self._size).reshape(self._shape)

    @cached_property
    def means(self) -> Floats:
        """Mean of each cell, shape (n_coffees, n_tasters); NaN where it is empty."""
        cells = self.coffee * len(self.tasters) + self.taster
        sums = np.bincount(cells, weights=self.value, minlength=self._size).reshape(self._shape)
        empty = np.full(self._shape, np.nan)
        return np.asarray(np.divide(sums, self.counts, out=empty, where=self.counts > 0))

    @property
    def is_balanced(self) -> bool:
        """Whether every taster scored every coffee equally often."""
        return bool(self.counts.size and self.counts.min() == self.counts.max() > 0)

    @cached_property
    def cells(self) -> Floats:
        """All values, shape (n_coffees, n_tasters, most repeats), in the order of the rows; NaN fills up."""
        filled = np.full((*self._shape, max(int(self.counts.max(initial=0)), 1)), np.nan)
        order = np.lexsort((self.repeat, self.taster, self.coffee))
        cell = self.coffee[order] * len(self.tasters) + self.taster[order]
        first = np.searchsorted(cell, cell)
        filled[self.coffee[order], self.taster[order], np.arange(len(order)) - first] = self.value[order]
        return filled

    @property
    def _shape(self) -> tuple[int, int]:
        return len(self.coffees), len(self.tasters)

    @property
    def _size(self) -> int:
        return len(self.coffees) * len(self.tasters)


def scores_of(values: Scores | Floats, *, coffees: Sequence[str] = (), tasters: Sequence[str] = ()) -> Scores:
    """The same scores as columns.

    Parameters
    ----------
    values : Scores, or float array of shape (n_coffees, n_tasters) or (n_coffees, n_tasters, n_repeats)
        NaN where there is no score. A `Scores` is handed back as it is.
    coffees, tasters : sequences of str
        Names; counted from 1 if left out.

    Raises
    ------
    TooFewObservations
        If there is not a single score.
    Refused
        If the array has another number of dimensions, names do not fit, or a value is infinite.
    """
    if isinstance(values, Scores):
        return values
    array = np.asarray(values, dtype=float)
    if array.ndim not in (2, 3):
        raise Refused(
            f"Scores have 2 or 3 dimensions (coffees, tasters, repeats), not {array.ndim}.",
            todo="Give one row a coffee and one column a taster.",
        )
    array = array[:, :, None] if array.ndim == 2 else array
    names = (
        _names(coffees, array.shape[0], "coffee"),
        _names(tasters, array.shape[1], "taster"),
    )
    coffee, taster, repeat = np.nonzero(~np.isnan(array))
    if not len(coffee):
        raise TooFewObservations("There is not a single score.", todo="Add scores.")
    found = array[coffee, taster, repeat]
    if not np.isfinite(found).all():
        raise Refused("A score is infinite.", todo="Correct it.")
    return Scores(*names, coffee, taster, found, repeat)


def counted_repeats(coffee: Ints, taster: Ints, *order: Floats | Ints) -> Ints:
    """How often each row's taster had scored its coffee before, shape (n,); `order`: by what, last first."""
    rows = np.lexsort((np.arange(len(coffee)), *order, taster, coffee))
    cell = coffee[rows] * (int(taster.max(initial=0)) + 1) + taster[rows]
    repeat = np.empty(len(rows), np.int64)
    repeat[rows] = np.arange(len(rows)) - np.searchsorted(cell, cell)
    return repeat


def _names(given: Sequence[str], count: int, what: str) -> tuple[str, ...]:
    if given and len(given) != count:
        raise Refused(f"{count} {what}s have {len(given)} names.", todo=f"Give one name a {what}.")
    return tuple(given) or tuple(str(number) for number in range(1, count + 1))
