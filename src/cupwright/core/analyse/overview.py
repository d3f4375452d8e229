"""Overview: each coffee's mean by attribute, and each taster's habit and scatter, over millions of scores."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cupwright.core.analyse.running_sums import CHUNK, RunningSums, folded, no_scores
from cupwright.core.analyse.scores import Floats, Ints
from cupwright.core.analyse.tabular import Record, Tabular
from cupwright.errors import Refused, TooFewObservations


@dataclass(frozen=True, slots=True)
class ScoreColumns:
    """Scores of many tables as columns of shape (n,): indices into the names, and the value in points.

    Integers of any width and values of single or double precision, in memory or mapped from a file.
    """

    coffees: tuple[str, ...]
    tasters: tuple[str, ...]
    attributes: tuple[str, ...]
    coffee: NDArray[np.integer]
    taster: NDArray[np.integer]
    attribute: NDArray[np.integer]
    value: NDArray[np.floating]

    def __len__(self) -> int:
        return len(self.value)


@dataclass(frozen=True, slots=True)
class Overview(Tabular):
    """Means and scatter over all scores.

    `coffee_sums` is of cells coffee x attribute, `taster_sums` of taster x attribute, row by row.
    A taster's sums are of what is left when the coffee's mean is taken off: their mean is the taster's habit
    (bias), their spread how far single scores scatter about it (consistency), in points.
    """

    coffees: tuple[str, ...]
    tasters: tuple[str, ...]
    attributes: tuple[str, ...]
    coffee_sums: RunningSums
    taster_sums: RunningSums

    def coffee_means(self) -> Floats:
        """Mean points, shape (n_coffees, n_attributes); NaN where nobody scored."""
        return self.coffee_sums.means.reshape(len(self.coffees), -1)

    def biases(self) -> Floats:
        """How far each taster lies above the coffees' means, shape (n_tasters, n_attributes)."""
        return self.taster_sums.means.reshape(len(self.tasters), -1)

    def scatters(self) -> Floats:
        """How far each taster's scores scatter about them, shape (n_tasters, n_attributes)."""
        return self.taster_sums.spreads.reshape(len(self.tasters), -1)

    def rows(self) -> list[Record]:
        """A record for each coffee and attribute that was scored."""
        means, spreads = self.coffee_sums.means, self.coffee_sums.spreads
        return [
            {
                "coffee": self.coffees[cell // len(self.attributes)],
                "attribute": self.attributes[cell % len(self.attributes)],
                "scores": int(self.coffee_sums.count[cell]),
                "mean": float(means[cell]),
                "spread": None if np.isnan(spreads[cell]) else float(spreads[cell]),
            }
            for cell in np.flatnonzero(self.coffee_sums.count)
        ]


def overview(columns: ScoreColumns) -> Overview:
    """What was each coffee given on average, and who scores high, low or erratically?

    Parameters
    ----------
    columns : ScoreColumns
        Any number of scores. Two passes of chunks: what is put aside does not grow with the number of scores.

    Raises
    ------
    TooFewObservations
        If there is no score.
    Refused
        If a score is not finite.

    Notes
    -----
    Error: plain means, exact but for rounding; where tasters met different coffees, a habit is mixed with
    which coffees they met with whom. `across_tables` takes that apart, at more cost.
    Source: sums as in [ChanGolubLeVeque1983].
    """
    if not len(columns):
        raise TooFewObservations("There is not a single score.", todo="Add scores.")
    wide = len(columns.attributes)
    coffees = no_scores(len(columns.coffees) * wide)
    for cell, _, value in _chunks(columns):
        if not np.isfinite(value).all():
            raise Refused("A score is not a finite number.", todo="Correct it, or leave the row out.")
        coffees = folded(coffees, cell, value)
    tasters = no_scores(len(columns.tasters) * wide)
    for cell, taster, value in _chunks(columns):
        tasters = folded(tasters, taster, value - coffees.mean[cell])
    return Overview(columns.coffees, columns.tasters, columns.attributes, coffees, tasters)


def _chunks(columns: ScoreColumns) -> Iterator[tuple[Ints, Ints, Floats]]:
    """(cell coffee x attribute, cell taster x attribute, value) of some scores at a time."""
    wide = len(columns.attributes)
    for at in range(0, len(columns), CHUNK):
        some = slice(at, at + CHUNK)
        attribute = columns.attribute[some].astype(np.int64)
        yield (
            columns.coffee[some].astype(np.int64) * wide + attribute,
            columns.taster[some].astype(np.int64) * wide + attribute,
            columns.value[some].astype(np.float64),
        )
