"""Cell sums: all that the crossed random model needs to know of the scores.

Rows of one cell (a coffee and a taster) differ by the residual alone, so their count, their means and their
sums of products about the means say everything; a table of 10^5 rows is as quick as its cells.
"""

from dataclasses import dataclass, replace
from typing import Self

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.scores import Floats, Ints, Scores
from cupwright.errors import NoSpread, Refused, TooFewObservations

Bools = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class CellSums:
    """Counts (C, T), means (q, C, T) of q columns and their products within cells (q, q).

    The columns are those of the fixed terms, the mean's first, and at the end the scores less `origin`.
    Empty cells hold 0. `coffees` and `tasters` are those with scores.
    """

    coffees: tuple[str, ...]
    tasters: tuple[str, ...]
    counts: Ints
    means: Floats
    within: Floats
    origin: float

    @property
    def rows(self) -> int:
        """How many scores."""
        return int(self.counts.sum())

    @property
    def filled(self) -> int:
        """How many cells have a score."""
        return int((self.counts > 0).sum())

    @property
    def terms(self) -> int:
        """How many fixed terms, the mean included."""
        return len(self.means) - 1

    @property
    def has_repeats(self) -> bool:
        """Whether any cell tells the residual from the coffee x taster part."""
        return self.rows > self.filled

    @property
    def is_balanced(self) -> bool:
        """Whether all cells hold equally many."""
        return bool(self.counts.min() == self.counts.max())

    @property
    def repeats_agree(self) -> bool:
        """Whether there are repeats and all of them say the same, so that they show no residual."""
        return self.has_repeats and self.within[-1, -1] == 0

    def as_one_score_a_cell(self) -> Self:
        """The cells' means as if each were one score."""
        return replace(self, counts=np.minimum(self.counts, 1), within=np.zeros_like(self.within))

    def with_noise(self, hidden: float) -> Self:
        """The same with repeats that differ by as much noise (points squared) as the scale's step hides."""
        within = self.within.copy()
        within[-1, -1] = hidden * (self.rows - self.filled)
        return replace(self, within=within)

    def of_coffees(self, order: Ints) -> Self:
        """The coffees in another order."""
        names = tuple(self.coffees[at] for at in order)
        return replace(self, coffees=names, counts=self.counts[order], means=self.means[:, order])

    def turned(self) -> Self:
        """Coffees and tasters changed about."""
        return type(self)(
            self.tasters,
            self.coffees,
            self.counts.T,
            self.means.transpose(0, 2, 1),
            self.within,
            self.origin,
        )


def cell_sums(scores: Scores, columns: Floats | None = None) -> CellSums:
    """The sums of the scores and of fixed columns.

    Parameters
    ----------
    scores : Scores
    columns : float array, shape (n_terms, n), or None
        Fixed terms beside the mean.
    """
    coffees, coffee = _used(scores.coffees, scores.coffee)
    tasters, taster = _used(scores.tasters, scores.taster)
    shape = len(coffees), len(tasters)
    cell, size = coffee * shape[1] + taster, shape[0] * shape[1]
    counts = np.bincount(cell, minlength=size)
    origin = float(scores.value[0])
    fixed = np.empty((0, len(scores))) if columns is None else columns
    all_columns = np.vstack([np.ones(len(scores)), fixed, scores.value - origin])
    sums = np.array([np.bincount(cell, weights=column, minlength=size) for column in all_columns])
    means = sums / np.maximum(counts, 1)
    rest = all_columns - means[:, cell]
    within = rest @ rest.T
    # Equal repeats have no spread; what the division left of the last digits is none.
    nothing = len(scores) * (8 * np.finfo(float).eps * np.abs(all_columns).max(axis=1)) ** 2
    within[np.diag(within) <= nothing, :] = 0.0
    within[:, np.diag(within) <= nothing] = 0.0
    return CellSums(coffees, tasters, counts.reshape(shape), means.reshape(-1, *shape), within, origin)


def refuse_unfit(cells: CellSums) -> None:
    """Refuse scores on which coffees and tasters cannot be taken apart.

    Raises
    ------
    TooFewObservations
        If there are fewer than two coffees or tasters, or too few cells to leave any rest.
    NoSpread
        If all scores are the same.
    Refused
        If some coffees share no taster, directly or through others, with the rest.
    """
    coffees, tasters = cells.counts.shape
    if coffees < 2 or tasters < 2:
        raise TooFewObservations(
            f"Taking coffees and tasters apart needs 2 of each; here are {coffees} and {tasters}.",
            todo="Add scores, or read the table itself.",
        )
    refuse_no_spread(cells)
    refuse_disconnected(cells)
    if cells.filled - coffees - tasters + 1 < 1:
        raise TooFewObservations(
            f"{cells.filled} cells of {coffees} coffees and {tasters} tasters leave no rest to judge by.",
            todo="Let more tasters score the same coffees.",
        )


def refuse_no_spread(cells: CellSums) -> None:
    """Refuse scores that are all the same."""
    scored = cells.means[-1][cells.counts > 0]
    if np.ptp(scored) == 0 and cells.within[-1, -1] == 0:
        raise NoSpread("Every score is the same.", todo="Report the common score; differences are undefined.")


def refuse_disconnected(cells: CellSums) -> None:
    """Refuse coffees that no taster links to the others."""
    there = cells.counts > 0
    reached: Bools = np.zeros(there.shape[0], dtype=bool)
    reached[0] = True
    while True:
        further: Bools = (there @ (reached @ there)) > 0
        if (further == reached).all():
            break
        reached = further
    if not reached.all():
        alone = cells.coffees[int(np.argmin(reached))]
        raise Refused(
            f"No taster links coffee {alone} to coffee {cells.coffees[0]}, not even through other coffees.",
            todo="Analyse the parts one by one, or let someone taste coffees of both.",
        )


def _used(names: tuple[str, ...], index: Ints) -> tuple[tuple[str, ...], Ints]:
    used = np.bincount(index, minlength=len(names)) > 0
    if used.all():
        return names, index
    return tuple(np.array(names, dtype=object)[used]), (np.cumsum(used) - 1)[index]
